import { t } from '../../language/words.ts';
import { spoken } from '../../language/rows.ts';
import type { Unseen } from '../../course/unseen.ts';
import { list } from './wording.ts';

const words: Readonly<Record<Exclude<Unseen['lacks'][number], 'common' | 'earlier'>, string>> = spoken({
  frame: 'a ground line, or the landmarks that show how the foot lies',
  scale: 'a scale',
  extensor: 'the extensor process (p3.extensor)',
  top: 'the top of the firm wall (wall.top) or the hairline at the toe (coronet.dorsal)',
});

/** What is missing, after `it`. */
export function sayUnseen({ lacks }: Unseen): string {
  const missing = lacks.flatMap((lack) => (lack === 'common' || lack === 'earlier' ? [] : words[lack]));
  if (missing.length > 0) return t('lacks {0}', list(missing));
  return lacks.includes('common')
    ? t('has no landmark at the top in common with an earlier film; place wall.top or coronet.dorsal on both')
    : t(
        'has no earlier film with a scale, the extensor process and the top of the wall or the hairline to be held against',
      );
}
