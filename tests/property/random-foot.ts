import fc from 'fast-check';
import { Dice, round } from './dice.ts';
import { writtenFilm, writtenLandmark } from './film-notation.ts';
import { inMillimetres, type Film, type Landmark, type LengthUnit, type Point, type Scale } from './oracle/lateral.ts';
import type { Cut } from './oracle/trim.ts';
import { randomScale } from './random-scale.ts';

export interface Quantity {
  amount: number;
  unit: LengthUnit;
}

export interface RandomFoot {
  seed: number;
  foot: 'LF' | 'RF' | 'LH' | 'RH';
  film: Film;
  work?: { kind: 'plan' | 'trim'; heelDown?: Quantity; heelFrom?: Quantity; toeDown?: Quantity; toeBack?: Quantity };
  /** Lines that count for nothing: among those of the film, and at the head of the plan or trim. */
  strays?: { film: string[]; work: string[] };
}

export interface FootWish {
  /** Every landmark placed, a ground segment and a scale. */
  complete?: boolean;
  /** Upper bound of a stated spread, in millimetres; otherwise up to 8 px. */
  spreadAtMostMm?: number;
}

type Millimetres = [x: number, y: number];

/** The direction of a line that leans back from toe to limb, as every slope is told. */
function leaning(degrees: number): Millimetres {
  const radians = (degrees * Math.PI) / 180;
  return [-Math.cos(radians), Math.sin(radians)];
}

function along([x, y]: Millimetres, [dx, dy]: Millimetres, distance: number): Millimetres {
  return [x + dx * distance, y + dy * distance];
}

/** A foot standing on y = 0 with the toe towards +x and p3.tip above the origin, in millimetres. */
function standingFoot(dice: Dice): Map<string, Millimetres> {
  const at = new Map<string, Millimetres>();
  const tip: Millimetres = [0, dice.between(11, 26)];
  const palmar = dice.between(-4, 18);
  const wing = along(tip, leaning(palmar), dice.between(55, 75));
  at.set('p3.tip', tip);
  at.set('p3.wing', wing);
  at.set('p3.wing.other', [wing[0] + dice.between(-5, 5), wing[1] + dice.between(-3, 6)]);

  const boneAngle = dice.between(44, 60);
  const face = leaning(boneAngle);
  const lower = along(tip, face, dice.between(4, 12));
  const upper = along(tip, face, dice.between(32, 44));
  at.set('p3.dorsal.lower', lower);
  at.set('p3.dorsal.upper', upper);
  const extensor = along(tip, leaning(boneAngle + dice.between(0, 8)), dice.between(52, 62));
  at.set('p3.extensor', extensor);
  at.set('p3.navicular', [dice.between(-50, -40), tip[1] + dice.between(10, 20)]);
  at.set('navicular.lower', [dice.between(-58, -52), tip[1] + dice.between(8, 16)]);
  at.set('navicular.upper', [dice.between(-66, -58), tip[1] + dice.between(22, 34)]);

  const outward: Millimetres = [face[1], -face[0]];
  const thickness = dice.between(14, 26);
  const wall = leaning(boneAngle - dice.between(-2, 14));
  const foot = along(lower, outward, thickness);
  const onWall = (height: number): Millimetres => along(foot, wall, (height - foot[1]) / wall[1]);
  const hairline = dice.between(72, 88);
  at.set('wall.lower', onWall(dice.between(8, 18)));
  at.set('wall.upper', onWall(dice.between(45, 58)));
  at.set('wall.turn', onWall(dice.between(20, 60)));
  at.set('wall.top', onWall(hairline - dice.between(6, 12)));
  at.set('coronet.dorsal', onWall(hairline));
  at.set('wall.inner.lower', along(along(lower, outward, thickness * dice.between(0.3, 0.6)), face, 2));
  at.set('wall.inner.upper', along(along(upper, outward, thickness * dice.between(0.3, 0.6)), face, -2));

  const toeGround = onWall(0);
  at.set('toe.ground', toeGround);
  at.set('breakover', [toeGround[0] - dice.between(0, 14), 0]);
  const heelGround: Millimetres = [wing[0] - dice.between(-8, 14), 0];
  const heelWall = leaning(dice.between(30, 60));
  at.set('heel.ground', heelGround);
  at.set('heel.upper', along(heelGround, heelWall, dice.between(26, 40)));
  at.set('coronet.heel', along(heelGround, heelWall, dice.between(44, 58)));

  const coffin: Millimetres = [dice.between(-34, -26), tip[1] + dice.between(28, 38)];
  const pastern = along(coffin, leaning(dice.between(44, 66)), dice.between(40, 50));
  at.set('coffin.centre', coffin);
  at.set('pastern.centre', pastern);
  at.set('fetlock.centre', along(pastern, leaning(dice.between(44, 62)), dice.between(74, 92)));

  // Clear of the ground by more than the jitter below: a sole under the ground has no stated
  // meaning in the trim model.
  at.set('sole.tip', [dice.between(-4, 4), dice.between(2.5, 9)]);
  at.set('sole.wing', [wing[0] + dice.between(-4, 4), dice.between(2.5, Math.min(10, wing[1] - 3))]);
  at.set('sole.heel', [heelGround[0] + dice.between(4, 14), dice.between(2.5, 12)]);

  for (const [name, [x, y]] of at) at.set(name, [x + dice.between(-0.8, 0.8), y + dice.between(-0.8, 0.8)]);
  return at;
}

