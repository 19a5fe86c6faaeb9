import { counted, t } from '../../language/words.ts';
import { samePath } from '../../picture/same-path.ts';
import type { AcrossRule, CaseOfFile } from './across-rule.ts';

/** Nobody looks through more of the others than this. */
const most = 5;

interface Use {
  readonly one: CaseOfFile;
  readonly picture: CaseOfFile['facts']['pictures'][number];
}

export const samePicture: AcrossRule = {
  code: 'case/same-picture',
  severity: 'warning',
  title: 'One picture in two cases',
  about:
    'A picture that a film of one case names is a film of another case too. It was taken once, of one animal: one of the two names the wrong picture, and its foot is measured on another animal. A picture is known by where it lies, whatever the case of its letters. It is told once for a file, at the first such picture.',
  elsewhere: 'Name in one of the two cases the picture that was meant.',
  *onCases(cases) {
    const byPath = new Map<string, Use[]>();
    for (const one of cases) {
      const folder = folderOf(one.file);
      // Two ways to write one path in one file are told in that file.
      const seen = new Set<string>();
      for (const picture of one.facts.pictures) {
        const path = samePath(picture.path, folder);
        if (seen.has(path)) continue;
        seen.add(path);
        const uses = byPath.get(path);
        if (uses) uses.push({ one, picture });
        else byPath.set(path, [{ one, picture }]);
      }
    }
    const shared = new Map<string, { use: Use; uses: readonly Use[]; count: number }>();
    for (const uses of byPath.values()) {
      if (uses.length < 2) continue;
      for (const use of uses) {
        const { file } = use.one;
        const known = shared.get(file);
        if (known) known.count += 1;
        else shared.set(file, { use, uses, count: 1 });
      }
    }
    for (const [file, { use, uses, count }] of shared) {
      const others = firstOthers(uses, use);
      const more = uses.length - 2;
      const also = more === 0 ? '' : counted(more, ' and of one more file', ' and of {0} more files');
      const rest =
        count === 1
          ? ''
          : t(' So {0} of this file.', count === 2 ? t('is one more picture') : t('are {0} more pictures', count - 1));
      yield {
        file,
        at: use.picture.at,
        message: t(
          'This picture is a film of {0}{1} too.{2} It was taken once, of one animal: name the picture that was meant. If this is the same animal, keep its visits in one file.',
          others[0]?.one.called,
          also,
          rest,
        ),
        related: others.map(({ one, picture }) => ({
          file: one.file,
          at: picture.at,
          message: t('The same picture in {0}.', one.called),
        })),
      };
    }
  },
};

function firstOthers(uses: readonly Use[], use: Use): Use[] {
  const others: Use[] = [];
  for (const other of uses) {
    if (other !== use) others.push(other);
    if (others.length === most) break;
  }
  return others;
}

/** Of a path or a URI, whose folders are written as a film writes them. */
function folderOf(file: string): string {
  const folder = file.replaceAll('\\', '/').replace(/[^/]*$/, '');
  if (!/^[a-z][a-z0-9+.-]+:/i.test(folder)) return folder;
  try {
    return decodeURIComponent(folder);
  } catch {
    return folder;
  }
}
