import { Dice, round } from './dice.ts';
import { writtenFilm, writtenLandmark } from './film-notation.ts';
import { knownBones } from './oracle/bones.ts';
import { scaleOf, type Film, type Landmark, type Point } from './oracle/lateral.ts';
import { randomFoot, toNotation, type RandomFoot } from './random-foot.ts';
import { randomScale } from './random-scale.ts';

/** A film with `scale bone`, and the other films of its foot that it takes its scale from. */
export interface RandomBoneCase {
  readonly foot: RandomFoot;
  readonly others: readonly Film[];
  /** Its scale is a fifth too large: the bones of the others speak against it. */
  readonly wrong: Film | undefined;
  readonly text: string;
}

const needed = [
  'p3.tip',
  'p3.wing',
  'p3.wing.other',
  'p3.extensor',
  'coffin.centre',
  'pastern.centre',
  'heel.ground',
  'toe.ground',
];
const leftOut = ['coffin.centre', 'pastern.centre', 'p3.extensor'];

export function randomBoneCase(seed: number): RandomBoneCase {
  const dice = new Dice(seed ^ 0xb02e);
  const whole = randomFoot(seed, { complete: true, spreadAtMostMm: 1 });
  const mmPerPx = scaleOf(whole.film) ?? NaN;
  const rough = dice.chance(0.3);
  const other = (factor = 1): Film => anotherFilm(dice, whole.film, mmPerPx, { rough, factor });
  const others = Array.from({ length: dice.pick([1, 2, 3, 3, 4]) }, () => other());
  const wrong = others.length > 2 && !rough && dice.chance(0.4) ? other(1.2) : undefined;

  const { scale: _, ...bare } = whole.film;
  const without = dice.chance(0.25) ? dice.pick(['p3.extensor', 'coffin.centre']) : '';
  const landmarks = bare.landmarks.filter(({ name }) => name !== without);
  // Before the bones are known the film is as long as any text of it: `scale bone` stands in the place of the scale.
  const film: Film = { ...bare, landmarks, bones: knownBones(others) };
  const foot: RandomFoot = { ...whole, film, strays: { film: ['scale bone'], work: [] } };
  const visits = [...others, ...(wrong ? [wrong] : [])].map((one, index) => visit(one, foot.foot, index));
  return { foot, others, wrong, text: `${toNotation(foot)}\n${visits.join('\n')}` };
}

/** The same bones on another picture: larger or smaller, turned, and placed by a hand that errs. */
function anotherFilm(
  dice: Dice,
  { landmarks }: Film,
  mmPerPx: number,
  { rough, factor }: { readonly rough: boolean; readonly factor: number },
): Film {
  const ownPx = dice.between(0.06, 0.25);
  const angle = (dice.between(-20, 20) * Math.PI) / 180;
  const hand = (): number => dice.between(-0.3, 0.3) / ownPx;
  const moved = ({ x, y }: Point): Point => {
    const [dx, dy] = [(x * mmPerPx) / ownPx, (y * mmPerPx) / ownPx];
    return {
      x: round(2000 + dx * Math.cos(angle) - dy * Math.sin(angle) + hand(), 2),
      y: round(2000 + dx * Math.sin(angle) + dy * Math.cos(angle) + hand(), 2),
    };
  };
  const missing = dice.chance(0.3) ? dice.pick(['coffin.centre', 'p3.extensor']) : '';
  const placed = landmarks
    .filter(({ name }) => needed.includes(name) && !(leftOut.includes(name) && name === missing))
    .map(({ name, ...place }): Landmark => ({
      name,
      ...moved(place),
      ...(rough && { spread: round(dice.between(3, 6) / ownPx, 2) }),
    }));
  const magnify = dice.chance(0.3) ? round(dice.between(1.01, 1.1), 3) : undefined;
  const scale = randomScale(dice, dice.pick(['stated', 'marker']), ownPx * factor * (magnify ?? 1));
  return { landmarks: placed, scale, ...(magnify !== undefined && { magnify }) };
}

function visit(film: Film, foot: string, index: number): string {
  const lines = [...writtenFilm(film), ...film.landmarks.map((one) => writtenLandmark(one, '+-'))];
  return [
    `visit 2026-0${index + 4}-01`,
    `  film ${foot} lateral "films/other-${index}.png"`,
    ...lines.map((line) => `    ${line}`),
    '',
  ].join('\n');
}