function randomWork(dice: Dice): RandomFoot['work'] {
  const quantity = (atMostMm: number): Quantity => {
    const millimetres = dice.between(0, atMostMm);
    const unit = dice.pick<LengthUnit>(['mm', 'mm', 'mm', 'cm', 'in']);
    return { amount: round(millimetres / inMillimetres(1, unit), unit === 'mm' ? 1 : 3), unit };
  };
  const work: NonNullable<RandomFoot['work']> = { kind: dice.pick(['plan', 'plan', 'trim']) };
  if (dice.chance(0.1)) return { ...work, heelDown: { amount: 0, unit: 'mm' } };
  if (dice.chance(0.85)) work.heelDown = quantity(14);
  if (dice.chance(0.4)) work.toeDown = quantity(6);
  if (dice.chance(0.5) || (!work.heelDown && !work.toeDown)) work.toeBack = quantity(8);
  return work;
}

/** Of every fourth heel cut from where the heel gets a plane of its own; now and then that is no place of the foot. */
function withBend(work: RandomFoot['work'], dice: Dice): RandomFoot['work'] {
  if (!work?.heelDown || !dice.chance(0.25)) return work;
  return { ...work, heelFrom: { amount: round(dice.between(15, dice.chance(0.15) ? 290 : 110), 1), unit: 'mm' } };
}

export function randomFoot(seed: number, wish: FootWish = {}): RandomFoot {
  const dice = new Dice(seed);
  const facing = dice.pick([1, -1]);
  const tilt = (dice.between(-25, 25) * Math.PI) / 180;
  const mmPerPx = dice.between(0.05, 0.3);
  const standing = standingFoot(dice);

  const tilted = ([x, y]: Millimetres): Point => ({
    x: (facing * x * Math.cos(tilt) + y * Math.sin(tilt)) / mmPerPx,
    y: (facing * x * Math.sin(tilt) - y * Math.cos(tilt)) / mmPerPx,
  });
  const raw = [...standing].map(([name, place]) => ({ name, ...tilted(place) }));
  const shift: Point = {
    x: dice.between(20, 900) - Math.min(...raw.map(({ x }) => x)),
    y: dice.between(20, 900) - Math.min(...raw.map(({ y }) => y)),
  };
  const placed = ({ x, y }: Point): Point => ({ x: round(x + shift.x, 2), y: round(y + shift.y, 2) });

  const missing = wish.complete ? 0 : dice.pick([0, 0, 0.12, 0.12, 0.45]);
  const otherWing = dice.chance(0.25);
  const mostPx = wish.spreadAtMostMm === undefined ? 8 : wish.spreadAtMostMm / mmPerPx;
  const landmarks: Landmark[] = [];
  for (const { name, ...point } of dice.shuffled(raw)) {
    if (name === 'p3.wing.other' ? !otherWing : dice.chance(missing)) continue;
    const spread = dice.chance(0.3) ? round(dice.between(0.3, 1) * mostPx, 2) : undefined;
    landmarks.push({ name, ...placed(point), ...(spread === undefined ? {} : { spread }) });
  }

  const film: Film = { landmarks };
  if (wish.complete || dice.chance(0.65)) {
    const ends: [Point, Point] = [
      placed(tilted([dice.between(-110, -60), 0])),
      placed(tilted([dice.between(20, 90), 0])),
    ];
    const [a, b] = dice.chance(0.5) ? ends : [ends[1], ends[0]];
    film.ground = { a, b };
  }
  const form = dice.pick<Scale['form'] | 'none'>(
    wish.complete ? ['stated', 'marker'] : ['stated', 'stated', 'marker', 'marker', 'none'],
  );
  if (form !== 'none') {
    if (dice.chance(0.35)) film.magnify = round(dice.between(1.01, 1.12), 3);
    film.scale = randomScale(dice, form, mmPerPx * (film.magnify ?? 1));
  }

  const random: RandomFoot = { seed, foot: dice.pick(['LF', 'RF', 'LH', 'RH']), film };
  if (dice.chance(0.6)) random.work = withBend(randomWork(dice), new Dice(seed ^ 0xbe4d));
  return random;
}

