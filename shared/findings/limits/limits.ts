import { t } from '../../language/words.ts';
import { once } from '../../notation/once.ts';
import type { RangeState } from './range-state.ts';
import type { MeasureName } from '../../measures/names.ts';
import type { MeasureUnit } from '../../measures/unit.ts';
import type { Value } from '../../measures/take.ts';
import { SURELY } from '../../course/change.ts';
import { bandFor, isHeavy, type JudgedAnimal, type Band, type Threshold } from '../../reference/bands.ts';
import type { Severity } from '../../reference/severity.ts';
import { ownBandsFor, ownSource, type OwnBand, type OwnSet } from '../../reference/own-set.ts';
import { citation, namedShort } from '../../reference/sources.ts';
import type { Limit, Placed } from '../../record/schema.ts';
import { animalOn, type CaseAnimal } from '../../trim/case-animal.ts';
import { limitsByMeasure } from './limits-by-measure.ts';
import type { RuleContext } from '../rule.ts';
import { list, sayLimit } from '../wording/wording.ts';

/** Where a value is out, and how grave that is. */
export interface LineOnSide {
  readonly side: 'low' | 'high';
  readonly at: number;
  readonly severity: Severity;
}

/** A line that a value should not pass: published, of a set of one's own, or agreed for this case. */
export interface LimitLine extends LineOnSide {
  readonly says: string | undefined;
  readonly source: string;
  /** The source as it is named in passing; empty where a sentence does without. */
  readonly named: string;
  /** The case's own limit that this is, if it is one. */
  readonly own: Placed<Limit> | null;
  /** The set of reference values that draws it, by name; null for every other line. */
  readonly set: string | null;
  /** Of a published line, who published it, and how strong that is. */
  readonly published?: Pick<Threshold, 'source' | 'strength'>;
  /** A published line that was shrunk with the animal's height. */
  readonly scaled?: true;
  /** Where others put this line: other sources, or for a line of a set what is published. */
  readonly against: readonly OtherLine[];
}

export interface Lines {
  readonly band: Band | undefined;
  readonly lines: readonly LimitLine[];
}

interface OtherLine {
  readonly at: number;
  readonly source: string;
  readonly named: string;
  /** The whole sentence in a message, where there is one; else it is made of the figure and who gives it. */
  readonly says: string | undefined;
}

/** What lines are drawn from. Rules of a visit do not see the animal's weights: no line that they ask for rests on them. */
export type LineGround = Pick<RuleContext, 'record' | 'reference'> & {
  readonly animal: Omit<CaseAnimal, 'weights'> & Partial<CaseAnimal>;
};

/**
 * Every line for a measure on a foot of this case. A limit of the case stands in place of the other ones on its side;
 * one that allows more than they do counts only with a reason. `day`: that of the film, null for a grown animal of today.
 */
export function linesFor(measure: MeasureName, foot: string, study: LineGround, day: number | null = null): Lines {
  const byKind = linesByKind(study);
  const animal = animalOn(study.animal, day);
  const kind = kindOf(foot, animal);
  let byMeasure = byKind.get(kind);
  if (!byMeasure) byKind.set(kind, (byMeasure = new Map<MeasureName, Lines>()));
  let lines = byMeasure.get(measure);
  if (!lines) byMeasure.set(measure, (lines = draw(measure, foot, { ...study, animal })));
  return lines;
}

/** Feet with one such name have the same lines in one case: what a foot and an animal on a day add to them. */
export function kindOf(foot: string, animal: JudgedAnimal): string {
  return `${foot}${animal.young ? ' young' : ''}${isHeavy(animal) ? ' heavy' : ''}`;
}

const linesByKind = once<LineGround, Map<string, Map<MeasureName, Lines>>>(() => new Map());

interface DrawnFor extends Pick<LineGround, 'record' | 'reference'> {
  readonly animal: JudgedAnimal;
}

/** Held against the low lines of another measure: a wedge makes no room that the bare foot does not have. */
const lowAs: Readonly<Partial<Record<MeasureName, MeasureName>>> = { 'palmar-angle.bearing': 'palmar-angle' };

function lowLinesFor(measure: MeasureName, foot: string, study: DrawnFor): Lines {
  const { band, lines } = draw(measure, foot, study);
  return { band, lines: lines.filter(({ side }) => side === 'low') };
}

