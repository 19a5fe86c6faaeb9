import type { Film } from '../../examples/drawn/films.ts';
import { foot } from '../../examples/drawn/foot.ts';
import { sunk } from '../../examples/drawn/changes.ts';
import { soundCob, type FootParameters } from '../../examples/drawn/parameters.ts';
import { at } from '../../examples/drawn/plane.ts';
import { render } from '../../examples/drawn/render.ts';
import { truth, type Truth } from '../../examples/drawn/truth.ts';
import { greyAt, type GreyPicture } from '../../shared/picture/seek/grey-picture.ts';
import { Dice } from '../property/dice.ts';

/** One drawn film and what is truly on it. */
export interface DrawnFilm {
  readonly picture: GreyPicture;
  readonly truth: Truth;
}

/** How much the films of a series differ from one another in all that is not the foot; 1 is what the bench takes. */
export interface Spoiling {
  readonly exposure: number;
  readonly grain: number;
  readonly blur: number;
  readonly oblique: number;
}

export const spoilt: Spoiling = { exposure: 1, grain: 1, blur: 1, oblique: 1 };

type Change = (p: FootParameters, dice: Dice) => FootParameters;

/** A visit later: the heels a little lower, the wall grown, the toe dressed, the pastern as the horse stood that day. */
export const trimmed: Change = (p, dice) => {
  const flatter = dice.between(0.2, 3);
  const { rotation, newRotation, grownOut } = p;
  return {
    ...p,
    palmarAngle: p.palmarAngle - flatter,
    rotation: rotation * dice.between(0.7, 1),
    ...(newRotation !== undefined && { newRotation: newRotation * dice.between(0.7, 1) }),
    ...(grownOut !== undefined && { grownOut: grownOut + dice.between(5, 9) }),
    founderDistance: p.founderDistance + dice.between(-0.6, 0.4),
    soleTip: p.soleTip + dice.between(-0.5, 1.5),
    soleWing: p.soleWing + dice.between(-0.5, 1),
    heelSurplus: Math.max(1, p.heelSurplus - dice.between(1, 5)),
    toeLength: p.toeLength - dice.between(0, 1.5),
    bearingLength: p.bearingLength + dice.between(-1.5, 2),
    heelAngle: p.heelAngle - dice.between(0, 2),
    coronetAngle: p.coronetAngle + flatter * dice.between(0.6, 1),
    lamellarLower: p.lamellarLower - dice.between(0, 1),
    ...stance(p, dice),
  };
};

/** The bone so much lower in a capsule that stays. */
export const sunkBy =
  (mm: number): Change =>
  (p, dice) => ({ ...sunk(p, mm), ...stance(p, dice) });

const stance = (p: FootParameters, dice: Dice): Partial<FootParameters> => ({
  middleAngle: p.middleAngle + dice.between(-2, 2),
  proximalAngle: p.proximalAngle + dice.between(-2, 2),
  cannonAngle: 86 + dice.between(-3, 3),
});

function firstFoot(dice: Dice): FootParameters {
  const size = dice.between(0.8, 1.12);
  const rotated = dice.chance(0.6);
  const palmarAngle = dice.between(4, 13);
  const heel = dice.between(3, 16);
  const middleAngle = dice.between(50, 57);
  return {
    ...soundCob,
    size,
    p3Dorsal: dice.between(48, 53),
    p3Solar: dice.between(75, 82),
    p2Length: dice.between(42, 46),
    p1Length: dice.between(72, 79),
    p3Angle: dice.between(45, 51),
    palmarAngle,
    rotation: rotated ? dice.between(3, 10) : dice.between(0, 2),
    ...(rotated && { newRotation: dice.between(1, 4), grownOut: dice.between(8, 14) }),
    founderDistance: dice.between(3, 9) * size,
    softCoronet: dice.between(9, 12) * size,
    hornLamellar: dice.between(15, 18) * size,
    lamellarUpper: dice.between(6, 8.6) * size,
    lamellarLower: dice.between(rotated ? 9 : 6.5, rotated ? 13 : 9) * size,
    soleTip: dice.between(9, 16) * size,
    soleWing: dice.between(14, 19) * size,
    cup: dice.between(1.5, 5),
    heelSurplus: heel,
    toeLength: dice.between(84, 94) * size,
    bearingLength: dice.between(122, 136) * size,
    heelAngle: dice.between(46, 54),
    coronetAngle: dice.between(14, 22),
    middleAngle,
    proximalAngle: middleAngle - dice.between(0, 3),
    cannonAngle: dice.between(84, 88),
  };
}

/** What the films of a series are of, where they are not of a foot of the bench with a metal strip on its wall. */
export interface OtherFeet {
  readonly first?: (dice: Dice) => FootParameters;
  readonly strip?: boolean;
}

/** Some numbers make no foot: then others are drawn. */
function aFoot(draw: () => FootParameters): FootParameters {
  for (let tries = 0; tries < 200; tries++) {
    const parameters = draw();
    try {
      foot(parameters);
      return parameters;
    } catch {
      continue;
    }
  }
  throw new Error('no such foot can be drawn');
}

