import { shape, stroke } from './field.ts';
import { foot, type LandmarkName } from './foot.ts';
import { cloud, random } from './grain.ts';
import { block } from './layers.ts';
import { at, minus, plus, times, type Point } from './plane.ts';
import { soundCob, type FootParameters } from './parameters.ts';
import { open } from './spline.ts';
import { render, type Picture } from './render.ts';
import { toImage, type View } from './view.ts';

/** Pictures of the examples beside the films: photographs from the side, and a film of the vessels that is not measured. */

export interface Photo {
  readonly name: string;
  readonly view: View;
  readonly parameters: FootParameters;
  /** The 100 mm bar in the foot frame, mm. */
  readonly bar: { readonly from: Point; readonly to: Point };
  readonly seed: number;
}

const pony: FootParameters = {
  ...soundCob,
  size: 0.82,
  palmarAngle: 9,
  rotation: 6,
  newRotation: 2,
  grownOut: 8,
  founderDistance: 5,
  hornLamellar: 15,
  lamellarUpper: 6.5,
  lamellarLower: 9,
  soleTip: 9,
  soleWing: 14,
  heelSurplus: 8,
  toeLength: 75,
  bearingLength: 106,
  heelAngle: 52,
  coronetAngle: 19,
};

const bar = { from: at(46, 3), to: at(47, 102.995) };

/** Fennel's left fore from the side, as the new wall grows down and the heels come off. */
export const photos: readonly Photo[] = [
  {
    name: 'fennel-lf-2026-05-04',
    view: { width: 520, height: 400, mmPerPx: 0.42, toe: 'left', tilt: 0.7, origin: at(170, 350) },
    parameters: pony,
    bar,
    seed: 1701,
  },
  {
    name: 'fennel-lf-2026-07-06',
    view: { width: 520, height: 400, mmPerPx: 0.43, toe: 'left', tilt: -0.9, origin: at(176, 352) },
    parameters: { ...pony, grownOut: 22, toeLength: 73, heelSurplus: 5, palmarAngle: 7, coronetAngle: 21 },
    bar,
    seed: 1702,
  },
  {
    name: 'fennel-lf-2026-09-07',
    view: { width: 520, height: 400, mmPerPx: 0.415, toe: 'left', tilt: 1.2, origin: at(168, 348) },
    parameters: {
      ...pony,
      grownOut: 36,
      toeLength: 71,
      heelSurplus: 3,
      palmarAngle: 5,
      rotation: 4,
      newRotation: 1,
      coronetAngle: 22,
    },
    bar,
    seed: 1703,
  },
];

/** The hoof as a camera sees it: horn, skin above it, the ring where new wall meets old, a bar, and the ground. */
export function photograph({ view, parameters, bar: { from, to }, seed }: Photo): Picture {
  const { width, height } = view;
  const drawn = foot(parameters);
  const image = toImage(view);
  const tone = new Float32Array(width * height).fill(205);
  const fill = (outline: readonly Point[], grey: (x: number, y: number) => number): void =>
    shape(outline.map(image), width, height, (i, d, x, y) => {
      const share = Math.min(1, Math.max(0, d + 0.5));
      tone[i] = (tone[i] ?? 0) * (1 - share) + share * grey(x, y);
    });
  const { outlines } = drawn.capsule;
  fill(block(drawn), (x, y) => 96 + 10 * cloud(x / 40, y / 6, seed));
  fill(outlines.skin, (x, y) => 118 + 16 * cloud(x / 5, y / 9, seed + 1));
  const rings = ringsOf((name) => drawn.landmarks.get(name) ?? at(0, 0));
  fill(outlines.hoof, (x, y) => 66 + 9 * cloud(x / 30, y / 3, seed + 2));
  for (const line of rings)
    stroke(line.map(image), width, height, 2, (i, d) => {
      tone[i] = (tone[i] ?? 0) - 18 * Math.exp(-d * d);
    });
  const along = minus(to, from);
  const side = times(at(-along.y / 100, along.x / 100), 1.6);
  fill([plus(from, side), plus(to, side), minus(to, side), minus(from, side)], () => 245);
  const dice = random(seed);
  const grey = Uint8Array.from(tone, (value) => Math.round(Math.min(255, Math.max(0, value + 2 * (dice() - 0.5)))));
  return { width, height, grey };
}

