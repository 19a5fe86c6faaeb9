import { findMeasure } from '../measures/registry.ts';
import type { Value } from '../measures/take.ts';
import { bandFor, usualRange, type Band, type Cut, type Severity } from '../reference/bands.ts';
import { citation } from '../reference/sources.ts';
import type { Limit, Placed } from '../record/schema.ts';
import type { Study } from '../trim/study.ts';
import { fits } from './fitting-units.ts';

/** A line that a value should not pass: published, or agreed for this case. */
export interface Line {
  readonly side: 'low' | 'high';
  readonly at: number;
  readonly severity: Severity;
  readonly says: string | undefined;
  readonly source: string;
  /** The case's own limit that this is, if it is one. */
  readonly own: Placed<Limit> | null;
}

export interface Lines {
  readonly band: Band | undefined;
  readonly lines: readonly Line[];
}

/**
 * Every line for a measure on a foot of this case. A limit of the case stands in place of the published ones on its side;
 * one that allows more than they do counts only with a reason.
 */
export function linesFor(measure: string, foot: string, study: Pick<Study, 'record' | 'animal'>): Lines {
  const band = bandFor(measure, foot, study.animal);
  const own = ownLimits(measure, study.record.limits);
  const published = (band?.cuts ?? []).map(publishedLine);
  const lines: Line[] = [];
  for (const side of ['low', 'high'] as const) {
    const agreed = own[side];
    const theirs = published.filter((line) => line.side === side);
    if (!agreed || !counts(agreed.is, band)) {
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
      source: `limit of this case${agreed.is.because ? `: ${agreed.is.because}` : ''}`,
    };
    // An error-level line stays where the case is merely stricter than the warning before it.
    lines.push(line, ...theirs.filter((published) => published.severity === 'error' && passes(published.at, line)));
  }
  return { band, lines };
}

/** Whether a limit allows more than what is published as usual. */
export function isLooser(limit: Limit, band: Band | undefined): boolean {
  const usual = band && usualRange(band)[limit.relation === '>=' ? 'low' : 'high'];
  if (usual === null || usual === undefined) return false;
  return limit.relation === '>=' ? limit.quantity.base < usual : limit.quantity.base > usual;
}

const counts = (limit: Limit, band: Band | undefined): boolean => limit.because !== null || !isLooser(limit, band);

function publishedLine({ side, at, severity, says, source, strength }: Cut): Line {
  return { side, at, severity, says, source: citation(source, strength), own: null };
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
export function passed(value: number, lines: readonly Line[]): Line | undefined {
  return lines.filter((line) => passes(value, line)).sort((a, b) => rank[b.severity] - rank[a.severity])[0];
}

/** State of a value as a word; `unsure` where it passes a line by less than 1.96 standard deviations. */
export type State = 'within' | 'low' | 'high' | 'act' | 'unsure' | 'none';

export function stateOf(value: Value, lines: Lines): State {
  if (lines.lines.length === 0) return 'none';
  const gravest = passed(value.value, lines.lines);
  if (!gravest) return 'within';
  if (gravest.severity === 'error') return 'act';
  // How clearly a value is out is judged by where the usual ends, not by the graver line beyond it.
  const usual = usualOf(lines)[gravest.side] ?? gravest.at;
  return Math.abs(value.value - usual) < 1.96 * value.sd ? 'unsure' : gravest.side;
}

/** The innermost line on each side. */
export function usualOf({ lines }: Lines): { low: number | null; high: number | null } {
  const lows = lines.filter((line) => line.side === 'low').map((line) => line.at);
  const highs = lines.filter((line) => line.side === 'high').map((line) => line.at);
  return { low: lows.length > 0 ? Math.max(...lows) : null, high: highs.length > 0 ? Math.min(...highs) : null };
}
