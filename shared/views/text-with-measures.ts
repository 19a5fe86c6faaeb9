import { t } from '../language/words.ts';
import { say } from '../findings/wording/wording.ts';
import { LineMap } from '../notation/line-map.ts';
import type { Inspection } from '../findings/inspect.ts';
import type { Values } from '../measures/take.ts';

/** What stands before a line that is no part of the file. */
const MARK = '=';

/**
 * The lines of a case, and under each film what it measures and under each cut what it is predicted to leave, so that a diff of
 * two versions shows both side by side. Rounded as in the tables, without standard deviations: what does not show there is no
 * difference. Not to be read back.
 */
export function textWithMeasures({ study, tree }: Pick<Inspection, 'study' | 'tree'>): string[] {
  const map = new LineMap(tree.text);
  const after = new Map<number, string[]>();
  const add = (end: number, lines: readonly string[]): void => {
    const line = map.at(end).line;
    after.set(line, [...(after.get(line) ?? []), ...lines]);
  };
  for (const { visit, film, readings } of study.films)
    for (const { reading, taking } of readings)
      add(
        visit.start + film.at.end,
        measured(taking.values, reading.reader === null ? '' : t('{0}: ', reading.reader)),
      );
  for (const { visit, cut, prediction } of study.cuts)
    if (prediction) add(visit.start + cut.at.end, measured(prediction.values, t('would leave: ')));
  return tree.text
    .replace(/^\uFEFF/, '')
    .split(/\r\n|\r|\n/)
    .flatMap((line, number) => [line, ...(after.get(number) ?? [])]);
}

const measured = (values: Values, by: string): string[] =>
  [...values.values()].map(({ measure, value, unit }) => `    ${MARK} ${by}${measure.words} ${say(value, unit)}`);
