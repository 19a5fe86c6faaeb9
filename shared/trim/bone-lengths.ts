import { once } from '../notation/once.ts';
import { distance } from '../geometry/point.ts';
import { hasGrownBones, type Ages } from './case-animal.ts';
import type { StudiedFilm, StudiedReading } from './studied.ts';

/**
 * The bone keeps its size, so a film on which all lengths of bone differ together has another scale than it should, or was
 * taken with another beam; one on which the tip alone is short shows less of the tip.
 */

/** The lengths that stay from film to film in a grown animal, and the landmarks at their ends. */
export const steadyLengths = [
  { name: 'p3-length', from: 'p3.tip', to: 'p3.wing' },
  { name: 'p3-back', from: 'p3.extensor', to: 'p3.wing' },
  { name: 'p2-length', from: 'coffin.centre', to: 'pastern.centre' },
] as const;

export type SteadyName = (typeof steadyLengths)[number]['name'];

/** What a film has of them. */
export interface BoneSize {
  /** mm; null where an end is not placed. */
  readonly mm: readonly (number | null)[];
  /** Covariances of their logarithms from placing and the ends of a marker, row by row. */
  readonly covariance: readonly number[];
}

/** A film of a grown animal with a scale of its own, held against all such films of the foot. */
export interface JudgedBones {
  readonly film: StudiedFilm;
  readonly size: BoneSize;
  /** By what share all lengths are larger than the median of all films, of two films than on the other; one standard deviation. */
  readonly by: number;
  readonly sd: number;
  /** Its lengths differ together from the median by more than chance gives: no length of it can be compared. */
  readonly accused: boolean;
  /** By what share the tip alone is short, where it is by more than chance gives; else null. */
  readonly tipShort: number | null;
}

/** Standard deviations, and a share, beyond which lengths differ. */
export const differs = { sds: 3, share: 0.03 } as const;

const count = steadyLengths.length;
const tip = steadyLengths.findIndex(({ name }) => name === 'p3-length');

/** Every film that can be judged; fewer than two cannot. `films` of one foot from the side. */
export function judgedBones(films: readonly StudiedFilm[], animal: Ages): readonly JudgedBones[] {
  const sized = films.flatMap((film) => {
    const size = hasOwnScale(film) && hasGrownBones(animal, film.day) ? boneSize(film) : null;
    return size ? [{ film, size }] : [];
  });
  if (sized.length < 2) return sized.map((one) => ({ ...one, by: 0, sd: 0, accused: false, tipShort: null }));
  return judged(sized.map(({ size }) => size)).map((verdict, index) => ({
    ...(sized[index] as (typeof sized)[number]),
    ...verdict,
  }));
}

type Verdict = Pick<JudgedBones, 'by' | 'sd' | 'accused' | 'tipShort'>;

/** The same of bare sizes, two or more. */
export function judged(sizes: readonly BoneSize[]): readonly Verdict[] {
  const logs = sizes.map(({ mm }) => mm.map((one) => (one === null ? null : Math.log(one))));
  const middle = steadyLengths.map((_, length) => {
    const all = logs.flatMap((of) => of[length] ?? []);
    return all.length < 2 ? null : median(all);
  });
  const two = sizes.length === 2;
  const mean = meanSize(sizes);
  return sizes.map((size, index) => {
    // From the other of two films it is twice as far as from the middle between them.
    const offs = middle.map((at, length) => {
      const log = logs[index]?.[length] ?? null;
      return at === null || log === null ? null : (log - at) * (two ? 2 : 1);
    });
    const known = offs.flatMap((off, length) => (off === null ? [] : [length]));
    if (known.length < 2) return { by: 0, sd: 0, accused: false, tipShort: null };
    const deviation = (weights: readonly number[]): number => {
      const own = varianceOf(size, weights);
      const all = varianceOf(mean, weights);
      // The other film has its own error; a median has about π/2 times that of a mean.
      const against = two ? 2 * all - own : ((Math.PI / 2) * all) / sizes.length;
      return Math.sqrt(own + against);
    };
    const together = weightsOf((length) => (known.includes(length) ? 1 / known.length : 0));
    const off = dot(offs, together);
    const sd = deviation(together);
    const all = known.every((length) => {
      const one = offs[length] as number;
      return Math.sign(one) === Math.sign(off) && Math.abs(one) > Math.abs(off) / 2;
    });
    const by = Math.expm1(off);
    const accused = all && Math.abs(off) > differs.sds * sd && Math.abs(by) > differs.share;
    if (accused || !known.includes(tip)) return { by, sd, accused, tipShort: null };
    const others = known.length - 1;
    const alone = weightsOf((length) => (length === tip ? 1 : known.includes(length) ? -1 / others : 0));
    const rest = weightsOf((length) => (length !== tip && known.includes(length) ? 1 / others : 0));
    const short = dot(offs, alone);
    const steady = Math.abs(dot(offs, rest)) < Math.max(differs.sds * deviation(rest), differs.share);
    const isShort = steady && short < -differs.sds * deviation(alone) && Math.expm1(short) < -differs.share;
    return { by, sd, accused, tipShort: isShort ? -Math.expm1(short) : null };
  });
}

