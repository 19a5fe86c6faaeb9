import { t } from '../../shared/language/words.ts';
import { spoken, spokenRows } from '../../shared/language/rows.ts';
import { debuglog } from 'node:util';

/** Something outside the program stands in the way. The message is what is told after the file's name. */
export class CommandProblem extends Error {}

type Doing = 'read' | 'write';

/** Why the system refused, in words; the codes are those of errno(3). */
const refusals: Readonly<Record<string, string | Readonly<Record<Doing, string>>>> = {
  ENOENT: 'no such file or folder',
  EACCES: spoken({ read: 'may not be read', write: 'may not be written' }),
  EPERM: spoken({ read: 'may not be read', write: 'may not be written' }),
  EISDIR: 'is a folder',
  ENOTDIR: 'a part of this path is not a folder',
  EEXIST: 'a file stands where its folder would be',
  ENAMETOOLONG: 'the name is too long',
  ELOOP: 'its links lead in a circle',
  ENOSPC: 'the disk is full',
  EDQUOT: 'your share of the disk is full',
  EFBIG: 'larger than a file may be here',
  EROFS: 'the disk is read-only',
  EBUSY: 'another program is using it',
  EMFILE: 'too many files are open',
  ENFILE: 'too many files are open',
  EIO: spoken({ read: 'the disk cannot be read', write: 'the disk cannot be written' }),
};

spokenRows([refusals], ...Object.keys(refusals));

const developers = debuglog('ungula');

/** What went wrong with a file, as one sentence to stand after its name. */
export function reason(error: unknown, doing: Doing = 'read'): string {
  if (error instanceof CommandProblem) return error.message;
  const { code, message }: NodeJS.ErrnoException = error instanceof Error ? error : new Error(String(error));
  const refusal = refusals[code ?? ''];
  if (refusal !== undefined) return typeof refusal === 'string' ? refusal : refusal[doing];
  const [first = ''] = message.split('\n');
  // What the system says of itself begins with its code; everything else is ours.
  if (code !== undefined && first.startsWith(`${code}:`)) return first;
  developers('%s', error instanceof Error ? error.stack : String(error));
  return t('a mistake of the program itself, not of your file; please report it: {0}', first);
}
