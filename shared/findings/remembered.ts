import type { Taking } from '../measures/take.ts';
import type { Cut, Placed, Visit } from '../record/schema.ts';
import type { Study, StudiedCut, StudiedFilm, StudiedReading } from '../trim/study.ts';
import type { Finding } from './finding.ts';

/**
 * What was told of a reading or a cut, for as long as nothing that it rests on has changed: an edit then costs what it
 * touches. Findings are kept as they stood in the file, and moved with their visit.
 */
interface Kept {
  readonly ground: Ground;
  /** What else it rests on, each by identity. */
  readonly on: readonly unknown[];
  readonly visit: Placed<Visit>;
  readonly film: Placed<Visit> | null;
  readonly findings: readonly Finding[];
}

/** All that a case brings to its rules beside the film or cut itself. */
export interface Ground {
  readonly key: string;
  readonly reference: Study['reference'];
  readonly trim: Study['trim'];
}

export function groundOf({ record, animal, reference, trim }: Study): Ground {
  return { key: JSON.stringify([animal, record.limits]), reference, trim };
}

const byTaking = new WeakMap<Taking, Kept>();
const byCut = new WeakMap<Cut, Kept>();

export function ofReading(
  film: StudiedFilm,
  { taking }: StudiedReading,
  ground: Ground,
  tell: () => Finding[],
): readonly Finding[] {
  const on = [film.film, film.stored, ...film.readings.map((one) => one.taking)];
  return recall(byTaking, taking, { ground, on, visit: film.visit, film: null }, tell);
}

export function ofCut(
  { cut, visit, film, reading, prediction }: StudiedCut,
  ground: Ground,
  tell: () => Finding[],
): readonly Finding[] {
  // The taking too: where there is no prediction, what is lacking is told from it.
  const on = [prediction, film?.film, reading?.taking];
  return recall(byCut, cut, { ground, on, visit, film: film?.visit ?? null }, tell);
}

function recall<K extends object>(
  memory: WeakMap<K, Kept>,
  key: K,
  now: Omit<Kept, 'findings'>,
  tell: () => Finding[],
): readonly Finding[] {
  const kept = memory.get(key);
  if (!kept || !isSame(kept, now)) {
    const findings = tell();
    memory.set(key, { ...now, findings });
    return findings;
  }
  if (kept.visit.start === now.visit.start && kept.film?.start === now.film?.start) return kept.findings;
  const findings = kept.findings.map((finding) => moved(finding, kept, now));
  memory.set(key, { ...now, findings });
  return findings;
}

function isSame(kept: Kept, now: Omit<Kept, 'findings'>): boolean {
  const { ground } = kept;
  return (
    ground.key === now.ground.key &&
    ground.reference === now.ground.reference &&
    ground.trim === now.ground.trim &&
    kept.visit.is === now.visit.is &&
    kept.film?.is === now.film?.is &&
    // Of two visits that are alike one may rest on the film of the other: places are then not told apart by where they lie.
    (kept.film?.start === kept.visit.start) === (now.film?.start === now.visit.start) &&
    kept.on.length === now.on.length &&
    kept.on.every((one, index) => one === now.on[index])
  );
}

/** The finding where its visit is now; what it points to moves with the visit that it lies in, and else stays. */
function moved(finding: Finding, kept: Kept, now: Omit<Kept, 'findings'>): Finding {
  const by = now.visit.start - kept.visit.start;
  const shift = <T extends { start: number; end: number }>(at: T, offset: number): T => ({
    ...at,
    start: at.start + offset,
    end: at.end + offset,
  });
  const related = (at: { start: number; end: number }) => {
    if (lies(at, kept.visit)) return shift(at, by);
    return kept.film && now.film && lies(at, kept.film) ? shift(at, now.film.start - kept.film.start) : at;
  };
  return {
    ...finding,
    at: shift(finding.at, by),
    related: finding.related.map((one) => ({ ...one, at: related(one.at) })),
    fixes: finding.fixes.map((fix) => ({ ...fix, edits: fix.edits.map((edit) => shift(edit, by)) })),
  };
}

function lies({ start }: { start: number }, { start: from, is }: Placed<Visit>): boolean {
  return start >= from && start <= from + is.at.end;
}
