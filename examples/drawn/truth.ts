import type { Film } from './films.ts';
import { foot, type LandmarkName } from './foot.ts';
import { block } from './layers.ts';
import { at, minus, plus, times, type Point } from './plane.ts';
import { toImage } from './view.ts';
import { inWords } from './words.ts';

type Place = readonly [x: number, y: number];

/** What is truly on a film: image pixels, y down. */
export interface Truth {
  file: string;
  about: string;
  foot: string;
  taken: string;
  width: number;
  height: number;
  mmPerPx: number;
  toe: 'left' | 'right';
  tilt: number;
  marker: { mm: number; from: Place; to: Place };
  ground: { from: Place; to: Place };
  /** The plane between hoof and shoe, of a shod foot. */
  bearing?: { from: Place; to: Place };
  landmarks: Record<string, Place>;
  parameters: Record<string, string>;
}

/** The order in which a person goes round the foot: bone, joints, wall, hairline, ground, sole. */
const order: readonly LandmarkName[] = [
  'p3.tip',
  'p3.wing',
  'p3.extensor',
  'p3.dorsal.upper',
  'p3.dorsal.lower',
  'p3.navicular',
  'coffin.centre',
  'pastern.centre',
  'fetlock.centre',
  'navicular.upper',
  'navicular.lower',
  'wall.top',
  'wall.turn',
  'wall.upper',
  'wall.lower',
  'wall.inner.upper',
  'wall.inner.lower',
  'coronet.dorsal',
  'coronet.heel',
  'heel.upper',
  'toe.ground',
  'breakover',
  'heel.ground',
  'sole.tip',
  'sole.wing',
  'sole.heel',
];

/** A ten-thousandth of a pixel: far below what any measure shows, and short enough to read. */
const place = (p: Point): Place => [Math.round(p.x * 1e4) / 1e4, Math.round(p.y * 1e4) / 1e4];

/** 6 mm from one end of the ground towards the other. */
const inwards = (from: Point, to: Point): Point => plus(from, times(minus(to, from), 6 / Math.abs(to.x - from.x)));

export function truth(film: Film): Truth {
  const drawn = foot(film.parameters);
  const image = toImage(film.view);
  const [back = at(0, 0), front = at(0, 0)] = block(drawn, film.shoe);
  const landmarks = order.flatMap((name) => {
    const p = drawn.landmarks.get(name);
    return p ? [[name, place(image(p))] as const] : [];
  });
  const { width, height, mmPerPx, toe, tilt } = film.view;
  return {
    file: `films/${film.name}.png`,
    about: film.about,
    foot: film.foot,
    taken: film.taken,
    width,
    height,
    mmPerPx,
    toe,
    tilt,
    marker: { mm: 100, from: place(image(film.bar.from)), to: place(image(film.bar.to)) },
    ground: { from: place(image(inwards(back, front))), to: place(image(inwards(front, back))) },
    ...(film.shoe && { bearing: { from: place(image(at(back.x + 6, 0))), to: place(image(at(front.x - 6, 0))) } }),
    landmarks: Object.fromEntries(landmarks),
    parameters: inWords(film.parameters),
  };
}

/** The same of a film on which the marker may have been forgotten. */
export type UnmarkedTruth = Omit<Truth, 'marker'> & Partial<Pick<Truth, 'marker'>>;

export function truthOnFilm(film: Film): UnmarkedTruth {
  const { marker: _, ...rest } = truth(film);
  return film.isUnmarked ? rest : truth(film);
}
