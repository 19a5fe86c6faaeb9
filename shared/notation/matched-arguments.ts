import type { Form } from './signature.ts';
import type { Arguments, Item } from './tree.ts';

/**
 * A line's arguments by name: the form, and how many of the line's items each argument of it took. A case holds
 * tens of thousands of these, so they point at the line's items instead of listing them again, as a map of lists
 * would, of four times the size.
 */
export class MatchedArguments implements Arguments {
  private readonly form: Form;
  private readonly items: readonly Item[];
  private readonly taken: readonly number[];

  /** `taken` holds a count for each argument of the form; the first of `items` is the line's word and no argument. */
  constructor(form: Form, items: readonly Item[], taken: readonly number[]) {
    this.form = form;
    this.items = items;
    this.taken = taken;
  }

  item(name: string, nth = 0): Item | undefined {
    let from = 1;
    for (let index = 0; index < this.form.length; index++) {
      const count = this.taken[index] as number;
      if (this.form[index]?.name === name) return nth < count ? this.items[from + nth] : undefined;
      from += count;
    }
    return undefined;
  }

  has(name: string): boolean {
    return this.item(name) !== undefined;
  }

  get(name: string): readonly Item[] | undefined {
    for (const [key, items] of this.entries()) if (key === name) return items;
    return undefined;
  }

  *entries(): IterableIterator<[string, readonly Item[]]> {
    let from = 1;
    for (const [index, { name }] of this.form.entries()) {
      const end = from + (this.taken[index] as number);
      if (end > from) yield [name, this.items.slice(from, end)];
      from = end;
    }
  }

  *values(): IterableIterator<readonly Item[]> {
    for (const [, items] of this.entries()) yield items;
  }

  [Symbol.iterator](): IterableIterator<[string, readonly Item[]]> {
    return this.entries();
  }
}

/** Of a line that could not be held against a form. */
export const noArguments: Arguments = new MatchedArguments([], [], []);
