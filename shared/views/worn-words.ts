import { footWords } from '../findings/wording/wording.ts';
import { wordList } from '../notation/word-list.ts';
import type { Quantity, WornLine } from '../record/schema.ts';
import type { Shod, Wearing } from '../record/wearing.ts';
import type { StudiedFilm } from '../trim/studied.ts';

/** What the foot wears on a picture; null where it is bare, or nobody knows the day. */
export function wornOn({ film, visit, day }: StudiedFilm, wearing: Wearing): Shod | null {
  return day === null ? null : wearing.shoeOn(film.foot, day, visit.start + film.at.start);
}

/** `shoe 10 mm, wedge 3 deg, concave; pad 5 mm, leather`. */
export function shodWords({ items }: Shod): string {
  return items.map((item) => [item.kind, itemWords(item)].filter((words) => words !== '').join(' ')).join('; ');
}

/** `Shoe on left fore and right fore: 10 mm, wedge 3 deg, concave`; `Shoe off left fore`. */
export function wornLineWords({ kind, feet, off, thickness, wedge, text }: WornLine): string {
  const which = wordList(
    [...new Set(feet)].map((foot) => footWords[foot]),
    'and',
  );
  const name = kind.charAt(0).toUpperCase() + kind.slice(1);
  if (off) return `${name} off ${which}`;
  const words = itemWords({ thickness, wedge, text: text?.text ?? null });
  return `${name} on ${which}${words === '' ? '' : `: ${words}`}`;
}

interface Said {
  readonly thickness: Quantity | null;
  readonly wedge: Quantity | null;
  readonly text: string | null;
}

function itemWords({ thickness, wedge, text }: Said): string {
  return [thickness && said(thickness), wedge && `wedge ${said(wedge)}`, text].filter((words) => words).join(', ');
}

const said = ({ value, unit }: Quantity): string => `${value} ${unit}`;
