import { sayQuantity } from '../../language/figures.ts';
import { spoken } from '../../language/rows.ts';
import { t } from '../../language/words.ts';
import type { WornKind } from '../../notation/choices.ts';
import { footWords } from './wording.ts';
import { wordList } from '../../notation/word-list.ts';
import type { Quantity, WornLine } from '../../record/schema.ts';
import type { Shod } from '../../record/wearing.ts';

/** What a foot may wear. */
const wornNames: Readonly<Record<WornKind, string>> = spoken({
  shoe: 'shoe',
  pad: 'pad',
  cast: 'cast',
  boots: 'boots',
});

/** `shoe 10 mm, wedge 3 deg, concave; pad 5 mm, leather`. */
export function shodWords({ items }: Pick<Shod, 'items'>): string {
  return items
    .map((item) => [wornNames[item.kind], itemWords(item)].filter((words) => words !== '').join(' '))
    .join('; ');
}

/** `pad and shoe`. */
export function wornKindsWords({ items }: Pick<Shod, 'items'>): string {
  return wordList([...new Set(items.map(({ kind }) => wornNames[kind]))], 'and');
}

/** `Shoe on left fore and right fore: 10 mm, wedge 3 deg, concave`; `Shoe off left fore`. */
export function wornLineWords({ kind, feet, off, thickness, wedge, text }: WornLine): string {
  const which = wordList(
    [...new Set(feet)].map((foot) => footWords[foot]),
    'and',
  );
  const said = wornNames[kind];
  const name = said.charAt(0).toUpperCase() + said.slice(1);
  if (off) return t('{0} off {1}', name, which);
  const words = itemWords({ thickness, wedge, text: text?.text ?? null });
  return t('{0} on {1}{2}', name, which, words === '' ? '' : `: ${words}`);
}

interface Said {
  readonly thickness: Quantity | null;
  readonly wedge: Quantity | null;
  readonly text: string | null;
}

function itemWords({ thickness, wedge, text }: Said): string {
  return [thickness && sayQuantity(thickness), wedge && t('wedge {0}', sayQuantity(wedge)), text]
    .filter((words) => words)
    .join(', ');
}