/** Films of one foot, one a visit. The same for the same seed. */
export function drawnSeries(
  seed: number,
  count: number,
  change: Change,
  spoiling: Spoiling = spoilt,
  mm = [0.24, 0.34] as const,
  { first = firstFoot, strip = true }: OtherFeet = {},
): DrawnFilm[] {
  const dice = new Dice(seed);
  let parameters = aFoot(() => first(dice));
  const looks = dice.pick<'left' | 'right'>(['left', 'right']);
  return Array.from({ length: count }, (_, i) => {
    if (i > 0) {
      const last = parameters;
      parameters = aFoot(() => change(last, dice));
    }
    // Now and then a film is hung the other way round.
    const toe = dice.chance(0.15) ? (looks === 'left' ? 'right' : 'left') : looks;
    return spoil(parameters, toe, dice.between(...mm), dice, seed * 100 + i, spoiling, strip);
  });
}

function spoil(
  parameters: FootParameters,
  looks: 'left' | 'right',
  mmPerPx: number,
  dice: Dice,
  seed: number,
  { exposure, grain, blur, oblique }: Spoiling,
  strip: boolean,
): DrawnFilm {
  const [width, height] = [Math.round(252 / mmPerPx), Math.round(215 / mmPerPx)];
  const drawn = foot(parameters);
  // Before a long toe the marker stands further off.
  const toe = drawn.capsule.landmarks['toe.ground'].x;
  const room = Math.max(0, toe - 40);
  const ahead = (dice.between(70, 80) + room) / mmPerPx;
  const lean = (dice.between(-3, 3) * Math.PI) / 180;
  const from = at(dice.between(54, 62) + room, dice.between(4, 12));
  const film: Film = {
    name: `drawn-${seed}`,
    foot: 'LF',
    taken: '2026-01-01',
    about: 'a foot of the bench',
    view: {
      width,
      height,
      mmPerPx,
      toe: looks,
      tilt: dice.between(-3, 3),
      origin: at(looks === 'left' ? ahead : width - ahead, height - dice.between(26, 32) / mmPerPx),
    },
    parameters,
    bar: { from, to: at(from.x + 100 * Math.sin(lean), from.y + 100 * Math.cos(lean)) },
    letters: at(dice.between(8, 30) / mmPerPx, dice.between(8, 30) / mmPerPx),
    seed,
  };
  const { bar, view, letters: corner } = film;
  const shown = strip ? drawn : { ...drawn, capsule: { ...drawn.capsule, strip: [] } };
  const sharp = render(shown, parameters, view, { bar, word: film.foot, corner }, seed);
  const apart = (oblique * dice.between(0, 0.6)) / mmPerPx;
  const source = { width, height, greys: Float32Array.from(sharp.grey) };
  const [power, gain, lift] = [
    1 + exposure * dice.between(-0.35, 0.5),
    1 - exposure * dice.between(0, 0.35),
    exposure * dice.between(0, 30),
  ];
  const soft = blurred(bothSides(source, apart), (blur * dice.between(0, 0.3)) / mmPerPx);
  const noise = grain * dice.between(0, 7);
  const greys = soft.greys.map((grey) => {
    const bell = dice.uniform() + dice.uniform() + dice.uniform() - 1.5;
    const tone = 255 * (grey / 255) ** power * gain + lift + 2 * noise * bell;
    return Math.max(0, Math.min(255, Math.round(tone)));
  });
  return { picture: { width, height, greys }, truth: truth(film) };
}

/** A beam that meets the foot a little from behind or before: its near and its far side lie beside each other. */
function bothSides(picture: GreyPicture, apart: number): GreyPicture {
  const { width, height } = picture;
  const greys = Float32Array.from({ length: width * height }, (_, i) => {
    const [x, y] = [i % width, Math.floor(i / width)];
    return (greyAt(picture, x - apart, y) + greyAt(picture, x + apart, y)) / 2;
  });
  return { width, height, greys };
}

/** Blurred by a bell of so many pixels. */
function blurred({ width, height, greys }: GreyPicture, sigma: number): GreyPicture {
  const reach = Math.ceil(3 * sigma);
  if (reach === 0) return { width, height, greys };
  const bell = Array.from({ length: 2 * reach + 1 }, (_, i) => Math.exp(-0.5 * ((i - reach) / sigma) ** 2));
  const sum = bell.reduce((all, one) => all + one, 0);
  const pass = (from: Float32Array, step: number, size: number, at: (i: number) => number): Float32Array =>
    from.map((_, i) => {
      let value = 0;
      for (let d = -reach; d <= reach; d++) {
        const place = Math.max(0, Math.min(size - 1, at(i) + d));
        value += ((from[i + (place - at(i)) * step] ?? 0) * (bell[d + reach] ?? 0)) / sum;
      }
      return value;
    });
  const across = pass(greys, 1, width, (i) => i % width);
  return { width, height, greys: pass(across, width, height, (i) => Math.floor(i / width)) };
}
