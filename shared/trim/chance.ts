import { upperTail } from '../geometry/normal-tail.ts';

/** Numbers that vary together: their means, and their covariances row by row. */
export interface VaryingTogether {
  readonly means: readonly number[];
  readonly covariance: readonly number[];
}

const draws = 8192;

/**
 * The chance that none of several normal numbers is below 0, 0 to 1. One alone by the distribution; several by draws, always the
 * same ones, so that the answer is the same each time: to about 0.003.
 */
export function chanceOfNoneBelow({ means, covariance }: VaryingTogether): number {
  const n = means.length;
  const sd = (i: number): number => Math.sqrt(Math.max(0, covariance[i * n + i] as number));
  // What is known to the last bit either holds or does not.
  const vary = means.flatMap((_, i) => (sd(i) > 0 ? [i] : []));
  if (means.some((mean, i) => sd(i) === 0 && mean < -1e-9)) return 0;
  const [first, ...more] = vary;
  if (first === undefined) return 1;
  if (more.length === 0) return upperTail(-(means[first] as number) / sd(first));
  const root = choleskyOf(vary.map((i) => vary.map((j) => covariance[i * n + j] as number)));
  const normals = normalsFor(vary.length);
  let held = 0;
  for (let draw = 0; draw < draws; draw++) if (holds(draw)) held++;
  return held / draws;

  function holds(draw: number): boolean {
    for (let row = 0; row < root.length; row++) {
      let value = means[vary[row] as number] as number;
      const weights = root[row] as number[];
      for (let column = 0; column <= row; column++)
        value += (weights[column] as number) * (normals[column * draws + draw] as number);
      if (value < 0) return false;
    }
    return true;
  }
}

/** The lower root of a covariance matrix; a number that hangs wholly on those before it gets nothing of its own. */
function choleskyOf(matrix: readonly (readonly number[])[]): number[][] {
  const root: number[][] = [];
  matrix.forEach((values, row) => {
    const line: number[] = [];
    for (let column = 0; column <= row; column++) {
      let rest = values[column] as number;
      for (let k = 0; k < column; k++) rest -= (line[k] as number) * ((column === row ? line : root[column])?.[k] ?? 0);
      if (column === row) line.push(rest > 1e-12 * (values[row] as number) ? Math.sqrt(rest) : 0);
      else {
        const over = root[column]?.[column] ?? 0;
        line.push(over > 0 ? rest / over : 0);
      }
    }
    root.push(line);
  });
  return root;
}

let kept = new Float64Array(0);

/** So many columns of normal draws. */
function normalsFor(columns: number): Float64Array {
  if (kept.length >= columns * draws) return kept;
  const random = mulberry(0x5eed);
  kept = new Float64Array(columns * draws);
  for (let place = 0; place < kept.length; place += 2) {
    // Box and Muller's pair.
    const radius = Math.sqrt(-2 * Math.log(1 - random()));
    const angle = 2 * Math.PI * random();
    kept[place] = radius * Math.cos(angle);
    kept[place + 1] = radius * Math.sin(angle);
  }
  return kept;
}

/** Mulberry32: the same numbers on every machine. */
function mulberry(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}
