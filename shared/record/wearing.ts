import { countWhile } from '../notation/count-while.ts';
import { dayNumber } from '../notation/dates.ts';
import type { FootName, WornKind } from '../notation/choices.ts';
import type { Cut, Placed, Quantity, Visit, WornLine } from './schema.ts';

/** One thing that a foot wears. */
export interface WornItem {
  readonly kind: WornKind;
  /** Null where the line gives none. */
  readonly thickness: Quantity | null;
  readonly wedge: Quantity | null;
  readonly text: string | null;
  /** Since when: the visit that says so, and its day. */
  readonly visit: Placed<Visit>;
  readonly day: number;
}

/** What a foot wears at one time, at least one thing, what lies nearest to the hoof first. */
export interface Shod {
  readonly items: readonly WornItem[];
  /** Of all together: mm, and degrees that the heel is raised by; null where no line gives any. */
  readonly thickness: number | null;
  readonly wedge: number | null;
}

/** Why a foot is bare by what is written. */
export interface BareBy {
  /** `wedge`: a trim that raised the heel by one, so that the foot wears something that no line names. */
  readonly by: 'off' | 'trim' | 'wedge';
  /** Since when, as `dayNumber` counts. */
  readonly day: number;
  /** Whether a trim took off what the lines of the very same visit had put on. */
  readonly ofSameVisit: boolean;
}

interface PutOn {
  readonly day: number;
  /** Offset in the file. */
  readonly place: number;
  readonly visit: Placed<Visit>;
  readonly what: WornLine | Cut;
}

/** What a foot wears, or why it is bare. */
interface FootState {
  readonly items: readonly WornItem[];
  readonly bare: BareBy | null;
}

const isLine = (what: WornLine | Cut): what is WornLine => 'off' in what;

/**
 * What the feet of a case wear. Each thing is worn from its line on until it is taken off, another of its kind is put on, or the
 * foot is trimmed. A new shoe, and a shoe taken off, end what was put on at earlier visits below it: the pad.
 */
export class Wearing {
  private readonly changes: ReadonlyMap<FootName, readonly PutOn[]>;
  /** How a foot is after each of its changes. */
  private readonly states = new Map<FootName, readonly FootState[]>();

  constructor(visits: readonly Placed<Visit>[]) {
    const changes = new Map<FootName, PutOn[]>();
    for (const visit of visits) {
      const day = visit.is.date === null ? null : dayNumber(visit.is.date);
      if (day === null) continue;
      const add = (foot: FootName, what: WornLine | Cut): void => {
        const all = changes.get(foot) ?? [];
        changes.set(foot, all);
        all.push({ day, place: visit.start + what.at.start, visit, what });
      };
      for (const line of visit.is.worn) for (const foot of new Set(line.feet)) add(foot, line);
      for (const cut of visit.is.cuts) if (cut.kind === 'trim') add(cut.foot, cut);
    }
    for (const all of changes.values()) all.sort((a, b) => a.day - b.day || a.place - b.place);
    this.changes = changes;
    for (const [foot, all] of changes) {
      let state: FootState = { items: [], bare: null };
      this.states.set(
        foot,
        all.map((change) => (state = stateAfter(state, change))),
      );
    }
  }

  /**
   * What the foot wears on a day; null where it is bare. `place`: offset in the file of what asks, such as a film; of that day's
   * lines those before it count. Without it the day counts to its end. A day is counted since 1970-01-01.
   */
  shoeOn(foot: FootName, day: number, place = Infinity): Shod | null {
    const items = this.stateOn(foot, day, place)?.items ?? [];
    return items.length === 0 ? null : shod(items);
  }

  /** Why the foot is bare then; null where it wears something, and where nothing has been said of it yet. */
  bareBy(foot: FootName, day: number, place = Infinity): BareBy | null {
    return this.stateOn(foot, day, place)?.bare ?? null;
  }

  private stateOn(foot: FootName, day: number, place: number): FootState | undefined {
    const before = countWhile(
      this.changes.get(foot) ?? [],
      (change) => change.day < day || (change.day === day && change.place < place),
    );
    return this.states.get(foot)?.[before - 1];
  }

  /** Whether any line says what the foot wears or wore; where none does, nobody knows. */
  isTold(foot: FootName): boolean {
    return this.changes.get(foot)?.some(({ what }) => isLine(what) || what.boots !== null) ?? false;
  }
}

/** Whether any of it stays on the foot for a film; boots are pulled off for one. */
export function staysOn({ items }: Shod): boolean {
  return items.some(({ kind }) => kind !== 'boots');
}

/** Whether both say the same of a foot, wherever that stands in the file. */
export function isWornAlike(one: Shod | null, other: Shod | null): boolean {
  if (one === null || other === null) return one === other;
  return (
    one.items.length === other.items.length &&
    one.items.every((item, index) => {
      const like = other.items[index];
      return (
        like !== undefined &&
        item.kind === like.kind &&
        item.text === like.text &&
        item.day === like.day &&
        isAsLarge(item.thickness, like.thickness) &&
        isAsLarge(item.wedge, like.wedge)
      );
    })
  );
}

export function isBareAlike(one: BareBy | null, other: BareBy | null): boolean {
  return one?.by === other?.by && one?.day === other?.day && one?.ofSameVisit === other?.ofSameVisit;
}

const isAsLarge = (one: Quantity | null, other: Quantity | null): boolean =>
  one?.value === other?.value && one?.unit === other?.unit;

function stateAfter({ items: before, bare }: FootState, change: PutOn): FootState {
  const { what, visit, day } = change;
  const items = after(before, change);
  if (items.length > 0) return { items, bare: null };
  const by = isLine(what) ? 'off' : what.heelUp ? 'wedge' : 'trim';
  // Bare before it already.
  if (bare && by !== 'wedge' && bare.by !== 'wedge') return { items, bare };
  return { items, bare: { by, day, ofSameVisit: !isLine(what) && before.some((item) => item.visit === visit) } };
}

function after(items: readonly WornItem[], { what, visit, day }: PutOn): readonly WornItem[] {
  if (!isLine(what)) {
    // A trim ends what was worn; boots that are written in it are put on after it.
    if (what.boots === null) return [];
    return [{ kind: 'boots', thickness: null, wedge: null, text: what.boots.text, visit, day }];
  }
  const { kind, off, thickness, wedge, text } = what;
  if (off && kind === 'shoe') return [];
  const kept = items.filter(
    (item) => item.kind !== kind && !(kind === 'shoe' && item.kind === 'pad' && item.visit !== visit),
  );
  return off ? kept : [...kept, { kind, thickness, wedge, text: text?.text ?? null, visit, day }];
}

const nearest: readonly WornKind[] = ['cast', 'pad', 'shoe', 'boots'];

function shod(items: readonly WornItem[]): Shod {
  const sum = (part: 'thickness' | 'wedge'): number | null => {
    const given = items.flatMap((item) => item[part]?.base ?? []);
    return given.length === 0 ? null : given.reduce((all, one) => all + one, 0);
  };
  const sorted = items.toSorted((a, b) => nearest.indexOf(a.kind) - nearest.indexOf(b.kind));
  return { items: sorted, thickness: sum('thickness'), wedge: sum('wedge') };
}