/** Lines across the horn below the hairline, as wide apart at the heel as at the toe. */
function ringsOf(mark: (name: LandmarkName) => Point): Point[][] {
  const [toe, heel] = [mark('coronet.dorsal'), mark('coronet.heel')];
  const down = minus(mark('toe.ground'), toe);
  const back = minus(mark('heel.ground'), heel);
  return [0.18, 0.36, 0.55].map((share) => [plus(toe, times(down, share)), plus(heel, times(back, share))]);
}

/** The vessels of Teasel's left fore filled with contrast: shown and listed, never measured. */
export function venogram(): Picture {
  const parameters: FootParameters = { ...soundCob, size: 1, palmarAngle: 5.5, founderDistance: 7, soleTip: 13 };
  const view: View = { width: 420, height: 370, mmPerPx: 0.6, toe: 'left', tilt: 0.5, origin: at(128, 318) };
  const drawn = foot(parameters);
  const lead = { bar: { from: at(60, 4), to: at(61, 103.995) }, word: 'LF', corner: at(34, 34) };
  const { width, height, grey } = render(drawn, parameters, view, lead, 1801);
  const image = toImage(view);
  const mark = (name: LandmarkName): Point => drawn.landmarks.get(name) ?? at(0, 0);
  const before = (name: LandmarkName, x: number, y: number): Point => plus(mark(name), at(x, y));
  const vessels: readonly (readonly [Point[], number])[] = [
    // Before the bone, round its tip, below it, and up behind the pastern.
    [[before('p3.extensor', 4, 8), before('p3.dorsal.upper', 4, 2), before('p3.dorsal.lower', 4, 1)], 1.6],
    [[before('p3.dorsal.lower', 4, 1), before('p3.tip', 3, -4), before('p3.tip', -18, -5)], 1.4],
    [[before('p3.tip', -6, -4), before('p3.wing', 0, -5)], 1.1],
    [[before('p3.wing', -4, 6), before('p3.navicular', -20, 24), before('pastern.centre', -34, 18)], 2.2],
    [[before('p3.extensor', 6, 10), before('p3.navicular', -18, 30)], 1.3],
  ];
  for (const [line, half] of vessels)
    stroke(open(line).map(image), width, height, (half * 2.4) / view.mmPerPx, (i, d) => {
      const t = (d * view.mmPerPx) / half;
      grey[i] = Math.min(255, Math.round((grey[i] ?? 0) + 150 * Math.exp(-t * t)));
    });
  return { width, height, grey };
}

/** Every such picture by its name, drawn when it is asked for. */
export const plainPictures: readonly { readonly name: string; draw(): Picture }[] = [
  ...photos.map((photo) => ({ name: photo.name, draw: () => photograph(photo) })),
  { name: 'teasel-lf-venogram-2026-06-10', draw: venogram },
];

/** A photo's block in the notation, with what it shows where a careful hand would put it. */
export function photoBlock({ name, view, parameters, bar: { from, to } }: Photo): string {
  const { landmarks } = foot(parameters);
  const image = toImage(view);
  const clicked = (p: Point): string => {
    const { x, y } = image(p);
    return `${Math.round(x * 2) / 2}, ${Math.round(y * 2) / 2}`;
  };
  // A list of its own: what draws the truth knows nothing of the program that is held against it.
  const shown: readonly LandmarkName[] = [
    'toe.ground',
    'heel.ground',
    'breakover',
    'heel.upper',
    'wall.upper',
    'wall.lower',
    'wall.turn',
    'coronet.dorsal',
    'coronet.heel',
  ];
  return [
    `  photo LF lateral "films/${name}.png"`,
    `    scale   100 mm = ${clicked(from)} .. ${clicked(to)}`,
    `    ground  ${clicked(at(-110, 0))} .. ${clicked(at(50, 0))}`,
    ...shown.flatMap((word) => {
      const p = landmarks.get(word);
      return p ? [`    ${word.padEnd(14)} @ ${clicked(p)}`] : [];
    }),
    '',
  ].join('\n');
}
