import { expect } from 'vitest';
import { measuresOf, type Film, type Point } from './lateral.ts';

/** Feet of a few points whose measures can be followed on paper, as films of them. */

export const DEGREE = Math.PI / 180;

export type Places = Record<string, [x: number, y: number]>;

export interface Picture {
  facing?: 1 | -1;
  tiltDegrees?: number;
  mmPerPx?: number;
  ground?: boolean;
}

/** Millimetres with the toe towards +x and y upwards become a film; 0.1 mm/px unless told. */
export function filmed(places: Places, picture: Picture = {}): Film {
  const { facing = 1, tiltDegrees = 0, mmPerPx = 0.1, ground = true } = picture;
  const cos = Math.cos(tiltDegrees * DEGREE);
  const sin = Math.sin(tiltDegrees * DEGREE);
  const onImage = ([x, y]: [number, number]): Point => ({
    x: 1500 + (facing * x * cos + y * sin) / mmPerPx,
    y: 1200 + (facing * x * sin - y * cos) / mmPerPx,
  });
  return {
    landmarks: Object.entries(places).map(([name, place]) => ({ name, ...onImage(place) })),
    ...(ground ? { ground: { a: onImage([-100, 0]), b: onImage([50, 0]) } } : {}),
    scale: { form: 'stated', mmPerPx },
  };
}

export function expectMeasures(film: Film, expected: Record<string, number>): void {
  const values = measuresOf(film);
  for (const [measure, value] of Object.entries(expected)) {
    expect(values.get(measure), measure).toBeCloseTo(value, 9);
  }
}

export const BONE: Places = { 'p3.tip': [0, 0], 'p3.wing': [-60, 60 * Math.tan(5 * DEGREE)] };