/** Shrinks towards small seeds only: a foot is its seed. */
export function anyFoot(wish: FootWish = {}): fc.Arbitrary<RandomFoot> {
  return fc.nat().map((seed) => randomFoot(seed, wish));
}

export function cutOf(foot: RandomFoot): Cut | undefined {
  if (!foot.work) return undefined;
  const millimetres = (quantity: Quantity | undefined): number =>
    quantity ? inMillimetres(quantity.amount, quantity.unit) : 0;
  return {
    heelDown: millimetres(foot.work.heelDown),
    ...(foot.work.heelFrom && { heelFrom: millimetres(foot.work.heelFrom) }),
    toeDown: millimetres(foot.work.toeDown),
    toeBack: millimetres(foot.work.toeBack),
  };
}

/** Lines of the header statements in the text of `toNotation`, counted from 1. */
export const LINES = { visit: 6, film: 9 } as const;

export function toNotation(foot: RandomFoot): string {
  const dice = new Dice(foot.seed ^ 0x5eed);
  const { film, work, strays } = foot;
  const statements = film.landmarks.map((landmark) => writtenLandmark(landmark, dice.pick(['+-', '±'])));
  statements.push(...writtenFilm(film), ...(strays?.film ?? []));

  const lines = [
    'hoof 1',
    '',
    `case "Random foot ${foot.seed}"`,
    '  animal horse',
    '',
    'visit 2026-03-04 "a made-up foot"',
    film.shod ? `  shoe ${foot.foot} "plain"` : '  weight 512 kg',
    '',
    `  film ${foot.foot} lateral "films/foot-${foot.seed}.png"`,
    // A shoe that is put on at the visit is not on a film of the day before.
    `    taken ${film.shod ? '2026-03-04' : '2026-03-03'}`,
    ...dice.shuffled(statements).map((statement) => `    ${statement}`),
  ];
  if (work) {
    lines.push('', `  ${work.kind} ${foot.foot}`, ...(strays?.work ?? []).map((line) => `    ${line}`));
    const cuts = { 'heel down': work.heelDown, 'toe down': work.toeDown, 'toe back': work.toeBack };
    for (const [words, quantity] of Object.entries(cuts)) {
      const from = words === 'heel down' && work.heelFrom;
      if (quantity)
        lines.push(
          `    ${words} ${quantity.amount} ${quantity.unit}${from ? ` from ${from.amount} ${from.unit}` : ''}`,
        );
    }
  }
  return `${lines.join('\n')}\n`;
}

/** The line of the plan or trim in the text of `toNotation`, counted from 1. */
export function workLine(foot: RandomFoot): number {
  const { film } = foot;
  const optional = [film.ground, film.bearing, film.scale, film.magnify].filter((value) => value !== undefined);
  return LINES.film + 1 + film.landmarks.length + optional.length + (foot.strays?.film.length ?? 0) + 2;
}
