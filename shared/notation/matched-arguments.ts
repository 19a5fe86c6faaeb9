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
    const place = this.placeOf(name);
    return place >= 0 && nth < this.countAt(place) ? this.items[this.startOf(place) + nth] : undefined;
  }

  has(name: string): boolean {
    return this.item(name) !== undefined;
  }

  get(name: string): readonly Item[] | undefined {
    const place = this.placeOf(name);
    return place >= 0 && this.countAt(place) > 0 ? this.itemsAt(place) : undefined;
  }

  *entries(): IterableIterator<[string, readonly Item[]]> {
    for (const [place, { name }] of this.form.entries())
      if (this.form[place - 1]?.name !== name && this.countAt(place) > 0) yield [name, this.itemsAt(place)];
  }

  *values(): IterableIterator<readonly Item[]> {
    for (const [, items] of this.entries()) yield items;
  }

  [Symbol.iterator](): IterableIterator<[string, readonly Item[]]> {
    return this.entries();
  }

  private placeOf(name: string): number {
    for (let place = 0; place < this.form.length; place++) if (this.form[place]?.name === name) return place;
    return -1;
  }

  private startOf(place: number): number {
    let start = 1;
    for (let before = 0; before < place; before++) start += this.taken[before] as number;
    return start;
  }

  /** A mark and what it stands before may go by one name; they are one argument. */
  private countAt(place: number): number {
    let count = this.taken[place] as number;
    for (let next = place + 1; this.form[next]?.name === this.form[place]?.name; next++)
      count += this.taken[next] as number;
    return count;
  }

  private itemsAt(place: number): readonly Item[] {
    const start = this.startOf(place);
    return this.items.slice(start, start + this.countAt(place));
  }
}

/** Of a line that could not be held against a form. */
export const noArguments: Arguments = new MatchedArguments([], [], []);
