import { Dice } from './dice.ts';
import type { Film, Scale } from './oracle/lateral.ts';
import type { Quantity, RandomFoot } from './random-foot.ts';
import type { Picture } from './random-views.ts';

/** Numbers that were not meant so: far too large, far too small, of the wrong sign, of any length. */

/** A number that no range has, as it may be written; the first ones may be read as numbers of a film, too. */
const absurd = ['1000000000', '-1000000000', '99999999999999999999'] as const;
const unreadable = [
  '9'.repeat(100),
  `-${'7'.repeat(400)}`,
  `0.${'0'.repeat(300)}1`,
  `${'1'.repeat(60)}.${'5'.repeat(60)}`,
] as const;

export function absurdNumber(dice: Dice): string {
  return dice.chance(0.5) ? dice.pick(absurd) : dice.pick(unreadable);
}

/** Lines of a film that count for nothing. Each says again what the film may say rightly, and must not take its place. */
export function strayLines(dice: Dice): string[] {
  const number = (): string => absurdNumber(dice);
  const lines: readonly [() => string, ...(() => string)[]] = [
    () => `p3.tip @ ${number()}, 840`,
    () => `p3.wing @ 1200, ${number()} +- 2`,
    () => `heel.ground @ 900, 950 +- ${number()}`,
    () => `toe @ ${number()}, ${number()}`,
    () => `p3.medial @ ${number()}, 3`,
    () => `ground 0, 1000 .. ${number()}, 1000`,
    () => `ground ${number()}, ${number()} .. ${number()}, ${number()}`,
    () => `scale ${number()} mm/px`,
    () => `scale ${dice.pick(['0', '-0', '-0.1', '0.0001', '6'])} mm/px`,
    () => `scale ${number()} mm = 1, 1 .. 1001, 1`,
    () => `scale ${dice.pick(['0', '-100', '0.5', '2000'])} mm = 1, 1 .. 1001, 1`,
    () => `scale 100 mm = ${number()}, 1 .. 1001, 1`,
    () => `scale 100 mm = 1, 1 .. 1.0001, 1`,
    () => `magnify ${dice.pick([number(), '0', '-1', '0.4', '2.1', '104'])}`,
    () => `expect palmar-angle ${number()} deg`,
    () => `expect palmar-angle 5 deg +- ${dice.pick([number(), '-1'])} deg`,
  ];
  return Array.from({ length: Math.floor(dice.between(1, 4)) }, () => dice.pick(lines)());
}

/** The same of a plan or a trim. */
export function strayCuts(dice: Dice): string[] {
  const amount = (): string => dice.pick([absurdNumber(dice), '-5', '-0', '61', '80', '1000']);
  const lines: readonly [string, ...string[]] = ['heel down', 'toe down', 'toe back'];
  return dice.chance(0.5) ? [] : [`${dice.pick(lines)} ${amount()} mm`];
}

/** The same film with some of its numbers out of their ranges. */
export function slippedFilm(film: Film, seed: number): Film {
  const dice = new Dice(seed ^ 0x0511b);
  const far = (): number => dice.pick([1, -1]) * dice.pick([100_001, 250_000, 1_000_000_000, 12_345_678_901_234]);
  const slipped: Film = {
    ...film,
    landmarks: film.landmarks.map((landmark) => {
      if (dice.chance(0.03)) return { ...landmark, x: far() };
      if (dice.chance(0.03)) return { ...landmark, y: far() };
      return dice.chance(0.03) ? { ...landmark, spread: dice.pick([-3, 501, 70_000]) } : landmark;
    }),
  };
  if (film.ground && dice.chance(0.2)) slipped.ground = { ...film.ground, b: { ...film.ground.b, x: far() } };
  if (film.scale && dice.chance(0.4)) slipped.scale = slippedScale(film.scale, dice);
  if (film.magnify !== undefined && dice.chance(0.4)) slipped.magnify = dice.pick([0, -1, 0.499, 2.001, 104]);
  if (film.readerSpread !== undefined && dice.chance(0.3)) slipped.readerSpread = dice.pick([-1, 501, 9000]);
  return slipped;
}

function slippedScale(scale: Scale, dice: Dice): Scale {
  // A number that a pixel may have, and no foot.
  const times = dice.pick([4, 5, 0.2, 0.15]);
  if (scale.form === 'stated' && dice.chance(0.4))
    return { ...scale, mmPerPx: Number((scale.mmPerPx * times).toFixed(6)) };
  if (scale.form === 'stated') return { ...scale, mmPerPx: dice.pick([0, -0.1, 0.0049, 5.01, 98, 1_000_000]) };
  const { ends } = scale;
  switch (dice.pick(['length', 'place', 'pixel', 'none', 'size'] as const)) {
    case 'length':
      return { ...scale, length: dice.pick([0, -100, 0.01, 5000]) };
    case 'size':
      return { ...scale, length: Number((scale.length * times).toFixed(4)) };
    case 'place':
      return { ...scale, ends: { ...ends, a: { ...ends.a, y: 1_000_000_000 } } };
    case 'pixel':
      return { ...scale, ends: { ...ends, b: { x: ends.a.x + 0.5, y: ends.a.y } } };
    case 'none':
      return { ...scale, ends: { a: ends.a, b: { ...ends.a } } };
  }
}

export function slippedWork(work: RandomFoot['work'], seed: number): RandomFoot['work'] {
  if (!work) return undefined;
  const dice = new Dice(seed ^ 0x0c07);
  const slip = (quantity: Quantity | undefined): Quantity | undefined =>
    quantity && dice.chance(0.3) ? { ...quantity, amount: dice.pick([-5, -0.5, 61, 800]) } : quantity;
  const { kind, heelDown, heelFrom, toeDown, toeBack } = work;
  const [heel, toe, back] = [slip(heelDown), slip(toeDown), slip(toeBack)];
  const from = slip(heelFrom);
  return {
    kind,
    ...(heel && { heelDown: heel }),
    ...(from && { heelFrom: from }),
    ...(toe && { toeDown: toe }),
    ...(back && { toeBack: back }),
  };
}

/** A foot of which some numbers slipped, with lines besides that count for nothing. */
export function slipped(foot: RandomFoot): RandomFoot {
  const dice = new Dice(foot.seed ^ 0x57a4);
  const work = slippedWork(foot.work, foot.seed);
  return {
    ...foot,
    film: slippedFilm(foot.film, foot.seed),
    ...(work && { work }),
    strays: { film: strayLines(dice), work: strayCuts(dice) },
  };
}

export function slippedPicture(picture: Picture): Picture {
  const { film, seed } = picture;
  return { ...picture, film: slippedFilm(film, seed), strays: strayLines(new Dice(seed ^ 0x57a4)) };
}
