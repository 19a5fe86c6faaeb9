/** Less variance than this a sample is an even place, where nothing can be told from anything. */
const EVEN = 1e-3;

/**
 * How well a patch agrees with each place of a window, whatever the brightness and the contrast of either: the normalised
 * cross-correlation, 1 where they agree, 0 in an even place. Square both; row by row, one value for each shift of the patch.
 *
 * @param side samples of the patch in a row
 * @param windowSide samples of the window in a row; there are `windowSide - side + 1` shifts in a row
 */
export function correlations(
  patch: Float32Array,
  side: number,
  window: Float32Array,
  windowSide: number,
): Float32Array {
  const shifts = windowSide - side + 1;
  const count = side * side;
  const centred = new Float64Array(count);
  let mean = 0;
  for (let i = 0; i < count; i++) mean += patch[i] ?? 0;
  mean /= count;
  let patchSquares = 0;
  for (let i = 0; i < count; i++) {
    const d = (patch[i] ?? 0) - mean;
    centred[i] = d;
    patchSquares += d * d;
  }
  const sums = sumTables(window, windowSide);
  const found = new Float32Array(shifts * shifts);
  if (patchSquares <= EVEN * count) return found;
  for (let row = 0; row < shifts; row++)
    for (let column = 0; column < shifts; column++) {
      const sum = sums.of(sums.plain, column, row, side);
      const squares = sums.of(sums.squared, column, row, side) - (sum * sum) / count;
      if (squares <= EVEN * count) continue;
      let product = 0;
      for (let y = 0; y < side; y++) {
        const from = (row + y) * windowSide + column;
        const at = y * side;
        for (let x = 0; x < side; x++) product += (centred[at + x] as number) * (window[from + x] as number);
      }
      found[row * shifts + column] = product / Math.sqrt(patchSquares * squares);
    }
  return found;
}

/** Sums over any square of a window, from four corners each. */
function sumTables(window: Float32Array, side: number) {
  const wide = side + 1;
  const plain = new Float64Array(wide * wide);
  const squared = new Float64Array(wide * wide);
  for (let row = 0; row < side; row++)
    for (let column = 0; column < side; column++) {
      const value = window[row * side + column] ?? 0;
      const at = (row + 1) * wide + column + 1;
      const before = (table: Float64Array): number =>
        (table[at - 1] ?? 0) + (table[at - wide] ?? 0) - (table[at - wide - 1] ?? 0);
      plain[at] = value + before(plain);
      squared[at] = value * value + before(squared);
    }
  const of = (table: Float64Array, column: number, row: number, size: number): number => {
    const from = row * wide + column;
    const to = from + size * wide;
    return (table[to + size] ?? 0) - (table[to] ?? 0) - (table[from + size] ?? 0) + (table[from] ?? 0);
  };
  return { plain, squared, of };
}

/** The same of two rows of numbers at one place. */
export function correlation(a: ArrayLike<number>, b: ArrayLike<number>, from = 0): number {
  const count = a.length;
  let [sumA, sumB] = [0, 0];
  for (let i = 0; i < count; i++) {
    sumA += a[i] as number;
    sumB += b[from + i] as number;
  }
  const [meanA, meanB] = [sumA / count, sumB / count];
  let [product, squaresA, squaresB] = [0, 0, 0];
  for (let i = 0; i < count; i++) {
    const da = (a[i] as number) - meanA;
    const db = (b[from + i] as number) - meanB;
    product += da * db;
    squaresA += da * da;
    squaresB += db * db;
  }
  return squaresA <= EVEN * count || squaresB <= EVEN * count ? 0 : product / Math.sqrt(squaresA * squaresB);
}
