import type { CitedWork } from '../export/bibtex.ts';
import type { OwnSet } from '../reference/own-set.ts';
import { citation, type SourceName, type Strength } from '../reference/sources.ts';
import { works, type Work } from '../reference/works.ts';

/** Cites sources in a text and remembers which works that were, each once, in the order in which they are first named. */
export class Citing {
  readonly #cited = new Map<string, CitedWork>();

  /** As it stands in a sentence: who, and how strong the ground is. */
  cite(source: SourceName, strength: Strength): string {
    for (const work of works[source]) this.add(work, strength);
    return citation(source, strength);
  }

  add(work: Work, strength: Strength): void {
    if (!this.#cited.has(work.key)) this.#cited.set(work.key, { work, strength });
  }

  get cited(): readonly CitedWork[] {
    return [...this.#cited.values()];
  }
}

/** A set of reference values of one's own, as a list of references has it. */
export const workOfSet = ({ name, source }: OwnSet, place: number): Work => ({
  key: `set${place + 1}`,
  kind: 'misc',
  title: name,
  note: source.cite,
  ...(source.doi !== undefined && { doi: source.doi }),
});
