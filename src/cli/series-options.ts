import { t } from '../../shared/language/words.ts';
import { courseSources, type CourseSource } from '../../shared/course/course-sources.ts';
import { reportedMeasures, type ReportedMeasure } from '../../shared/series/reported-measures.ts';
import { oneOf, Unusable, type Command, type OptionValue } from './command.ts';

/** What of a series is told: which measures, from which source, of which cases. */
export interface AskedOfSeries {
  readonly measures: readonly ReportedMeasure[];
  readonly source: CourseSource;
  /** Only cases that leave in an export. */
  readonly shared: boolean;
}

export const seriesOptions = {
  measure: { type: 'string', multiple: true },
  all: { type: 'boolean' },
  source: { type: 'string' },
  shared: { type: 'boolean' },
} as const satisfies Command['options'];

export const seriesUsage = '[--measure NAME]… [--all] [--source film|photo|hand] [--shared]';

export function askedOfSeries(options: Readonly<Record<string, OptionValue>>): AskedOfSeries {
  const source = oneOf('source', options['source'], courseSources);
  const named = Array.isArray(options['measure']) ? (options['measure'] as readonly string[]) : [];
  const all = options['all'] === true;
  if (all && named.length > 0) throw new Unusable(t('--measure and --all exclude each other'));
  const { measures, problem } = reportedMeasures(named, all, source);
  if (!measures) throw new Unusable(`--measure: ${problem}`);
  return { measures, source, shared: options['shared'] === true };
}
