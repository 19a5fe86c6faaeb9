import { findMeasure } from '../../measures/registry.ts';
import type { Span } from '../../notation/tree.ts';
import type { Acceptance, CaseRecord } from '../../record/schema.ts';
import type { StudiedFilm } from '../../trim/study.ts';

/** An acceptance with its offsets counted from the start of the file. */
export interface PlacedAcceptance {
  readonly is: Acceptance;
  readonly at: Span;
  readonly within: Span;
  readonly start: number;
}

export function placedIn({ animal, visits }: CaseRecord): PlacedAcceptance[] {
  return [...(animal ? [animal] : []), ...visits].flatMap(({ start, is: { accepts } }) =>
    accepts.map((is) => ({ is, start, at: moved(is.at, start), within: moved(is.within, start) })),
  );
}

export const moved = ({ start, end }: Span, by: number): Span => ({ start: start + by, end: end + by });

/**
 * The measures that are accepted by name, of a code that tells several together: what is told of a film has to keep them apart.
 */
export function acceptedAlone(record: CaseRecord, code: string): (film: StudiedFilm) => ReadonlySet<string> {
  const placed = placedIn(record).filter(({ is }) => is.code === code && is.measure !== null);
  return ({ visit, film }) => {
    const [start, end] = [visit.start + film.at.start, visit.start + film.at.end];
    return new Set(
      placed
        .filter(({ within }) => within.start <= start && end <= within.end)
        .flatMap(({ is }) => findMeasure(is.measure ?? '')?.name ?? []),
    );
  };
}
