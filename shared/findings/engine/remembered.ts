import type { Span } from '../../notation/tree.ts';
import type { Placed, Visit } from '../../record/schema.ts';
import type { FilmsByDay } from '../../trim/film-series.ts';
import type { StudiedCut, StudiedFilm, StudiedVisit } from '../../trim/study.ts';
import type { Finding } from '../finding.ts';
import type { RuleContext } from '../rule.ts';
import { caseGrounds, cutGrounds, filmGrounds, hasSameGrounds, type CaseGround } from './grounds.ts';
import type { Look } from './watched-series.ts';

/**
 * What was told of a visit, for as long as none of its grounds (`grounds.ts`) has changed: an edit then costs what it touches.
 * Findings are kept as they stood in the file, and moved with their visit.
 */
interface CachedFindings {
  readonly ground: CaseGround;
  readonly studied: StudiedVisit;
  /** The films of other visits that were looked at. */
  readonly looks: readonly Look[];
  readonly findings: readonly Finding[];
}

/** Told of one visit: findings, and what was looked at to find them. */
export type VisitFindings = Pick<CachedFindings, 'looks' | 'findings'>;

/**
 * The last of three caches: visit to findings. A rule sees its visit, the case's grounds, and those films of other visits that it
 * asks for by their day. All three are compared here, so that what is recalled is what would be told anew.
 */
const findingsOfVisit = new WeakMap<Visit, CachedFindings>();

/** Recalls what was told of the visits of one case. */
export class Recall {
  private readonly ground: CaseGround;
  private readonly series: FilmsByDay;
  /** A ground from before that has been found to be the same. */
  private agreed: CaseGround | null = null;
  /** Where the limits are now, by the ground from before: the same for all visits that were told on it. */
  private readonly moves = new Map<CaseGround, LimitMoves>();

  /** `series`: as it is, where the context notes every question. */
  constructor({ animal, record, reference, trim }: RuleContext, series: FilmsByDay) {
    this.ground = { animal, record: { limits: record.limits }, reference, trim };
    this.series = series;
  }

  /** What is told of a visit, in the order of the text; `tell` is asked only where something has changed. */
  of(studied: StudiedVisit, tell: (studied: StudiedVisit) => VisitFindings): readonly Finding[] {
    const visit = studied.visit.is;
    const kept = findingsOfVisit.get(visit);
    const looks =
      kept && this.sameGround(kept.ground) && sameVisit(kept.studied, studied) ? this.again(kept.looks) : null;
    const now = looks && { ground: this.ground, studied, looks };
    const findings = kept && now && moved(kept, now, this.movesOf(kept.ground));
    if (!findings) {
      const told = tell(studied);
      findingsOfVisit.set(visit, { ground: this.ground, studied, ...told });
      return told.findings;
    }
    if (findings !== kept.findings || looks !== kept.looks || studied !== kept.studied)
      findingsOfVisit.set(visit, { ...now, findings });
    return findings;
  }

  private movesOf(before: CaseGround): LimitMoves {
    let moves = this.moves.get(before);
    if (!moves) this.moves.set(before, (moves = limitMoves(before, this.ground)));
    return moves;
  }

  private sameGround(before: CaseGround): boolean {
    if (before === this.agreed) return true;
    if (!hasSameGrounds(caseGrounds, before, this.ground)) return false;
    this.agreed = before;
    return true;
  }

  /** The same questions asked again; null where an answer is another film than before. */
  private again(looks: readonly Look[]): readonly Look[] | null {
    let moves = false;
    for (const { ask, foot, view, day, film } of looks) {
      const now = this.series[ask](foot, view, day);
      if (!sameFilm(film, now)) return null;
      moves ||= now !== film;
    }
    return moves
      ? looks.map((look) => ({ ...look, film: this.series[look.ask](look.foot, look.view, look.day) }))
      : looks;
  }
}

function sameVisit(one: StudiedVisit, other: StudiedVisit): boolean {
  return (
    one === other ||
    (one.films.every((film, index) => sameFilm(film, other.films[index])) &&
      one.cuts.every((cut, index) => sameCut(cut, other.cuts[index])))
  );
}

function sameFilm(one: StudiedFilm | null, other: StudiedFilm | null | undefined): boolean {
  return one && other ? hasSameGrounds(filmGrounds, one, other) : one === (other ?? null);
}

function sameCut(one: StudiedCut, other: StudiedCut | undefined): boolean {
  return other !== undefined && hasSameGrounds(cutGrounds, one, other) && sameFilm(one.film, other.film);
}

