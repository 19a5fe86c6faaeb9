import {
  answerTo,
  belowItsFilm,
  byBruteForce,
  complaintsOf,
  exactly,
  questionOf,
  visitOf,
} from '../property/plan-contract.ts';

/**
 * Asks for a plan of so many random feet (`node tests/fuzz/plans.ts 5000`), writes each into its case and checks it there; of every
 * tenth the largest cut is sought by trying as well. Ends with 1 at any exception.
 */
const feet = Number(process.argv[2] ?? 5000);
const counted = { plans: 0, below: 0, withheld: 0, refused: 0, tried: 0 };
const exceptions: string[] = [];
for (let seed = 1; seed <= feet; seed++) {
  const question = questionOf(seed);
  const { plan, says } = answerTo(question);
  if (!plan) counted.refused += 1;
  else if (says !== '') counted.withheld += 1;
  else {
    counted.plans += 1;
    for (const one of complaintsOf(question.text, visitOf(question.foot, plan), question.settings))
      exceptions.push(`seed ${seed}, at the end: ${one}`);
  }
  const other = belowItsFilm(question);
  if (other) counted.below += 1;
  for (const one of other?.complaints ?? []) exceptions.push(`seed ${seed}, below the film: ${one}`);
  if (seed % 10 !== 0) continue;
  const sure = exactly(question);
  const made = answerTo(sure);
  if (made.lacking) continue;
  counted.tried += 1;
  const largest = byBruteForce(sure);
  const heel = made.plan?.size.heelDown ?? Math.min(largest, 0);
  if (heel !== largest) exceptions.push(`seed ${seed}: planned ${heel} mm, by trying ${largest} mm (${made.says})`);
}
console.log(JSON.stringify({ feet, ...counted, exceptions: exceptions.length }));
for (const one of exceptions) console.log(one);
process.exitCode = exceptions.length > 0 ? 1 : 0;
