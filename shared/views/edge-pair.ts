import { t } from '../language/words.ts';
import { lateralLandmark, type LandmarkName } from '../notation/landmarks.ts';
import type { FilmSheet, XY } from './film-sheet.ts';
import type { LineKey } from './what-to-place.ts';

/** Two landmarks on one straight edge, both placed: they may be laid onto the edge together. */
export interface EdgePair {
  readonly upper: LandmarkName;
  readonly lower: LandmarkName;
  /** What the edge is called. */
  readonly name: string;
}

/** A line that is placed by its two ends: both may be laid onto its edge, or the marker's onto its own ends. */
export interface EdgeOfLine {
  readonly line: LineKey;
  readonly ends: readonly [XY, XY];
  /** What the edge is called. */
  readonly name: string;
}

export type EdgeOffer = EdgePair | EdgeOfLine;

/** A line once it is placed. */
export function edgeOfLine({ ground, bearing, marker }: FilmSheet, line: LineKey): EdgeOfLine | null {
  const ends = { ground, bearing, scale: marker }[line];
  return ends && { line, ends, name: lineName(line) };
}

function lineName(line: LineKey): string {
  switch (line) {
    case 'ground':
      return t('ground line');
    case 'bearing':
      return t('bearing line');
    case 'scale':
      return t('ends of the marker');
  }
}

/** The pair that a landmark belongs to, once both are placed. */
export function edgePair({ placed, view }: FilmSheet, word: string | null): EdgePair | null {
  const row = word === null || view !== 'lateral' ? undefined : lateralLandmark(word as LandmarkName);
  if (row?.proposed.by !== 'line') return null;
  const { partner } = row.proposed;
  const [upper, lower] = row.word.endsWith('.upper') ? [row.word, partner] : [partner, row.word];
  return placed[upper] && placed[lower] ? { upper, lower, name: edgeName(upper) } : null;
}

function edgeName(upper: LandmarkName): string {
  switch (upper) {
    case 'p3.dorsal.upper':
      return t('dorsal face of the bone');
    case 'wall.inner.upper':
      return t('inner edge of the horn');
    default:
      return t('dorsal wall');
  }
}
