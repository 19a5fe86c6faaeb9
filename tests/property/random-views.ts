import { Dice, round } from './dice.ts';
import { writtenFilm, writtenLandmark, type SpreadSign } from './film-notation.ts';
import type { Film, Landmark, Point, Scale } from './oracle/lateral.ts';
import { randomScale } from './random-scale.ts';

export type Foot = 'LF' | 'RF' | 'LH' | 'RH';

/** A picture as it stands in a case file: `film.landmarks` are those of one reader. */
export interface Picture {
  seed: number;
  kind: 'film' | 'photo';
  foot: Foot;
  view: 'lateral' | 'front' | 'solar';
  film: Film;
  /** A name where the landmarks stand in a `read` block; `film.readerSpread` is then its spread. */
  reader?: string;
  /** Lines of the picture that count for nothing. */
  strays?: string[];
}

type Millimetres = [x: number, y: number];

type Places = Map<string, Millimetres>;

/** Lateral towards +x, standing on y = 0. */
function frontPlaces(dice: Dice): Places {
  const at: Places = new Map();
  const hairline = dice.between(58, 76);
  for (const [side, outwards] of [
    ['medial', -1],
    ['lateral', 1],
  ] as const) {
    const wall = dice.between(50, 68);
    const lean = (dice.between(62, 98) * Math.PI) / 180;
    const height = hairline + dice.between(-5, 5);
    const margin = dice.between(12, 27);
    at.set(`wall.${side}`, [outwards * wall, 0]);
    at.set(`coronet.${side}`, [outwards * (wall - height / Math.tan(lean)), height]);
    at.set(`p3.${side}`, [outwards * dice.between(32, 44), margin]);
    at.set(`joint.${side}`, [outwards * dice.between(22, 31), margin + dice.between(26, 36)]);
  }
  return at;
}

/** Lateral towards +x, the toe towards +y, the heels near y = 0. */
function solarPlaces(dice: Dice): Places {
  const at: Places = new Map();
  const length = dice.between(105, 140);
  const widest = dice.between(0.4, 0.62) * length;
  const frogWidest = dice.between(2, 14);
  at.set('toe', [dice.between(-5, 5), length]);
  at.set('frog.apex', [dice.between(-4, 4), length * dice.between(0.55, 0.72)]);
  at.set('frog.base', [dice.between(-4, 4), dice.between(-12, 4)]);
  for (const [side, outwards] of [
    ['medial', -1],
    ['lateral', 1],
  ] as const) {
    at.set(`heel.${side}`, [outwards * dice.between(24, 42), dice.between(-5, 5)]);
    at.set(`wide.${side}`, [outwards * dice.between(50, 66), widest + dice.between(-4, 4)]);
    at.set(`frog.${side}`, [outwards * dice.between(14, 32), frogWidest + dice.between(-3, 3)]);
    at.set(`bar.${side}`, [outwards * dice.between(10, 20), dice.between(30, 50)]);
  }
  return at;
}

/** Two points whose names are exchanged, as a reader in a hurry places them. */
function crossed(places: Places, part: string): void {
  const medial = places.get(`${part}.medial`);
  const lateral = places.get(`${part}.lateral`);
  if (!medial || !lateral) return;
  places.set(`${part}.medial`, lateral);
  places.set(`${part}.lateral`, medial);
}

