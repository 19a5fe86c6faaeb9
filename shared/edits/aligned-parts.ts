import { textOf, type VersionPart } from './version-parts.ts';

/** A part under a name that it has in all versions, and that no other of its block has. */
export interface KeyedPart extends VersionPart {
  readonly key: string;
}

export const keyedParts = (base: readonly VersionPart[]): KeyedPart[] => {
  const named = new Names();
  return base.map((part) => ({ ...part, key: named.once(part.about) }));
};

/**
 * Gives the parts of a version the keys of those parts of the base that they come from: what is unchanged first, then what is about the
 * same, then what stands in place of one of its kind that is gone. So a line that was changed is known as that line, and of two lines
 * about one thing the second is not taken for the first where that was taken out.
 */
export function alignedParts(base: readonly KeyedPart[], version: readonly VersionPart[]): KeyedPart[] {
  const keys = new Map<VersionPart, string>();
  const taken = new Set<string>();
  const nameBy: ((part: VersionPart) => string)[] = [
    (part) => `${part.about}\n${textOf(part).trim().replaceAll('\r\n', '\n')}`,
    ({ about }) => about,
    ({ kind }) => kind,
  ];
  for (const name of nameBy) {
    const waiting = new Map<string, KeyedPart[]>();
    // From behind, so that the first of those that are alike is the next to be taken.
    for (const part of base.toReversed()) {
      if (taken.has(part.key)) continue;
      const alike = waiting.get(name(part)) ?? [];
      waiting.set(name(part), alike);
      alike.push(part);
    }
    for (const part of version) {
      if (keys.has(part)) continue;
      const from = waiting.get(name(part))?.pop();
      if (!from) continue;
      keys.set(part, from.key);
      taken.add(from.key);
    }
  }
  const named = new Names(base.map(({ key }) => key));
  return version.map((part) => ({ ...part, key: keys.get(part) ?? named.once(part.about) }));
}

/** Tells apart what has one name, by its place among those. */
class Names {
  readonly #taken: Set<string>;
  readonly #last = new Map<string, number>();

  constructor(taken: readonly string[] = []) {
    this.#taken = new Set(taken);
  }

  once(name: string): string {
    let n = this.#last.get(name) ?? 1;
    let key = n === 1 ? name : `${name} #${n}`;
    for (; this.#taken.has(key); key = `${name} #${n}`) n += 1;
    this.#last.set(name, n);
    this.#taken.add(key);
    return key;
  }
}
