import type { XY } from '../geometry/vector.ts';
import { measures } from '../measures/registry.ts';
import { landmarks } from '../notation/landmarks.ts';
import type { FilmsRead, OneReading, ReadFilm } from './read-films.ts';

/** What was read, as a message carries it: by names, without what was not measured or placed. */
export interface ToldReadings {
  readonly films: readonly ToldFilm[];
  readonly copies: number;
  readonly followed: number;
}

export interface ToldFilm extends Omit<ReadFilm, 'readings'> {
  readonly readings: readonly {
    /** Empty for the unnamed one. */
    readonly reader: string;
    readonly values: Readonly<Record<string, number>>;
    readonly places: Readonly<Record<string, XY>>;
    readonly scale: number | null;
  }[];
}

export function toldReadings({ films, copies, followed }: FilmsRead): ToldReadings {
  return {
    films: films.map(({ readings, ...film }) => ({
      ...film,
      readings: [...readings].flatMap(([reader, all]) =>
        all.map(({ values, places, scale }) => ({
          reader,
          values: Object.fromEntries(
            measures.flatMap(({ name }, at) => (Number.isNaN(values[at]) ? [] : [[name, values[at] as number]])),
          ),
          places: Object.fromEntries(
            landmarks.flatMap(({ word }, at) =>
              Number.isNaN(places[2 * at])
                ? []
                : [[word, { x: places[2 * at] as number, y: places[2 * at + 1] as number }]],
            ),
          ),
          scale,
        })),
      ),
    })),
    copies,
    followed,
  };
}

/** The other way. Which placings a fit has made is not told, as only a reader's own spread goes by it. */
export function readFrom({ films, copies, followed }: ToldReadings): FilmsRead {
  return {
    films: films.map(({ readings, ...film }) => {
      const byReader = new Map<string, OneReading[]>();
      for (const { reader, values, places, scale } of readings) {
        const one: OneReading = {
          values: Float64Array.from(measures, ({ name }) => values[name] ?? Number.NaN),
          places: Float64Array.from(
            landmarks.flatMap(({ word }) => [places[word]?.x, places[word]?.y]),
            (at) => at ?? Number.NaN,
          ),
          fitted: [],
          scale,
        };
        byReader.set(reader, [...(byReader.get(reader) ?? []), one]);
      }
      return { ...film, readings: byReader };
    }),
    copies,
    followed,
  };
}
