import { alignedParts, keyedParts, type KeyedPart } from './aligned-parts.ts';
import { textOf, versionParts, type VersionPart } from './version-parts.ts';

/** What two people have made of one version of a case. */
export interface Versions {
  /** The version that both began from; empty where there is none. */
  readonly base: string;
  readonly ours: string;
  readonly theirs: string;
}

export interface Merged {
  readonly text: string;
  /** How many places both have changed otherwise; each stands between marks, with both. */
  readonly conflicts: number;
}

/**
 * Puts both together by what the lines are about and not by where they stand: two new visits, each at the end, are two visits in the
 * order of their days; a landmark and a weight that stand side by side are no conflict; one landmark at two places is one. `mark`:
 * how many signs a mark of conflict has, as git says.
 */
export function mergedVersions({ base, ours, theirs }: Versions, mark = 7): Merged {
  if (ours === theirs || theirs === base) return { text: ours, conflicts: 0 };
  if (ours === base) return { text: theirs, conflicts: 0 };
  const lineEnd = /\r?\n/.exec(ours)?.[0] ?? '\n';
  const merging = new Merging(mark, lineEnd);
  // How lines end is nothing that anybody has said: all end as ours do.
  const parts = (text: string): VersionPart[] => versionParts(text.replaceAll(/\r?\n/g, lineEnd));
  const text = merging.parts(parts(base), parts(ours), parts(theirs));
  return { text, conflicts: merging.conflicts };
}

class Merging {
  conflicts = 0;
  readonly #mark: number;
  readonly #lineEnd: string;

  constructor(mark: number, lineEnd: string) {
    this.#mark = mark;
    this.#lineEnd = lineEnd;
  }

  parts(base: readonly VersionPart[], ours: readonly VersionPart[], theirs: readonly VersionPart[]): string {
    const was = keyedParts(base);
    const [ourParts, theirParts] = [alignedParts(was, ours), alignedParts(was, theirs)];
    const [before, own, other] = [byKey(was), byKey(ourParts), byKey(theirParts)];
    const said = inOneOrder(ourParts, theirParts).flatMap(({ key }) => {
      const text = this.#part(before.get(key) ?? null, own.get(key) ?? null, other.get(key) ?? null);
      return text === '' ? [] : [{ key, text }];
    });
    const asWritten = new Set([...pairsIn(ourParts), ...pairsIn(theirParts)]);
    return said
      .map(({ key, text }, at) => {
        const next = said[at + 1];
        if (!next) return text;
        // The last line of a file may have no end, and another comes behind it now.
        const ended = this.#ended(text);
        const needsGap = isBlock(key) && !asWritten.has(`${key}\n${next.key}`) && !/(?:^|\n)\r?\n$/.test(ended);
        return needsGap ? ended + this.#lineEnd : ended;
      })
      .join('');
  }

  #part(base: VersionPart | null, ours: VersionPart | null, theirs: VersionPart | null): string {
    const [was, own, other] = [base && textOf(base), ours && textOf(ours), theirs && textOf(theirs)];
    if (isSame(own, other) || isSame(other, was)) return own ?? '';
    if (isSame(own, was)) return other ?? '';
    if (ours && theirs && (ours.inner.length > 0 || theirs.inner.length > 0))
      return [
        this.#ended(this.#words(base?.lead ?? null, ours.lead, theirs.lead)),
        this.parts(base?.inner ?? [], ours.inner, theirs.inner),
        this.#words(base?.tail ?? null, ours.tail, theirs.tail),
      ].join('');
    return this.#conflict(own ?? '', other ?? '');
  }

  #words(base: string | null, ours: string, theirs: string): string {
    if (isSame(ours, theirs) || isSame(theirs, base)) return ours;
    if (isSame(ours, base)) return theirs;
    return this.#conflict(ours, theirs);
  }

  #conflict(ours: string, theirs: string): string {
    this.conflicts += 1;
    const line = (sign: string, words = ''): string => `${sign.repeat(this.#mark)}${words}${this.#lineEnd}`;
    return `${line('<', ' ours')}${this.#ended(ours)}${line('=')}${this.#ended(theirs)}${line('>', ' theirs')}`;
  }

  #ended(text: string): string {
    return text === '' || /[\r\n]$/.test(text) ? text : text + this.#lineEnd;
  }
}

const byKey = (parts: readonly KeyedPart[]): ReadonlyMap<string, KeyedPart> =>
  new Map(parts.map((part) => [part.key, part]));

/** Which parts stand beside each other. */
const pairsIn = (parts: readonly KeyedPart[]): string[] =>
  parts.slice(1).map(({ key }, index) => `${parts[index]?.key}\n${key}`);

/** A blank line parts two visits, and other blocks of that level. */
const isBlock = (key: string): boolean => /^(?:visit|case|limits)\b/.test(key);

/** Blank lines and the end of the file's last line are no change that anybody made. */
const isSame = (a: string | null, b: string | null): boolean =>
  a === b || (a !== null && b !== null && a.trimEnd() === b.trimEnd());

/**
 * Every part of both once: ours in our order, and what only they have behind what it follows there. Where our own new parts stand
 * there too, it comes after these; a visit before those that are later.
 */
function inOneOrder(ours: readonly KeyedPart[], theirs: readonly KeyedPart[]): KeyedPart[] {
  const own = new Set(ours.map(({ key }) => key));
  const other = new Set(theirs.map(({ key }) => key));
  const order = [...ours];
  for (const [index, part] of theirs.entries()) {
    if (own.has(part.key)) continue;
    const before = theirs[index - 1];
    let at = before ? order.findIndex(({ key }) => key === before.key) + 1 : 0;
    for (let next = order[at]; next && !other.has(next.key) && !isLater(next, part); next = order[at]) at += 1;
    order.splice(at, 0, part);
  }
  return order;
}

const isLater = (one: VersionPart, other: VersionPart): boolean =>
  one.day !== null && other.day !== null && one.day > other.day;
