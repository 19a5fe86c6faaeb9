/** A row for each film, in it a value for each reader (or for each time that one reader read it). No gap. */
export type ReadingsTable = readonly (readonly number[])[];

/** The two-way analysis of variance of such a table with one value in each cell (Shrout and Fleiss 1979, table 2). */
export interface MeanSquares {
  /** How many films, 2 or more. */
  readonly n: number;
  /** How many readers, 2 or more. */
  readonly k: number;
  /** BMS there: how far the films lie apart. */
  readonly films: number;
  /** JMS there: how far the readers lie apart on the whole. */
  readonly readers: number;
  /** EMS there: what neither explains. */
  readonly rest: number;
}

/** @returns null with fewer than two films or two readers */
export function meanSquares(table: ReadingsTable): MeanSquares | null {
  const n = table.length;
  const k = table[0]?.length ?? 0;
  if (n < 2 || k < 2) return null;
  const filmMeans = table.map(mean);
  const readerMeans = Array.from({ length: k }, (_, reader) => mean(table.map((row) => row[reader] as number)));
  const all = mean(filmMeans);
  let rest = 0;
  table.forEach((row, film) =>
    row.forEach((value, reader) => {
      rest += (value - (filmMeans[film] as number) - (readerMeans[reader] as number) + all) ** 2;
    }),
  );
  return {
    n,
    k,
    films: (k * squaresAround(filmMeans, all)) / (n - 1),
    readers: (n * squaresAround(readerMeans, all)) / (k - 1),
    rest: rest / ((n - 1) * (k - 1)),
  };
}

export const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

export const squaresAround = (values: readonly number[], middle: number): number =>
  values.reduce((sum, value) => sum + (value - middle) ** 2, 0);
