import type { FilmSheet, XY } from '../../../shared/views/film-sheet.ts';
import type { EdgeOffer } from '../../../shared/views/edge-pair.ts';
import type { Placement } from '../../../shared/edits/placing-schema.ts';
import { leastSpread } from '../../../shared/edits/least-spread.ts';
import { placingBounds } from '../../../shared/edits/placing-bounds.ts';
import { spreadInPixels } from '../../../shared/geometry/foot-input.ts';
import { jointCentre, type JointCentre } from '../../../shared/geometry/joint-centre.ts';
import type { CircleFit } from '../../../shared/picture/seek/circle-fit.ts';
import { t } from '../../../shared/language/words.ts';

/** What is sought: a straight edge, a long one that may be faint, or the two ends of a bar. */
export type EdgeKind = 'edge' | 'long edge' | 'ends';

/** Two places on their edge, and one standard deviation of each across it, pixels, where the text can say one. */
export interface EdgeFit {
  readonly ends: readonly [XY, XY];
  readonly sds?: readonly [number, number];
}

/** Looks at the picture: places and reach in its pixels; null where there is no edge. */
export type FitEdge = (a: XY, b: XY, reach: number, what: EdgeKind) => EdgeFit | null;

/** The same for three points on a rounded edge; undefined where the picture cannot be looked at, or not yet. */
export type FitRim = (points: readonly [XY, XY, XY], reach: number) => CircleFit | null | undefined;

/** How far from a click an edge is looked for: where the film has a scale, else. */
const REACH = { mm: 1.5, px: 12 } as const;

export const reachOn = ({ scale }: FilmSheet): number => (scale === null ? REACH.px : REACH.mm / scale);

function spreadOn({ scale }: FilmSheet, sd: number, atLeast = 0): number {
  const least = Math.max(atLeast, leastSpread(scale));
  return Math.min(placingBounds.spread.high, Math.max(least, sd));
}

/** Both ends of what is offered; null where one is not placed. */
export function endsOffered({ placed }: FilmSheet, offer: EdgeOffer): readonly [XY, XY] | null {
  if ('line' in offer) return offer.ends;
  const [upper, lower] = [placed[offer.upper], placed[offer.lower]];
  return upper && lower ? [upper, lower] : null;
}

export const kindOffered = (offer: EdgeOffer): EdgeKind =>
  'line' in offer ? (offer.line === 'scale' ? 'ends' : 'long edge') : 'edge';

/** What is written of a fit. A line states no deviation: the notation has none for it. */
export function placedOnEdge(live: FilmSheet, offer: EdgeOffer, { ends, sds }: EdgeFit): readonly Placement[] {
  if ('line' in offer)
    return [offer.line === 'scale' ? { kind: 'marker', ends, mm: null } : { kind: offer.line, ends }];
  // A strip on the wall has two edges, and which one was taken no fit knows: no finer than a hand then.
  const ofHand = offer.upper.startsWith('wall.') ? spreadInPixels(live.input, live.scale) : 0;
  return [offer.upper, offer.lower].map((name, i) => ({
    kind: 'landmark',
    name,
    at: ends[i] as XY,
    spread: spreadOn(live, sds?.[i] ?? 0, ofHand),
  }));
}

export function noEdge(offer: EdgeOffer): string {
  return 'line' in offer && offer.line === 'scale'
    ? t('The picture does not tell both ends of the marker clearly. They stay where they are.')
    : t('No edge was found that runs straight from one point to the other. They stay where they are.');
}

/**
 * The centre of a joint from three points on its rim. `edge`: whether the circle was fitted to the edge beside them; without it the
 * picture was not looked at.
 */
export type RimCentre =
  | Exclude<JointCentre, { readonly centre: XY }>
  | { readonly centre: XY; readonly radius: number; readonly edge?: false }
  | { readonly centre: XY; readonly radius: number; readonly edge: true; readonly spread: number };

export function rimCentre(live: FilmSheet, rim: readonly XY[], fit: FitRim | null): RimCentre {
  const through = jointCentre(rim);
  const [a, b, c] = rim;
  if ('says' in through || !fit || !a || !b || !c) return through;
  const circle = fit([a, b, c], reachOn(live));
  if (circle === undefined) return through;
  if (circle === null) return { ...through, edge: false };
  const { centre, radius, centreSd } = circle;
  return { centre, radius, edge: true, spread: spreadOn(live, centreSd) };
}

export function rimWords(found: RimCentre): string {
  if ('says' in found) return found.says;
  if (found.edge === undefined)
    return t('The centre is found. Take it with Enter or a click on it, or move one of the three points.');
  return found.edge
    ? t(
        'The circle lies on the edge beside the three points. Take its centre with Enter or a click on it, or move one of them.',
      )
    : t(
        'No edge was found beside the three points: the circle goes through them. Take its centre with Enter or a click on it, or move one of them.',
      );
}
