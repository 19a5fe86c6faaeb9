import type { MeasureUnit } from '../measures/measure.ts';
import { findMeasure } from '../measures/registry.ts';
import type { Value } from '../measures/take.ts';
import { bandFor, type Band, type Cut, type Severity } from '../reference/bands.ts';
import { ownBandsFor, ownSource, type OwnBand, type OwnSet } from '../reference/own-set.ts';
import { citation } from '../reference/sources.ts';
import type { Limit, Placed } from '../record/schema.ts';
import { fits } from './fitting-units.ts';
import type { Surroundings } from './rule.ts';
import { list, sayLimit } from './wording.ts';

/** Where a value is out, and how grave that is. */
export interface Bound {
  readonly side: 'low' | 'high';
  readonly at: number;
  readonly severity: Severity;
}

/** A line that a value should not pass: published, of a set of one's own, or agreed for this case. */
export interface Line extends Bound {
  readonly says: string | undefined;
  readonly source: string;
  /** The case's own limit that this is, if it is one. */
  readonly own: Placed<Limit> | null;
  /** The set of reference values that draws it, by name; null for every other line. */
  readonly set: string | null;
  /** Where others put this line: other sources, or for a line of a set what is published. */
  readonly against: readonly { readonly at: number; readonly source: string }[];
}

export interface Lines {
  readonly band: Band | undefined;
  readonly lines: readonly Line[];
}

type Ground = Pick<Surroundings, 'record' | 'animal' | 'reference'>;

/**
 * Every line for a measure on a foot of this case. A limit of the case stands in place of the other ones on its side;
 * one that allows more than they do counts only with a reason.
 */
export function linesFor(measure: string, foot: string, study: Ground): Lines {
  let byFoot = drawn.get(study);
  if (!byFoot) drawn.set(study, (byFoot = new Map<string, Map<string, Lines>>()));
  let byMeasure = byFoot.get(foot);
  if (!byMeasure) byFoot.set(foot, (byMeasure = new Map<string, Lines>()));
  let lines = byMeasure.get(measure);
  if (!lines) byMeasure.set(measure, (lines = draw(measure, foot, study)));
  return lines;
}

const drawn = new WeakMap<Ground, Map<string, Map<string, Lines>>>();

function draw(measure: string, foot: string, study: Ground): Lines {
  const usual = usualLines(measure, foot, study);
  const own = ownLimits(measure, study.record.limits);
  const lines: Line[] = [];
  for (const side of ['low', 'high'] as const) {
    const agreed = own[side];
    const theirs = usual.lines.filter((line) => line.side === side);
    if (!agreed || !counts(agreed.is, usual)) {
      lines.push(...theirs);
      continue;
    }
    const at = agreed.is.quantity.base;
    const line: Line = {
      side,
      at,
      severity: 'warning',
      says: undefined,
      own: agreed,
      set: null,
      against: [],
      source: `limit of this case${agreed.is.because ? `: ${agreed.is.because}` : ''}`,
    };
    // An error-level line stays where the case is merely stricter than the warning before it.
    lines.push(line, ...theirs.filter((published) => published.severity === 'error' && passes(published.at, line)));
  }
  return { band: usual.band, lines };
}

/**
 * The lines for a measure before the case has its say. On a side on which a set of one's own says something it stands
 * before what is published; an error-level line that is published stays unless the set draws one itself.
 */
export function usualLines(
  measure: string,
  foot: string,
  { animal, reference }: Pick<Ground, 'animal' | 'reference'>,
): Lines {
  const band = bandFor(measure, foot, animal);
  const published = (band?.cuts ?? []).map(publishedLine);
  const lines = (['low', 'high'] as const).flatMap((side) => {
    const theirs = published.filter((line) => line.side === side);
    const own = linesOfSets(measure, foot, side, theirs, { animal, reference });
    if (own.length === 0) return theirs;
    const grave = own.some((line) => line.severity === 'error');
    return [...own, ...theirs.filter((line) => line.severity === 'error' && !grave)];
  });
  return { band, lines };
}

