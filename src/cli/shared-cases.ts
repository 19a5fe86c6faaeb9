import { counted, t } from '../../shared/language/words.ts';
import type { Inspection } from '../../shared/findings/inspect.ts';
import { BlockMemory, parse } from '../../shared/notation/parse.ts';
import { assemble } from '../../shared/record/assemble.ts';
import { gateOf } from '../../shared/series/gate.ts';
import { eachCase } from './case-files.ts';
import { Unusable, type Io } from './command.ts';

/**
 * Which cases an export of the same files would let out. All are looked at once before, as two cases with one code, of which neither
 * leaves, can be far apart; only codes are kept. What goes wrong with a file is said when it is read again.
 */
export async function casesThatLeave(
  names: readonly string[],
  io: Io,
): Promise<(inspection: Pick<Inspection, 'tree' | 'study'>) => boolean> {
  if (names.includes('-')) throw new Unusable(t('--shared reads files and folders, not standard input'));
  const codes = new Map<string, number>();
  await eachCase(names, { ...io, err: () => {} }, ({ text }) => {
    const tree = parse(text, new BlockMemory());
    const gate = gateOf(tree, assemble(tree).record);
    if ('code' in gate) codes.set(sameCode(gate.code), (codes.get(sameCode(gate.code)) ?? 0) + 1);
  });
  return ({ tree, study }) => {
    const gate = gateOf(tree, study.record);
    return 'code' in gate && codes.get(sameCode(gate.code)) === 1;
  };
}

/** As the export sees it: capital and small letters are one. */
const sameCode = (code: string): string => code.toLowerCase();

/** A lesson shows the films of its key again: with it a foot would count twice. */
export function sayLessons(lessons: number, io: Io): void {
  if (lessons > 0)
    io.err(
      counted(
        lessons,
        'one lesson is left out: its films are those of its key',
        '{0} lessons are left out: their films are those of their keys',
      ),
    );
}
