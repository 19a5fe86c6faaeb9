import { angles } from './angles.ts';
import { depths } from './depth.ts';
import type { Measure } from './measure.ts';
import { ratios } from './ratios.ts';
import { walls } from './wall.ts';

/** Every measure, in the order in which tables show them. */
export const measures: readonly Measure[] = [...angles, ...depths, ...walls, ...ratios];

const byName = new Map<string, Measure>(
  measures.flatMap((measure) => [[measure.name, measure] as const, ...(measure.alias ? [[measure.alias, measure] as const] : [])]),
);

/** A measure by its name or its other name. */
export function findMeasure(name: string): Measure | undefined {
  return byName.get(name);
}

export function measureNames(): string[] {
  return [...byName.keys()];
}
