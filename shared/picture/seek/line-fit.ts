/** A straight line through places: how far across it lies at each place along. */
export interface LineFit {
  /** Across = offset + slope × along. */
  readonly offset: number;
  readonly slope: number;
  /** One standard deviation each. */
  readonly offsetSd: number;
  readonly slopeSd: number;
  /** Of one place about the line. */
  readonly residualSd: number;
  /** How many places it rests on. */
  readonly count: number;
  /** Of the line itself at a place along it, one standard deviation. */
  sdAt(along: number): number;
}

/** Ordinary least squares of places across on places along; null for fewer than three, or where all lie at one place along. */
export function leastSquaresLine(along: ArrayLike<number>, across: ArrayLike<number>): LineFit | null {
  const count = along.length;
  if (count < 3) return null;
  let [meanX, meanY] = [0, 0];
  for (let i = 0; i < count; i++) {
    meanX += (along[i] as number) / count;
    meanY += (across[i] as number) / count;
  }
  let [squares, product] = [0, 0];
  for (let i = 0; i < count; i++) {
    const d = (along[i] as number) - meanX;
    squares += d * d;
    product += d * ((across[i] as number) - meanY);
  }
  if (!(squares > 0)) return null;
  const slope = product / squares;
  const offset = meanY - slope * meanX;
  let left = 0;
  for (let i = 0; i < count; i++) left += ((across[i] as number) - offset - slope * (along[i] as number)) ** 2;
  const residualSd = Math.sqrt(left / (count - 2));
  const sdAt = (at: number): number => residualSd * Math.sqrt(1 / count + (at - meanX) ** 2 / squares);
  return { offset, slope, offsetSd: sdAt(0), slopeSd: residualSd / Math.sqrt(squares), residualSd, count, sdAt };
}

/** Of a sample from a normal distribution the median of all distances from the middle is so much smaller than the deviation. */
const MEDIAN_TO_SD = 1.4826;
/** Places further off than so many deviations are no part of the line. */
const OFF = 3;

/**
 * The line that most of the places lie on, whatever the others do: least median of squares over all pairs (Rousseeuw 1984), then
 * least squares of those within three deviations of it. Null where fewer than `least` are left, or nothing is a line. Where
 * neighbours err alike, as grain makes them do, the deviations are larger than if each place told something of its own.
 *
 * @param floor no place is left out that lies nearer than this
 */
export function robustLine(
  along: ArrayLike<number>,
  across: ArrayLike<number>,
  least = 6,
  floor = 0.1,
): LineFit | null {
  const begun = leastMedianLine(along, across);
  if (!begun) return null;
  let fit: Pick<LineFit, 'offset' | 'slope'> = begun;
  let found: LineFit | null = null;
  for (let round = 0; round < 4; round++) {
    const off = Array.from(across, (y, i) => Math.abs(y - fit.offset - fit.slope * (along[i] as number)));
    const limit = Math.max(floor, OFF * MEDIAN_TO_SD * (1 + 5 / Math.max(1, off.length - 2)) * median(off));
    const kept = off.flatMap((d, i) => (d <= limit ? [i] : []));
    if (kept.length < least) return null;
    found = leastSquaresLine(
      kept.map((i) => along[i] as number),
      kept.map((i) => across[i] as number),
    );
    if (!found) return null;
    fit = found;
    found = widened(found, kept, along, across);
  }
  return found;
}

/** Deviations as they are when neighbours err alike: first-order autocorrelation of what is left, in the order of the places. */
function widened(fit: LineFit, kept: readonly number[], along: ArrayLike<number>, across: ArrayLike<number>): LineFit {
  const left = kept.map((i) => (across[i] as number) - fit.offset - fit.slope * (along[i] as number));
  let [squares, products] = [0, 0];
  for (const [i, one] of left.entries()) {
    squares += one * one;
    products += one * (left[i - 1] ?? 0);
  }
  const alike = squares > 0 ? Math.max(0, Math.min(0.9, products / squares + 1 / left.length)) : 0;
  const times = Math.sqrt((1 + alike) / (1 - alike));
  return {
    ...fit,
    offsetSd: times * fit.offsetSd,
    slopeSd: times * fit.slopeSd,
    sdAt: (at) => times * fit.sdAt(at),
  };
}

function leastMedianLine(
  along: ArrayLike<number>,
  across: ArrayLike<number>,
): { offset: number; slope: number } | null {
  const count = along.length;
  const off = new Float64Array(count);
  let lowest = Infinity;
  let found: { offset: number; slope: number } | null = null;
  let widest = 0;
  for (let i = 0; i < count; i++) widest = Math.max(widest, Math.abs((along[i] as number) - (along[0] as number)));
  for (let i = 0; i < count; i++)
    for (let j = i + 1; j < count; j++) {
      const apart = (along[j] as number) - (along[i] as number);
      // Two that lie side by side say nothing of a line's way.
      if (Math.abs(apart) < widest / 8 || apart === 0) continue;
      const slope = ((across[j] as number) - (across[i] as number)) / apart;
      const offset = (across[i] as number) - slope * (along[i] as number);
      for (let k = 0; k < count; k++) off[k] = Math.abs((across[k] as number) - offset - slope * (along[k] as number));
      const middle = off.sort()[Math.floor(count / 2)] ?? Infinity;
      if (middle < lowest) {
        lowest = middle;
        found = { offset, slope };
      }
    }
  return found;
}

export function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const half = sorted.length / 2;
  const upper = sorted[Math.floor(half)] ?? Number.NaN;
  return Number.isInteger(half) ? (upper + (sorted[half - 1] ?? upper)) / 2 : upper;
}
