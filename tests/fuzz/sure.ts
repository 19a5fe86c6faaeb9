import { Dice } from '../property/dice.ts';
import { drawn, drawnBeyond, inHindsight, sureQuestion } from '../property/plan-sure.ts';

/** How often plans at 90 of 100 break a limit: 500 draws of the placing errors for each of 200 random feet (`node tests/fuzz/sure.ts`). */
const [feet, draws] = [Number(process.argv[2] ?? 200), Number(process.argv[3] ?? 500)];
const dice = new Dice(2026);
const counted = { plans: 0, draws: 0, broken: 0, beyond: 0, most: 0, placings: 0, hindsight: 0 };
for (let seed = 5001; counted.plans < feet; seed++) {
  const question = sureQuestion(seed, 90);
  const made = drawn(question, draws, dice);
  if (!made) continue;
  counted.plans += 1;
  counted.draws += draws;
  counted.broken += made.broken;
  counted.most = Math.max(counted.most, made.broken / draws);
  counted.beyond += drawnBeyond(question, made.plan, draws / 5, dice);
  const { plans, broken } = inHindsight(question, Math.ceil(draws / 50), dice);
  counted.placings += plans;
  counted.hindsight += broken;
}
const share = (part: number, of: number): string => `${((100 * part) / of).toFixed(2)} %`;
console.log(`${counted.plans} plans, ${counted.draws} draws`);
console.log(
  `break a limit: ${share(counted.broken, counted.draws)}, at most ${share(counted.most, 1)} of one plan's draws`,
);
console.log(`half a millimetre more would: ${share(counted.beyond, counted.draws / 5)}`);
console.log(
  `planned by a placing of the true foot, broken on it: ${share(counted.hindsight, counted.placings)} of ${counted.placings}`,
);
process.exitCode = counted.broken / counted.draws > 0.1 ? 1 : 0;
