import type { Agreement, TableOrLack } from '../agreement/agreement.ts';
import { UNNAMED } from '../agreement/read-films.ts';
import type { AgreeJson } from './json-shapes.ts';

type Table = AgreeJson['measures'][number]['table'];

/** What `agree --format json` prints; numbers are not rounded, and a reader without a name is null. */
export function agreeDocument({
  films,
  byTwo,
  repeated,
  copies,
  followed,
  readers,
  measures,
  landmarks,
  notInMm,
}: Agreement): AgreeJson {
  return {
    ungula: 1,
    films: { read: films, byTwo, repeated, copies, followed, notInMm },
    readers: readers.map(named),
    measures: measures.map(({ kind, measure, unit, between, table, tableReaders, pairs, own, readers: counts }) => ({
      kind,
      measure,
      unit,
      readers: counts.map(({ reader, films: count }) => ({ reader: named(reader), films: count })),
      between,
      table: printed(table, tableReaders),
      pairs: pairs.map(({ first, second, values: _values, ...pair }) => ({
        first: named(first),
        second: named(second),
        ...pair,
      })),
      own: own.map(({ reader, spread, smallestChange, table: times }) => ({
        reader: named(reader),
        spread,
        smallestChange,
        table: printed(times),
      })),
    })),
    landmarks: landmarks.map((one) => ({ ...one })),
  };
}

const named = (reader: string): string | null => (reader === UNNAMED ? null : reader);

function printed(table: TableOrLack, readers?: readonly string[]): Table {
  if ('lack' in table) return { lack: table.lack };
  const { columns, films, absolute, consistency, spreads } = table;
  return {
    ...(readers && { readers: readers.map(named) }),
    columns,
    films,
    icc21: absolute,
    icc31: consistency,
    spreads,
  };
}
