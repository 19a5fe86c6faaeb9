import { t } from '../../shared/language/words.ts';
import { readFile, stat } from 'node:fs/promises';
import { mergedVersions } from '../../shared/edits/merged-versions.ts';
import { largestFile, tooMuchIn } from '../../shared/findings/engine/file-problems.ts';
import { Unusable, type Command } from './command.ts';
import { numberOption } from './number-option.ts';
import { CommandProblem } from './problem.ts';
import { saveFile } from './save-file.ts';

/** For git, which gives the three versions of a file as copies and takes the result from the second one. */
export const merge: Command = {
  name: 'merge',
  usage: 'ungula merge BASE OURS THEIRS [--mark 7]',
  doc: 'Puts two versions of a case together, for git merge (docs/git.md): by what the lines are about, into OURS. Where both have changed one thing, both stand there between marks, and the status is 1.',
  options: { mark: { type: 'string' } },
  async run(names, options, io) {
    const [base, ours, theirs, ...more] = names;
    if (base === undefined || ours === undefined || theirs === undefined || more.length > 0)
      throw new Unusable(t('merge takes three files: {0}', merge.usage));
    const mark = Math.round(numberOption('mark', options['mark']) ?? 7);
    const [was, own, other] = [await versionOf(base), await versionOf(ours), await versionOf(theirs)];
    const { text, conflicts } = mergedVersions({ base: was, ours: own, theirs: other }, mark);
    if (text !== own) await saveFile(ours, text, own);
    if (conflicts > 0) io.err(t('{0}: both have changed {1} of its places otherwise', ours, conflicts));
    return conflicts > 0 ? 1 : 0;
  },
};

/** @throws CommandProblem where it is no case; git then keeps ours, and says that the two conflict. */
async function versionOf(name: string): Promise<string> {
  const { size } = await stat(name);
  const text = size > largestFile ? null : decoded(await readFile(name));
  if (text === null || tooMuchIn(text)) throw new CommandProblem(t('{0} is no case that can be read', name));
  return text;
}

function decoded(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return null;
  }
}