export function randomView(view: 'front' | 'solar', seed: number): Picture {
  const dice = new Dice(seed ^ (view === 'front' ? 0xf407 : 0x501a));
  const foot = dice.pick<Foot>(['LF', 'RF', 'LH', 'RH']);
  const places = view === 'front' ? frontPlaces(dice) : solarPlaces(dice);
  for (const [name, [x, y]] of places) places.set(name, [x + dice.between(-0.8, 0.8), y + dice.between(-0.8, 0.8)]);
  // Which pair settles the sides shows only where the pairs contradict one another.
  if (view === 'front' && dice.chance(0.15)) crossed(places, dice.pick(['p3', 'coronet', 'wall']));
  // Whether up is where the bone is, or where most points are, shows only where one lies far off.
  if (view === 'front' && dice.chance(0.1)) places.set('joint.medial', [-40, -400]);

  // A left foot has its medial side on the left, seen from the front and, toe up, from below.
  const usual = foot.startsWith('L') ? 1 : -1;
  const flipped = dice.chance(0.15) ? -usual : usual;
  const steepest = view === 'front' ? 25 : 180;
  const tilt = (dice.between(-steepest, steepest) * Math.PI) / 180;
  const mmPerPx = dice.between(0.05, 0.3);
  const onImage = ([x, y]: Millimetres): Point => ({
    x: (flipped * x * Math.cos(tilt) + y * Math.sin(tilt)) / mmPerPx,
    y: (flipped * x * Math.sin(tilt) - y * Math.cos(tilt)) / mmPerPx,
  });
  const raw = [...places].map(([name, place]) => ({ name, ...onImage(place) }));
  const shift: Point = {
    x: dice.between(20, 900) - Math.min(...raw.map(({ x }) => x)),
    y: dice.between(20, 900) - Math.min(...raw.map(({ y }) => y)),
  };
  const placed = ({ x, y }: Point): Point => ({ x: round(x + shift.x, 2), y: round(y + shift.y, 2) });

  const missing = dice.pick([0, 0, 0.12, 0.12, 0.45]);
  const landmarks: Landmark[] = [];
  for (const { name, ...point } of dice.shuffled(raw)) {
    if (dice.chance(missing)) continue;
    const spread = dice.chance(0.3) ? round(dice.between(0.3, 8), 2) : undefined;
    landmarks.push({ name, ...placed(point), ...(spread === undefined ? {} : { spread }) });
  }

  const film: Film = { landmarks };
  // On a solar picture a ground line has no meaning, and must not get one.
  if (dice.chance(view === 'front' ? 0.6 : 0.15)) {
    const ends: [Point, Point] = [
      placed(onImage([dice.between(-110, -60), 0])),
      placed(onImage([dice.between(60, 110), 0])),
    ];
    const [a, b] = dice.chance(0.5) ? ends : [ends[1], ends[0]];
    film.ground = { a, b };
  }
  const form = dice.pick<Scale['form'] | 'none'>(['stated', 'stated', 'marker', 'marker', 'none']);
  if (form !== 'none') {
    if (dice.chance(0.35)) film.magnify = round(dice.between(1.01, 1.12), 3);
    film.scale = randomScale(dice, form, mmPerPx * (film.magnify ?? 1));
  }

  const picture: Picture = { seed, kind: dice.pick(['film', 'photo']), foot, view, film };
  if (dice.chance(0.3)) {
    picture.reader = 'second reader';
    if (dice.chance(0.6)) film.readerSpread = round(dice.between(0.5, 6), 2);
  }
  return picture;
}

/** Lines of the header statements in the text of `toNotation`, counted from 1. */
export const LINES = { visit: 6, film: 8 } as const;

/** `visitEnd` are lines of the visit that follow the picture. */
export function toNotation(picture: Picture, visitEnd: readonly string[] = []): string {
  const { seed, kind, foot, view, film, reader, strays = [] } = picture;
  const dice = new Dice(seed ^ 0x5eed);
  const landmarks = film.landmarks.map((landmark) => writtenLandmark(landmark, dice.pick<SpreadSign>(['+-', '±'])));
  const ofFilm = [...writtenFilm(film), ...strays];
  // What is said of the film itself would end a `read` block, so it stands before one.
  const body =
    reader === undefined
      ? dice.shuffled([...landmarks, ...ofFilm]).map((statement) => `    ${statement}`)
      : [
          ...dice.shuffled(ofFilm).map((statement) => `    ${statement}`),
          `    read "${reader}"${film.readerSpread === undefined ? '' : ` +- ${film.readerSpread}`}`,
          ...dice.shuffled(landmarks).map((statement) => `      ${statement}`),
        ];
  const lines = [
    'hoof 1',
    '',
    `case "Random ${view} ${seed}"`,
    '  animal horse',
    '',
    'visit 2026-03-04 "a made-up foot"',
    '',
    `  ${kind} ${foot} ${view} "${kind}s/${view}-${seed}.png"`,
    '    taken 2026-03-03',
    ...body,
    ...visitEnd.map((line) => `  ${line}`),
  ];
  return `${lines.join('\n')}\n`;
}