/** The lines on one side that the first set with any has. */
function linesOfSets(
  measure: string,
  foot: string,
  side: Line['side'],
  published: readonly Line[],
  { animal, reference }: Pick<Ground, 'animal' | 'reference'>,
): Line[] {
  for (const set of reference) {
    const lines = ownBandsFor(set, measure, foot, animal).flatMap((band) => {
      const at = band[side];
      return at === undefined ? [] : [lineOfSet(set, band, side, at, published)];
    });
    if (lines.length > 0) return lines;
  }
  return [];
}

function lineOfSet(set: OwnSet, band: OwnBand, side: Line['side'], at: number, published: readonly Line[]): Line {
  const counterpart = published.find((line) => line.severity === band.severity) ?? published.at(-1);
  const differs = counterpart !== undefined && counterpart.at !== at;
  return {
    side,
    at,
    severity: band.severity,
    says: band.says,
    own: null,
    set: set.name,
    source: ownSource(set),
    against: differs ? [{ at: counterpart.at, source: counterpart.source }] : [],
  };
}

/** Whether a limit allows more than what is usual. */
export function isLooser(limit: Limit, usual: Lines): boolean {
  const line = usualOf(usual)[limit.relation === '>=' ? 'low' : 'high'];
  if (line === null) return false;
  return limit.relation === '>=' ? limit.quantity.base < line : limit.quantity.base > line;
}

const counts = (limit: Limit, usual: Lines): boolean => limit.because !== null || !isLooser(limit, usual);

function publishedLine({ side, at, severity, says, source, strength, against = [] }: Cut): Line {
  return {
    side,
    at,
    severity,
    says,
    source: citation(source, strength),
    own: null,
    set: null,
    against: against.map((other) => ({ at: other.at, source: citation(other.source, other.strength) })),
  };
}

/** What stands against a line, as a sentence; empty where all agree. */
export function sayAgainst({ against, set }: Pick<Line, 'against' | 'set'>, unit: MeasureUnit): string {
  if (against.length === 0) return '';
  const others = list(against.map(({ at, source }) => `${sayLimit(at, unit)} (${source})`));
  return `${set === null ? 'Others' : 'Published'}: ${others}.`;
}

function ownLimits(
  measure: string,
  limits: readonly Placed<Limit>[],
): { low: Placed<Limit> | undefined; high: Placed<Limit> | undefined } {
  const mine = limits.filter(({ is }) => {
    const known = findMeasure(is.measure);
    return known?.name === measure && fits(known, is.quantity);
  });
  return {
    low: mine.findLast((limit) => limit.is.relation === '>='),
    high: mine.findLast((limit) => limit.is.relation === '<='),
  };
}

export function passes(value: number, line: Pick<Line, 'side' | 'at'>): boolean {
  return line.side === 'low' ? value < line.at : value > line.at;
}

const rank: Readonly<Record<Severity, number>> = { error: 3, warning: 2, info: 1, hint: 0 };

/** The gravest line that a value passes. */
export function passed<L extends Bound>(value: number, lines: readonly L[]): L | undefined {
  let gravest: L | undefined;
  for (const line of lines)
    if (passes(value, line) && !(gravest && rank[gravest.severity] >= rank[line.severity])) gravest = line;
  return gravest;
}

/** State of a value as a word; `unsure` where it passes a line by less than 1.96 standard deviations. */
export type State = 'within' | 'low' | 'high' | 'act' | 'unsure' | 'none';

export function stateOf(value: Pick<Value, 'value' | 'sd'>, lines: { readonly lines: readonly Bound[] }): State {
  if (lines.lines.length === 0) return 'none';
  const gravest = passed(value.value, lines.lines);
  if (!gravest) return 'within';
  if (gravest.severity === 'error') return 'act';
  // How clearly a value is out is judged by where the usual ends, not by the graver line beyond it.
  const usual = usualOf(lines)[gravest.side] ?? gravest.at;
  return Math.abs(value.value - usual) < 1.96 * value.sd ? 'unsure' : gravest.side;
}

/** The innermost line on each side. */
export function usualOf({ lines }: { readonly lines: readonly Bound[] }): { low: number | null; high: number | null } {
  const lows = lines.filter((line) => line.side === 'low').map((line) => line.at);
  const highs = lines.filter((line) => line.side === 'high').map((line) => line.at);
  return { low: lows.length > 0 ? Math.max(...lows) : null, high: highs.length > 0 ? Math.min(...highs) : null };
}
