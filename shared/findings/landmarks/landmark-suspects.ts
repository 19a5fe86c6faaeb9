import type { Taking } from '../../measures/take.ts';
import type { LandmarkName, View } from '../../notation/landmarks.ts';
import type { Placing, Reading } from '../../record/schema.ts';
import type { StudiedFilm, StudiedReading } from '../../trim/study.ts';
import { contradictions } from './landmark-contradictions.ts';
import { exchanged, frameWith } from './landmark-frame.ts';
import { orderRows, type OrderRow } from './landmark-order-rows.ts';
import { fewest, typicalFit, type Fit } from './typical-fit.ts';

export type SwappedLandmarks = readonly [LandmarkName, LandmarkName];

/** What is amiss in where the points of one reading lie to each other. */
export interface Suspects {
  readonly fit: Fit | null;
  /** Points that no foot has there. */
  readonly far: readonly Placing[];
  readonly rows: readonly OrderRow[];
  /** Two names whose exchange would set all right; several pairs where nothing tells which. */
  readonly exchanges: readonly SwappedLandmarks[];
  /** Every point that one of the above speaks of: what rests on it need not be complained of again. */
  readonly names: ReadonlySet<LandmarkName>;
}

const suspectsOfTaking = new WeakMap<Taking, Suspects>();

export function suspectsOf(film: StudiedFilm, reading: StudiedReading): Suspects {
  const found = suspectsOfTaking.get(reading.taking) ?? look(film, reading);
  suspectsOfTaking.set(reading.taking, found);
  return found;
}

/** Nearly every reading has nothing amiss: its lists are the same empty ones. */
const none: Suspects = { fit: null, far: [], rows: [], exchanges: [], names: new Set() };

function look({ film }: StudiedFilm, studied: StudiedReading): Suspects {
  const { reading, taking } = studied;
  const { view } = film;
  const fit = typicalFit(view, reading);
  const off = fit ? reading.placings.filter((placing) => isOff(placing, fit)) : [];
  const all = taking.frame ? contradictions(view, taking.frame) : [];
  if (off.length === 0 && all.length === 0) return fit ? { ...none, fit } : none;
  const { input } = studied;
  const rowsWith = (placings: readonly Placing[]): OrderRow[] | null => {
    const frame = frameWith(placings, input);
    return frame && contradictions(view, frame);
  };
  const exchangesIn = (
    rows: readonly OrderRow[],
    placings: readonly Placing[],
    those: readonly Placing[],
  ): SwappedLandmarks[] => {
    const swaps = fit ? swapsByFit(those, placings, fit) : [];
    const candidates = rows.length === 0 ? swaps : [...swaps, ...pairsIn(rows, view, placings)];
    const resolving = candidates.flatMap((pair) => {
      const tried = exchanged(placings, ...pair);
      if (rowsWith(tried)?.length !== 0) return [];
      const said =
        those.length === 0 && rows.some(({ names, certain }) => certain && names.every((name) => pair.includes(name)));
      return [{ pair, said, strain: strainAfter(pair, view, { ...reading, placings: tried }) }];
    });
    return mostLikely(resolving, placings.length < fewest);
  };
  const suspects = (
    far: readonly Placing[],
    rows: readonly OrderRow[],
    exchanges: readonly SwappedLandmarks[],
  ): Suspects => ({
    fit,
    far,
    rows,
    exchanges,
    names: new Set([...far.map(({ name }) => name), ...rows.flatMap(({ needs }) => needs), ...exchanges.flat()]),
  });
  const exchanges = exchangesIn(all, reading.placings, off);
  if (exchanges.length > 0 || off.length === 0) return suspects([], all, exchanges);
  // A point far off spoils the order of the others, so it is judged without it.
  const rest = reading.placings.filter((placing) => !off.includes(placing));
  const rows = rowsWith(rest) ?? [];
  return suspects(off, rows, exchangesIn(rows, rest, []));
}

/** Points far off that lie where another point belongs, which lies where they do: names exchanged, not digits lost. */
function swapsByFit(off: readonly Placing[], placings: readonly Placing[], fit: Fit): SwappedLandmarks[] {
  return off.flatMap((one) => {
    const others = placings.filter(
      (other) =>
        other !== one &&
        fit.off(one.name, other) <= fit.allowed(one.name) &&
        fit.off(other.name, one) <= fit.allowed(other.name) &&
        gain([one, other], fit) > fit.allowed(one.name),
    );
    const best = others.toSorted((a, b) => gain([one, b], fit) - gain([one, a], fit))[0];
    return best ? [[one.name, best.name] as const] : [];
  });
}

function pairsIn(rows: readonly OrderRow[], view: View, placings: readonly Placing[]): SwappedLandmarks[] {
  const names = [...new Set(rows.flatMap(({ needs }) => needs))];
  const pairs = names.flatMap((one, index) => names.slice(index + 1).map((other): SwappedLandmarks => [one, other]));
  // Where pairs contradict one another in which way the foot faces, any of them may be the exchanged one.
  if (!rows.some(({ sense }) => sense !== null)) return pairs;
  const placed = new Set(placings.map(({ name }) => name));
  return [
    ...pairs,
    ...facingPairs(view).filter((pair) => pair.every((name) => placed.has(name) && !names.includes(name))),
  ];
}

const facingPairs = (view: View): SwappedLandmarks[] =>
  orderRows[view].filter(({ sense, certain }) => sense !== null && certain).map(({ names }) => names);

/** How far all points together lie from a typical foot after an exchange; infinite where that makes the pair no better. */
function strainAfter([one, other]: SwappedLandmarks, view: View, reading: Reading): number {
  const fit = typicalFit(view, reading);
  const [first, second] = [one, other].map((name) => reading.placings.find((placing) => placing.name === name));
  if (!fit || !first || !second || gain([first, second], fit) > 0) return Infinity;
  if (reading.placings.some((placing) => isOff(placing, fit))) return Infinity;
  return reading.placings.reduce((sum, placing) => sum + fit.off(placing.name, placing), 0);
}

interface Tried {
  readonly pair: SwappedLandmarks;
  /** That the two are crosswise follows from their names, and no point is far off. */
  readonly said: boolean;
  readonly strain: number;
}

/** The exchange after which the points lie most like a foot; with too few points to compare, all of them. */
function mostLikely(tried: readonly Tried[], tooFew: boolean): SwappedLandmarks[] {
  if (tooFew) return tried.map(({ pair }) => pair);
  const [best] = tried
    .filter(({ said, strain }) => said || strain < Infinity)
    .toSorted((a, b) => (a.strain === b.strain ? 0 : a.strain - b.strain));
  return best ? [best.pair] : [];
}

const isOff = (placing: Placing, fit: Fit): boolean => fit.off(placing.name, placing) > fit.allowed(placing.name);

/** By how much the two would lie nearer to where they belong if each had the other’s name. */
function gain([one, other]: readonly [Placing, Placing], fit: Fit): number {
  const now = fit.off(one.name, one) + fit.off(other.name, other);
  return now - fit.off(one.name, other) - fit.off(other.name, one);
}
