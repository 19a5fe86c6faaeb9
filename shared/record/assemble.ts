import { shownDate } from '../language/dates.ts';
import { t } from '../language/words.ts';
import { dayNumber } from '../notation/dates.ts';
import type { NotationCode, Problem } from '../notation/problems.ts';
import { shift } from '../notation/shift.ts';
import type { Span, Tree } from '../notation/tree.ts';
import { withBegun } from './begun-lessons.ts';
import { bindBlock, type BlockRecord } from './bind.ts';
import type { RecordCode } from './problems.ts';
import type { Animal, CaseRecord, Placed, Visit } from './schema.ts';

/** The version of the notation that this build reads. */
export const notationVersion = 1;

export interface Assembled {
  readonly record: CaseRecord;
  /** Of the notation and of the record, offsets counted in the file. */
  readonly problems: readonly Problem<NotationCode | RecordCode>[];
}

interface BoundBlock {
  readonly start: number;
  readonly part: BlockRecord;
}

/** The blocks of a file put together into one case, with the rules that look across blocks. */
export function assemble(tree: Tree): Assembled {
  const problems: Problem<NotationCode | RecordCode>[] = [];
  const record: CaseRecord = {
    version: null,
    animal: null,
    limits: [],
    visits: [],
    outside: [],
    unreadOutsideAt: null,
  };
  const versions: BoundBlock[] = [];
  const animals: Placed<Animal>[] = [];
  let lead: BlockRecord | null = null;
  for (const { start, line, block } of tree.blocks) {
    const part = bindBlock(block);
    if (!part.empty) lead ??= part;
    if (part.word === 'hoof') versions.push({ start, part });
    for (const problem of part.problems) problems.push(shift(problem, start));
    if (part.animal) animals.push({ start, line, is: part.animal });
    for (const limit of part.limits) record.limits.push({ start, line, is: limit });
    if (part.visit) record.visits.push({ start, line, is: part.visit });
    if (part.unread) record.unreadOutsideAt ??= moved(part.unread, start);
    if (part.outside) record.outside.push({ start, line, is: part.outside });
  }
  // A word misread as a second case names no animal, wherever it stands.
  const [first = null] = animals;
  record.animal = animals.find(({ is }) => is.name !== null) ?? first;
  for (const other of animals)
    if (record.animal && other !== record.animal)
      problems.push(duplicateCase(other.start, other.is.head, record.animal));
  record.visits = withBegun(record.visits, record.animal?.is.key ?? null);
  record.version = checkVersion(tree, versions, lead, problems);
  checkOrder(record.visits, problems);
  return { record, problems };
}

const moved = (at: Span, start: number): Span => ({ start: at.start + start, end: at.end + start });

/** Where a first line goes: behind a byte order mark, which stays the first sign of a file. */
function top({ text }: Tree): Span {
  const at = text.startsWith('\ufeff') ? 1 : 0;
  return { start: at, end: at };
}

function duplicateCase(start: number, head: Span, first: Placed<Animal>): Problem<RecordCode> {
  return {
    code: 'record/duplicate-case',
    at: moved(head, start),
    message: t('A file holds one case, and this is a second. Move it into a file of its own.'),
    fixes: [],
    related: [{ at: moved(first.is.head, first.start), message: t('The case of this file.') }],
  };
}

function checkVersion(
  tree: Tree,
  [first, ...others]: readonly BoundBlock[],
  lead: BlockRecord | null,
  problems: Problem<NotationCode | RecordCode>[],
): number | null {
  if (tree.text.trim() === '') {
    problems.push({
      code: 'notation/empty',
      at: { start: 0, end: 0 },
      message: t('Nothing is written yet. A case begins with the line «hoof {0}».', notationVersion),
      fixes: [],
    });
    return null;
  }
  if (!first || lead !== first.part) {
    const at = firstWord(tree);
    problems.push({
      code: 'notation/version-missing',
      at,
      message: t(
        'A case file begins with the line «hoof {0}», which says in which version of the notation it is written.',
        notationVersion,
      ),
      fixes: first
        ? []
        : [
            {
              title: t('Write hoof {0} at the top', notationVersion),
              edits: [{ ...top(tree), text: `hoof ${notationVersion}\n\n` }],
            },
          ],
    });
  }
  for (const other of others)
    problems.push({
      code: 'record/duplicate-word',
      at: moved(other.part.header as Span, other.start),
      message: t('«hoof» stands once, on the first line.'),
      fixes: [
        {
          title: t('Remove this line'),
          edits: [{ ...moved(other.part.header as Span, other.start), text: '', wholeLine: true }],
        },
      ],
    });
  if (!first) return null;
  const { version } = first.part;
  if (version !== null && version !== notationVersion) {
    const newer = version > notationVersion;
    problems.push({
      code: 'notation/version-newer',
      at: moved(first.part.header as Span, first.start),
      message: newer
        ? t(
            'This file is written in version {0} of the notation; this build reads version {1}. Update Ungula to read it rightly.',
            version,
            notationVersion,
          )
        : t('There is no version {0} of the notation. Write: hoof {1}', version, notationVersion),
      fixes: newer
        ? []
        : [
            {
              title: t('Write hoof {0}', notationVersion),
              edits: [{ ...moved(first.part.header as Span, first.start), text: `hoof ${notationVersion}` }],
            },
          ],
    });
  }
  return version;
}

/** The first thing written in the file, or its first character where nothing is. */
function firstWord(tree: Tree): Span {
  for (const { start, block } of tree.blocks)
    for (const line of block.lines) {
      const first = line.items[0] ?? line.prose;
      if (first) return moved({ start: first.start, end: first.end }, start);
    }
  return { start: 0, end: Math.min(1, tree.text.length) };
}

function checkOrder(visits: readonly Placed<Visit>[], problems: Problem<NotationCode | RecordCode>[]): void {
  let latest: { readonly visit: Placed<Visit>; readonly day: number } | null = null;
  for (const visit of visits) {
    const day = visit.is.date ? dayNumber(visit.is.date) : null;
    if (day === null) continue;
    if (!latest || day >= latest.day) {
      latest = { visit, day };
      continue;
    }
    const { is, start } = latest.visit;
    problems.push({
      code: 'record/dates-backwards',
      at: moved(visit.is.dateAt, visit.start),
      message: t(
        'This visit of {0} stands after the one of {1}. Visits stand in the order of their dates: check the year, or move it up.',
        shownDate(visit.is.date ?? ''),
        shownDate(is.date ?? ''),
      ),
      fixes: [],
      related: [{ at: moved(is.dateAt, start), message: t('The later visit that stands before it.') }],
    });
  }
}
