import { markBefore, type Argument, type Form } from '../../../shared/notation/signature.ts';
import type { Item } from '../../../shared/notation/tree.ts';
import { isYear } from '../../../shared/notation/check-items.ts';
import { isFoot } from '../../../shared/notation/vocabulary.ts';

/** What may come next on a line: an argument, or the unit of the number that stands last. */
export interface Expected {
  readonly kind: 'argument' | 'unit';
  readonly argument: Argument;
}

/** By every form that what is written so far could still become. */
export function expectedAfter(forms: readonly Form[], items: readonly Item[]): Expected[] {
  return forms.flatMap((form) => expectedIn(form, items));
}

function expectedIn(form: Form, items: readonly Item[]): Expected[] {
  const next: Expected[] = [];
  let index = 0;
  let before = 0;
  for (const [place, argument] of form.entries()) {
    let taken = 0;
    const led = markBefore(form, place) !== null;
    if (led && before === 0) continue;
    for (;;) {
      if (index >= items.length) {
        // Behind its mark it is all that may come.
        if (led && taken === 0) return [{ kind: 'argument', argument }];
        next.push({ kind: 'argument', argument });
        break;
      }
      const found = takes(argument, items, index);
      if (found === 0) break;
      index += found;
      taken += 1;
      // Of a spread the number is still to come.
      if (argument.take === 'spread' && index >= items.length && items.at(-1)?.kind === 'sign')
        return [{ kind: 'argument', argument }];
      if (index >= items.length && wantsUnit(argument, items.at(-1))) return [{ kind: 'unit', argument }];
      if (!argument.many) break;
    }
    before = taken;
    if (taken === 0 && (led || !argument.optional)) return index >= items.length ? next : [];
  }
  return index >= items.length ? next : [];
}

/** By kind alone, so that a value that is out of its range does not hide what comes after it. */
export function takes(argument: Argument, items: readonly Item[], index: number): number {
  const item = items[index];
  if (!item) return 0;
  switch (argument.take) {
    case 'text':
      return item.kind === 'text' ? 1 : 0;
    case 'date':
      return item.kind === 'date' || (argument.partial === true && item.kind === 'number' && isYear(item)) ? 1 : 0;
    case 'number':
    case 'quantity':
    case 'measured':
      return item.kind === 'number' ? 1 : 0;
    case 'foot':
      return item.kind === 'word' && isFoot(item.image) ? 1 : 0;
    case 'choice':
      return item.kind === 'word' && argument.of.includes(item.image) ? 1 : 0;
    case 'word':
    case 'measure':
    case 'finding':
      return item.kind === 'word' && item.image !== 'because' ? 1 : 0;
    case 'relation':
      return item.kind === 'sign' && /^[<>≤≥]/.test(item.image) ? 1 : 0;
    case 'code':
      return 1;
    case 'point':
      return item.kind === 'point' ? 1 : 0;
    case 'segment':
      return item.kind === 'segment' ? 1 : 0;
    case 'spread':
      if (item.kind !== 'sign' || (item.image !== '+-' && item.image !== '±')) return 0;
      return items[index + 1]?.kind === 'number' ? 2 : 1;
    case 'mark':
      return (item.kind === 'sign' || item.kind === 'word') && item.image === argument.text ? 1 : 0;
  }
}

export function wantsUnit(argument: Argument, last: Item | undefined): boolean {
  if (last?.kind !== 'number' || last.unit) return false;
  return (
    argument.take === 'quantity' ||
    argument.take === 'measured' ||
    (argument.take === 'spread' && argument.measured === true)
  );
}