/** What lengths of bone taken from several films are known to, as a share: of the median of what each film says. */
export function spreadOfMedian(sizes: readonly BoneSize[]): number {
  const each = weightsOf(() => 1 / count);
  const mean = varianceOf(meanSize(sizes), each);
  return Math.sqrt(((sizes.length > 2 ? Math.PI / 2 : 1) * mean) / sizes.length);
}

/** Whether its scale says something of its own, and not of other films. */
export function hasOwnScale({ film }: StudiedFilm): boolean {
  return film.kind === 'film' && film.scale !== null && film.scale.kind !== 'bone';
}

const weightsOf = (weight: (length: number) => number): number[] => steadyLengths.map((_, length) => weight(length));

function dot(offs: readonly (number | null)[], weights: readonly number[]): number {
  return offs.reduce<number>((sum, off, length) => sum + (off ?? 0) * (weights[length] ?? 0), 0);
}

/** A size whose variance is the mean of theirs, by whatever weights; its lengths say nothing. */
function meanSize(sizes: readonly BoneSize[]): BoneSize {
  const sums = Array.from({ length: count * count }, () => 0);
  for (const { mm, covariance } of sizes)
    covariance.forEach((one, place) => {
      if (mm[Math.floor(place / count)] !== null && mm[place % count] !== null) sums[place] = (sums[place] ?? 0) + one;
    });
  return { mm: steadyLengths.map(() => 1), covariance: sums.map((sum) => sum / sizes.length) };
}

function varianceOf({ mm, covariance }: BoneSize, weights: readonly number[]): number {
  let sum = 0;
  for (let row = 0; row < count; row++)
    for (let column = 0; column < count; column++)
      if (mm[row] !== null && mm[column] !== null)
        sum += (weights[row] ?? 0) * (weights[column] ?? 0) * (covariance[row * count + column] ?? 0);
  return sum;
}

export function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const half = Math.floor(sorted.length / 2);
  const upper = sorted[half] as number;
  return sorted.length % 2 === 1 ? upper : ((sorted[half - 1] as number) + upper) / 2;
}

/** Of several readers the first whose landmarks make a frame; null without a scale. */
function boneSize({ readings }: StudiedFilm): BoneSize | null {
  const reading = readings.find(({ taking }) => taking.frame);
  return reading ? boneSizeIn(reading) : null;
}

/** Once for a reading, as every change of a case asks for all of them. */
const boneSizeIn = once(({ taking: { frame } }: StudiedReading): BoneSize | null => {
  if (!frame?.scale) return null;
  const { graph } = frame;
  return graph.scratch(() => {
    const lengths = steadyLengths.map(({ from, to }) => {
      const [start, end] = [frame.at(from), frame.at(to)];
      return start && end ? distance(start, end) : null;
    });
    const covariance = lengths.flatMap((one) =>
      lengths.map((other) => (one && other ? graph.covariance(one, other) / (one.value * other.value) : 0)),
    );
    const mm = lengths.map((length) => (length && length.value > 0 ? length.value : null));
    const placed = mm.filter((length) => length !== null).length;
    return placed > 0 && covariance.every(Number.isFinite) ? { mm, covariance } : null;
  });
});