function draw(measure: MeasureName, foot: string, study: DrawnFor): Lines {
  const other = lowAs[measure];
  const usual = other ? lowLinesFor(other, foot, study) : usualLines(measure, foot, study);
  const own = limitsByMeasure(study.record.limits).get(measure);
  const lines: LimitLine[] = [];
  for (const side of ['low', 'high'] as const) {
    const agreed = own?.[side];
    const theirs = usual.lines.filter((line) => line.side === side);
    if (!agreed || !counts(agreed.is, usual)) {
      lines.push(...theirs);
      continue;
    }
    const at = agreed.is.quantity.base;
    const source = t('limit of this case{0}', agreed.is.because ? `: ${agreed.is.because}` : '');
    const line: LimitLine = {
      side,
      at,
      severity: 'warning',
      says: undefined,
      own: agreed,
      set: null,
      against: [],
      source,
      named: source,
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
  measure: MeasureName,
  foot: string,
  { animal, reference }: Pick<DrawnFor, 'animal' | 'reference'>,
): Lines {
  const band = bandFor(measure, foot, animal);
  const published = (band?.thresholds ?? []).map(publishedLine);
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
  measure: MeasureName,
  foot: string,
  side: LimitLine['side'],
  published: readonly LimitLine[],
  { animal, reference }: Pick<DrawnFor, 'animal' | 'reference'>,
): LimitLine[] {
  for (const set of reference) {
    const lines = ownBandsFor(set, measure, foot, animal).flatMap((band) => {
      const at = band[side];
      return at === undefined ? [] : [lineOfSet(set, band, side, at, published)];
    });
    if (lines.length > 0) return lines;
  }
  return [];
}

function lineOfSet(
  set: OwnSet,
  band: OwnBand,
  side: LimitLine['side'],
  at: number,
  published: readonly LimitLine[],
): LimitLine {
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
    named: ownSource(set),
    against: differs
      ? [{ at: counterpart.at, source: counterpart.source, named: counterpart.named, says: undefined }]
      : [],
    ...(differs && counterpart.scaled && { scaled: true }),
  };
}

/** Whether a limit allows more than what is usual. */
export function isLooser(limit: Limit, usual: Lines): boolean {
  const line = usualOf(usual)[limit.relation === '>=' ? 'low' : 'high'];
  if (line === null) return false;
  return limit.relation === '>=' ? limit.quantity.base < line : limit.quantity.base > line;
}

const counts = (limit: Limit, usual: Lines): boolean => limit.because !== null || !isLooser(limit, usual);

function publishedLine({ side, at, severity, says, source, strength, scaled, against = [] }: Threshold): LimitLine {
  return {
    side,
    at,
    severity,
    says,
    source: citation(source, strength),
    named: namedShort(source, strength),
    published: { source, strength },
    own: null,
    set: null,
    against: against.map((other) => ({
      at: other.at,
      source: citation(other.source, other.strength),
      named: namedShort(other.source, other.strength),
      says: other.says,
    })),
    ...(scaled && { scaled }),
  };
}

/** What stands against a line, as a sentence with its sources; empty where all agree. */
export function sayAgainst({ against, set }: Pick<LimitLine, 'against' | 'set'>, unit: MeasureUnit): string {
  if (against.length === 0) return '';
  const others = list(against.map(({ at, source }) => `${sayLimit(at, unit)} (${source})`));
  return `${set === null ? t('Others') : t('Published')}: ${others}.`;
}

/** The same in passing, for a message. */
export function sayAgainstShort({ against, set }: Pick<LimitLine, 'against' | 'set'>, unit: MeasureUnit): string {
  const told = against.flatMap(({ says }) => says ?? []);
  const others = against
    .filter(({ says }) => says === undefined)
    .map(({ at, named }) => `${sayLimit(at, unit)}${named === '' ? '' : ` (${named})`}`);
  const made = others.length === 0 ? [] : [`${set === null ? t('Others') : t('Published')}: ${list(others)}.`];
  return [...told, ...made].filter((part) => part !== '').join(' ');
}

export function passes(value: number, line: Pick<LimitLine, 'side' | 'at'>): boolean {
  return line.side === 'low' ? value < line.at : value > line.at;
}

const rank: Readonly<Record<Severity, number>> = { error: 3, warning: 2, info: 1, hint: 0 };

/** The gravest line that a value passes. */
export function passed<L extends LineOnSide>(value: number, lines: readonly L[]): L | undefined {
  let gravest: L | undefined;
  for (const line of lines)
    if (passes(value, line) && !(gravest && rank[gravest.severity] >= rank[line.severity])) gravest = line;
  return gravest;
}

/** Whether a value lies clearly on its side of a line: by 1.96 of its standard deviation. Else it is within the error. */
export function isClear({ value, sd }: Pick<Value, 'value' | 'sd'>, at: number): boolean {
  return Math.abs(value - at) > SURELY * sd;
}

const lower: Readonly<Record<Severity, Severity>> = { error: 'warning', warning: 'info', info: 'hint', hint: 'hint' };

/** One level less grave. */
export const oneLower = (severity: Severity): Severity => lower[severity];

/** Whether one severity is graver than another. */
export const isGraver = (one: Severity, other: Severity): boolean => rank[one] > rank[other];

/** A line that a value passes, and how grave that is: one level lower where the value lies beyond it within the error. */
export interface Passed {
  readonly line: LimitLine;
  readonly severity: Severity;
  readonly clear: boolean;
}

/** Of the lines that a value passes the one that is told: the gravest, of two alike the one that is passed clearly. */
export function told(value: Pick<Value, 'value' | 'sd'>, lines: readonly LimitLine[]): Passed | undefined {
  let best: Passed | undefined;
  for (const line of lines) {
    if (!passes(value.value, line)) continue;
    const clear = isClear(value, line.at);
    const severity = clear ? line.severity : oneLower(line.severity);
    if (!best || isGraver(severity, best.severity) || (severity === best.severity && clear && !best.clear))
      best = { line, severity, clear };
  }
  return best;
}

export function stateOf(
  value: Pick<Value, 'value' | 'sd'>,
  lines: { readonly lines: readonly LineOnSide[] },
): RangeState {
  if (lines.lines.length === 0) return 'none';
  const gravest = passed(value.value, lines.lines);
  if (!gravest) return 'within';
  if (gravest.severity === 'error') return 'act';
  // How clearly a value is out is judged by where the usual ends, not by the graver line beyond it.
  const usual = usualOf(lines)[gravest.side] ?? gravest.at;
  return isClear(value, usual) ? gravest.side : 'unsure';
}

/** The innermost line on each side. */
export function usualOf({ lines }: { readonly lines: readonly LineOnSide[] }): {
  low: number | null;
  high: number | null;
} {
  const lows = lines.filter((line) => line.side === 'low').map((line) => line.at);
  const highs = lines.filter((line) => line.side === 'high').map((line) => line.at);
  return { low: lows.length > 0 ? Math.max(...lows) : null, high: highs.length > 0 ? Math.min(...highs) : null };
}
