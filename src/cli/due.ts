import { counted, t } from '../../shared/language/words.ts';
import { alarmLines, alarmsJson } from '../../shared/export/alarms.ts';
import type { DueJson } from '../../shared/export/json-shapes.ts';
import { shownJson, shownLines } from '../../shared/export/shown-characters.ts';
import { sayDay } from '../../shared/findings/wording/say-day.ts';
import { dateOfDay, dayNumber } from '../../shared/notation/dates.ts';
import { dueOn, isDue, urgency, type CaseDue } from '../../shared/views/due.ts';
import { eachCase } from './case-files.ts';
import { oneOf, Unusable, type Command, type OptionValue } from './command.ts';
import { inspected } from './inspected.ts';
import { rootFrom, rootOption } from './picture-files.ts';
import { referenceOption, settingsWith } from './reference-files.ts';

export const due: Command = {
  name: 'due',
  usage: 'ungula due FILE… [--on 2026-03-04] [--format table|json] [--reference FILE]… [--root DIR]',
  doc: 'What waits today, or on a day: open alarms, next visits that are overdue or due within a week, plans that no trim has followed, and old films of lame feet. Cases with an alarm first.',
  options: {
    on: { type: 'string' },
    format: { type: 'string' },
    reference: referenceOption,
    root: rootOption,
  },
  async run(names, options, io) {
    const format = oneOf('format', options['format'], ['table', 'json']);
    const today = dayFrom(options['on']);
    const settings = await settingsWith(options['reference']);
    const root = await rootFrom(options['root']);
    let looked = 0;
    const waiting: Waiting[] = [];
    const problems = await eachCase(names, io, async (file) => {
      const inspection = await inspected(file, settings, root);
      looked++;
      const found = dueOn(today, inspection);
      if (isDue(found)) waiting.push({ file: file.name, found, alarms: alarmsJson(inspection) });
    });
    waiting.sort((a, b) => urgency(b.found) - urgency(a.found));
    io.out(format === 'json' ? shownJson(document(today, waiting)) : table(today, looked, waiting));
    return problems.length > 0 ? 2 : 0;
  },
  emptyJson: () => document(dayFrom(undefined), []),
};

interface Waiting {
  readonly file: string;
  readonly found: CaseDue;
  readonly alarms: DueJson['cases'][number]['alarms'];
}

/** A day of the calendar as it is here. */
function dayFrom(written: OptionValue): number {
  if (written === undefined) {
    const now = new Date();
    return Date.UTC(now.getFullYear(), now.getMonth(), now.getDate()) / 86_400_000;
  }
  const day = typeof written === 'string' && /^\d{4}-\d{2}-\d{2}$/.test(written) ? dayNumber(written) : null;
  if (day === null) throw new Unusable(t('--on takes a day such as 2026-03-04; not {0}', String(written)));
  return day;
}

const document = (today: number, waiting: readonly Waiting[]): DueJson => ({
  ungula: 1,
  on: dateOfDay(today),
  cases: waiting.map(({ file, found, alarms }) => ({
    file,
    name: found.name,
    alarms,
    items: found.items.map((item) => ({ ...item, line: item.line + 1 })),
  })),
});

function table(today: number, looked: number, waiting: readonly Waiting[]): string {
  const lines = waiting.flatMap(({ file, found: { name, alarms, items } }) => [
    `${file}: ${name ?? t('unnamed case')}`,
    ...alarmLines(file, alarms).map((line) => `  ${line}`),
    ...items.map(({ line, says }) => `  ${file}:${line + 1}: ${says}`),
    '',
  ]);
  const of = counted(looked, 'of 1 case', 'of {0} cases');
  return shownLines([
    ...lines,
    waiting.length === 0
      ? t('On {0} nothing waits ({1} looked at).', sayDay(today), counted(looked, '1 case', '{0} cases'))
      : t('On {0} something waits in {1} {2}.', sayDay(today), waiting.length, of),
  ]);
}