type VisitSpans = Omit<CachedFindings, 'findings'>;

/** The findings where everything is now; null where that cannot be told. */
function moved(kept: CachedFindings, now: VisitSpans, limits: LimitMoves): readonly Finding[] | null {
  const { findings } = kept;
  const by = now.studied.visit.start - kept.studied.visit.start;
  // Most often all that findings point to moves by the same.
  const alike = movesAlike(kept, now, by) && (limits.blocks.length === 0 || limits.by === by);
  if (by === 0 && alike) return findings;
  const own = (at: Span): Span => ({ start: at.start + by, end: at.end + by });
  const blocks = alike ? [] : blocksOf(kept, now);
  if (partWays(blocks)) return null;
  const elsewhere = alike ? own : follow(blocks, limits);
  return findings.map((finding) => {
    const { at, related, fixes } = finding;
    return {
      ...finding,
      at: own(at),
      related: related.length === 0 ? related : related.map((one) => ({ ...one, at: elsewhere(one.at) })),
      fixes:
        fixes.length === 0
          ? fixes
          : fixes.map((fix) => ({ ...fix, edits: fix.edits.map((edit) => ({ ...edit, ...own(edit) })) })),
    };
  });
}

function movesAlike(kept: CachedFindings, now: VisitSpans, by: number): boolean {
  return (
    kept.looks.every(({ film }, index) => movedBy(film, now.looks[index]?.film ?? null, by)) &&
    kept.studied.cuts.every(({ film }, index) => movedBy(film, now.studied.cuts[index]?.film ?? null, by))
  );
}

function movedBy(was: StudiedFilm | null, is: StudiedFilm | null, by: number): boolean {
  return !was || !is || was.visit.start + by === is.visit.start;
}

/** A stretch of the file as it was, and by how much it has moved. */
interface MovedSpan extends Span {
  readonly by: number;
}

type PlacedSpan = Placed<{ readonly at: Span }>;

function spanFrom(was: PlacedSpan | undefined, is: Placed<unknown> | undefined): MovedSpan[] {
  return was && is
    ? [{ start: was.start + was.is.at.start, end: was.start + was.is.at.end, by: is.start - was.start }]
    : [];
}

/** Every visit that a finding of a visit may point to. */
function blocksOf(kept: CachedFindings, now: VisitSpans): MovedSpan[] {
  return [
    ...spanFrom(kept.studied.visit, now.studied.visit),
    ...kept.looks.flatMap(({ film }, index) => spanFrom(film?.visit, now.looks[index]?.film?.visit)),
    ...kept.studied.cuts.flatMap(({ film }, index) => spanFrom(film?.visit, now.studied.cuts[index]?.film?.visit)),
  ];
}

/** Where the limits that a finding may point to were, in the order of the text, and how they have moved. */
interface LimitMoves {
  readonly blocks: readonly MovedSpan[];
  /** The same of all; null where they part. */
  readonly by: number | null;
}

function limitMoves(before: CaseGround, now: CaseGround): LimitMoves {
  const blocks = before.record.limits.flatMap((limit, index) => spanFrom(limit, now.record.limits[index]));
  const by = blocks[0]?.by ?? 0;
  return { blocks, by: blocks.every((block) => block.by === by) ? by : null };
}

/** Visits of one text are remembered as one: what was the visit itself may now be the other one that is looked at. */
function partWays(blocks: readonly MovedSpan[]): boolean {
  const by = new Map<number, number>();
  return blocks.some((block) => {
    const other = by.get(block.start) ?? block.by;
    by.set(block.start, block.by);
    return other !== block.by;
  });
}

function follow(blocks: readonly MovedSpan[], limits: LimitMoves): (at: Span) => Span {
  const inOrder = blocks.toSorted((one, other) => one.start - other.start);
  return ({ start, end }) => {
    const by = (around(inOrder, start) ?? around(limits.blocks, start))?.by ?? 0;
    return { start: start + by, end: end + by };
  };
}

/** The one of several blocks, apart from each other and in order, in which an offset lies. */
function around(blocks: readonly MovedSpan[], offset: number): MovedSpan | undefined {
  let low = 0;
  let high = blocks.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((blocks[middle] as MovedSpan).start <= offset) low = middle + 1;
    else high = middle;
  }
  const block = blocks[low - 1];
  return block && offset <= block.end ? block : undefined;
}
