import { t } from '../language/words.ts';
import { isGroup, isStatement, type Entry, type Statement } from '../notation/tree.ts';
import { numberOf, quantityOf, spanOf } from './arguments.ts';
import type { RecordProblem } from './problems.ts';
import { refused } from './refused.ts';

/** `entries` as they are, and those of the groups among them, where nothing is said twice. */
export function saidOnce(entries: readonly Entry[], problems: RecordProblem[]): readonly Entry[] {
  const once = sayOnce(entries, problems);
  let changed: Entry[] | null = null;
  for (const [index, entry] of once.entries()) {
    if (!isGroup(entry)) continue;
    const within = sayOnce(entry.entries, problems);
    if (within === entry.entries) continue;
    changed ??= [...once];
    changed[index] = { ...entry, entries: within };
  }
  return changed ?? once;
}

/**
 * The entries of a group without those that say again what may be said once: the first counts (of grades the
 * graver), the others are reported. `toe down` and `toe back` are two things to say.
 */
function sayOnce(entries: readonly Entry[], problems: RecordProblem[]): readonly Entry[] {
  // There are only so many words, so that the list stays short.
  const said: Statement[] = [];
  let again: Set<Entry> | null = null;
  for (const entry of entries) {
    if (!isStatement(entry) || !isSaidOnce(entry) || !entry.whole || refused(entry)) continue;
    const earlier = said.find((one) => isSameWord(one, entry) && directionOf(one) === directionOf(entry));
    if (!earlier) {
      said.push(entry);
      continue;
    }
    again ??= new Set();
    const isGraver = graver.has(entry.word) && gradeOf(entry) > gradeOf(earlier);
    again.add(isGraver ? earlier : entry);
    if (isGraver) said[said.indexOf(earlier)] = entry;
    problems.push({
      code: 'record/duplicate-word',
      at: spanOf(entry.head),
      message: graver.has(entry.word)
        ? t('«{0}» is said twice here; the higher counts. Keep one of the two lines.', entry.word)
        : t(
            '«{0}{1}» is said twice here; the first counts. Keep one of the two lines.',
            entry.word,
            directionOf(entry),
          ),
      // No press may remove the graver of two.
      fixes: isGraver
        ? []
        : [{ title: t('Remove this line'), edits: [{ ...spanOf(entry), text: '', wholeLine: true }] }],
      related: [{ at: spanOf(earlier), message: t('Said here first.') }],
    });
  }
  return again ? entries.filter((entry) => !again.has(entry)) : entries;
}

/** A hand takes each measure of a tape once. */
const isSaidOnce = ({ kind, row }: Statement): boolean =>
  kind === 'taped' || (kind === 'statement' && row !== null && !row.repeats);

const isSameWord = (one: Statement, other: Statement): boolean =>
  one.kind === other.kind && (one.kind === 'taped' ? one.word === other.word : one.row === other.row);

/** How lame an animal is: of two grades the graver counts, so that no second line silences a call to the vet. */
const graver: ReadonlySet<string> = new Set(['obel', 'meier']);

const gradeOf = (statement: Statement): number =>
  numberOf(statement, 'grade')?.value ?? numberOf(statement, 'score')?.value ?? 0;

function directionOf(statement: Statement): string {
  const { word, args } = statement;
  if (word === 'toe') return args.has('back') ? ' back' : ' down';
  if (word === 'heel') return args.has('up') ? ' up' : ' down';
  // The same value of the blood before and after something was given.
  if (args.has('fasting')) return ' fasting';
  const delay = args.has('after') ? quantityOf(statement, 'delay', 'delay') : null;
  return delay ? ` ${delay.value} minutes after` : '';
}
