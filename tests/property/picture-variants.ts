/** The same picture told otherwise: what a measure must not see, or must follow in proportion. */

import { round } from './dice.ts';
import type { Film, Point } from './oracle/lateral.ts';

/** Fine enough for 1e-6 of any measure, and never written with an exponent. */
const DIGITS = 9;

function points(film: Film): Point[] {
  const all: Point[] = [...film.landmarks];
  if (film.ground) all.push(film.ground.a, film.ground.b);
  if (film.scale?.form === 'marker') all.push(film.scale.ends.a, film.scale.ends.b);
  return all;
}

function mapped(film: Film, map: (point: Point) => Point): Film {
  const copy = structuredClone(film);
  for (const point of points(copy)) {
    const { x, y } = map(point);
    point.x = round(x, DIGITS);
    point.y = round(y, DIGITS);
  }
  return copy;
}

export function moved(film: Film, dx: number, dy: number): Film {
  return mapped(film, ({ x, y }) => ({ x: x + dx, y: y + dy }));
}

export function turned(film: Film, degrees: number): Film {
  const radians = (degrees * Math.PI) / 180;
  const cos = Math.cos(radians);
  const sin = Math.sin(radians);
  return mapped(film, ({ x, y }) => ({ x: x * cos - y * sin, y: x * sin + y * cos }));
}

/** As a film that lies on the viewer the wrong side up: left and right change, no name does. */
export function mirrored(film: Film, width: number): Film {
  return mapped(film, ({ x, y }) => ({ x: width - x, y }));
}

/** The picture with `factor` as many pixels each way; what is stated in pixels grows with it. */
export function enlarged(film: Film, factor: number): Film {
  const copy = blurred(
    mapped(film, ({ x, y }) => ({ x: x * factor, y: y * factor })),
    factor,
  );
  if (copy.scale?.form === 'stated') copy.scale.mmPerPx = round(copy.scale.mmPerPx / factor, 15);
  return copy;
}

export function unscaled(film: Film): Film {
  const copy = structuredClone(film);
  delete copy.scale;
  delete copy.magnify;
  return copy;
}

/** The same picture of a foot `factor` times as large. */
export function rescaled(film: Film, factor: number): Film {
  const copy = structuredClone(film);
  if (copy.scale?.form === 'stated') copy.scale.mmPerPx *= factor;
  if (copy.scale?.form === 'marker') copy.scale.length *= factor;
  return copy;
}

/** Placed `factor` times as badly. */
export function blurred(film: Film, factor: number): Film {
  const copy = structuredClone(film);
  for (const point of points(copy)) if (point.spread !== undefined) point.spread *= factor;
  if (copy.readerSpread !== undefined) copy.readerSpread *= factor;
  return copy;
}

/** Every medial point named lateral, and the other way round. */
export function sidesExchanged(film: Film): Film {
  const copy = structuredClone(film);
  for (const landmark of copy.landmarks) landmark.name = otherSide(landmark.name);
  return copy;
}

export function otherSide(name: string): string {
  return name.replace(/\.(medial|lateral)$/, (side) => (side === '.medial' ? '.lateral' : '.medial'));
}
