import { spokenRows } from '../language/rows.ts';
import type { View } from '../notation/landmarks.ts';
import { angles } from './angles.ts';
import { bones } from './bone.ts';
import { depths } from './depth.ts';
import { fronts } from './front.ts';
import type { MeasureOf } from './measure.ts';
import { ratios } from './ratios.ts';
import { shoes } from './shoe.ts';
import { solars } from './solar.ts';
import { walls } from './wall.ts';

/** Every measure, in the order in which tables show them. */
export const measures = spokenRows(
  [...angles, ...depths, ...walls, ...bones, ...ratios, ...shoes, ...fronts, ...solars] as const,
  'words',
  'doc',
  'formula',
);

/** A measure that is in use; its name is one of the union in `names.ts`. */
export type Measure = MeasureOf<(typeof measures)[number]['name']>;

const byView: Readonly<Record<View, readonly Measure[]>> = {
  lateral: measures.filter(({ view }) => view === 'lateral'),
  front: fronts,
  solar: solars,
};

export function measuresIn(view: View): readonly Measure[] {
  return byView[view];
}

const byName = new Map<string, Measure>(
  measures.flatMap((measure) => [
    [measure.name, measure] as const,
    ...(measure.alias ? [[measure.alias, measure] as const] : []),
  ]),
);

/** A measure by its name or its other name. */
export function findMeasure(name: string): Measure | undefined {
  return byName.get(name);
}

export function measureNames(): string[] {
  return [...byName.keys()];
}

/** Whether a measure is one of shod feet alone. */
export const isOfShod = ({ family, name }: Pick<Measure, 'family' | 'name'>): boolean =>
  family === 'shoe' || name === 'palmar-angle.bearing';
