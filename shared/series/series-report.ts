import { counted, t } from '../language/words.ts';
import { spoken } from '../language/rows.ts';
import { program } from '../export/structured/uids.ts';
import type { SeriesPackage } from './data-package.ts';
import { stays, staysWords } from './gate.ts';
import { tableNames } from './tables.ts';
import { textKinds, type TextKind } from './texts.ts';

/** What went with a series and what did not, as a page of Markdown. It stands in the package, so it names no case file. */

export const textKindWords: Readonly<Record<TextKind, string>> = spoken({
  name: 'names of animals',
  person: 'names of farriers, vets and who made a visit',
  reader: 'names of readers',
  number: 'chip and life numbers',
  picture: 'paths of pictures',
  date: 'dates',
  text: 'texts',
  remark: 'remarks behind #',
  line: 'lines that are not understood',
});

const datesWords = spoken({
  'days since the first visit': 'Dates left as days since the first visit of the case.',
  shifted: 'Dates left moved: all of a case by the same number of days, which is kept nowhere.',
  'as written': 'Dates left as they are written.',
});

/** What was left out of one case. */
export interface RemovedOfCase {
  readonly case: string;
  readonly removed: Readonly<Partial<Record<TextKind, number>>>;
}

/** Of more cases nobody reads a list; the table has them. */
export const mostListed = 200;

/** @param byCase what was left out of each case; null where there are too many to list */
export function seriesReport(
  { options, shards, counts }: Omit<SeriesPackage, 'parts'>,
  byCase: readonly RemovedOfCase[] | null,
): string {
  const { files, cases, notRead } = counts;
  const kinds = textKinds.filter((kind) => counts.removed[kind]);
  const lines = [
    `# ${t('What left, and what did not')}`,
    '',
    t('Written by {0} {1}.', program.name, program.version),
    counted(cases, 'One case left, of {1} case files.', '{0} cases left, of {1} case files.', files),
    ...(shards === null ? [] : [counted(shards, 'The tables are in one part.', 'The tables are in {0} parts.')]),
    '',
    ...(options.asked.length === 0
      ? [t('Nothing was asked for beyond the numbers.')]
      : [t('Asked for beyond the numbers: {0}.', options.asked.join(', '))]),
    datesWords[options.dates],
    t('Pictures never leave.'),
    '',
    `## ${t('Tables')}`,
    '',
    ...table(
      [t('table'), t('rows')],
      tableNames.flatMap((name) => (name in counts.rows ? [[name, String(counts.rows[name])]] : [])),
    ),
    '',
    `## ${t('Left out of the cases that left')}`,
    '',
    ...(kinds.length === 0
      ? [t('Nothing.')]
      : table(
          [t('what'), t('how many'), t('in how many cases')],
          kinds.map((kind) => [
            textKindWords[kind],
            String(counts.removed[kind]?.count),
            String(counts.removed[kind]?.cases),
          ]),
        )),
    '',
    ...(byCase
      ? table(
          [t('case'), ...kinds.map((kind) => textKindWords[kind])],
          byCase.map(({ case: code, removed }) => [code, ...kinds.map((kind) => String(removed[kind] ?? 0))]),
        )
      : [t('By case it stands in the table `removed`.')]),
    '',
    `## ${t('Cases that did not leave')}`,
    '',
    ...(notRead === 0 && Object.keys(counts.stayed).length === 0
      ? [t('None.')]
      : table(
          [t('why'), t('how many')],
          [
            ...stays.flatMap((why) => (counts.stayed[why] ? [[staysWords[why], String(counts.stayed[why])]] : [])),
            ...(notRead > 0 ? [[t('the file cannot be read'), String(notRead)]] : []),
          ],
        )),
    '',
    t('Decision support only: diagnosis, radiographs and pain belong to the vet.'),
    '',
  ];
  return lines.join('\n');
}

const table = (head: readonly string[], rows: readonly (readonly string[])[]): string[] =>
  [head, head.map(() => '---'), ...rows].map((cells) => `| ${cells.join(' | ')} |`);
