import type { Proposed } from '../../../shared/proposals/from-film-before.ts';
import type { Proposal } from '../../../shared/proposals/proposal.ts';

/** What is proposed on the film at hand, as far as the answer has come. Nothing of it is counted before a person confirms it. */
export class Ghosts {
  #asked: string | null = null;
  #answer: { readonly key: string; readonly proposed: Proposed; readonly followed: boolean } | null = null;

  /** @param key of the question that was asked; null where what proposals rest on is not placed */
  seek(key: string | null): void {
    this.#asked = key;
  }

  /** @param followed they come from the film before, whose error they share */
  heard(key: string, proposed: Proposed, followed: boolean): void {
    this.#answer = { key, proposed, followed };
  }

  get isAsked(): boolean {
    return this.#asked !== null;
  }

  hasAnswer(key: string): boolean {
    return this.#answer?.key === key;
  }

  /** The answer is on its way. */
  get isSought(): boolean {
    return this.#asked !== null && this.#answer?.key !== this.#asked;
  }

  /** Why there are no proposals, in a sentence; null where there are, or nothing was asked. */
  get says(): string | null {
    const current = this.#current;
    return current && 'says' in current ? current.says : null;
  }

  get areFollowed(): boolean {
    return this.#answer?.followed ?? false;
  }

  get all(): readonly Proposal[] {
    const current = this.#current;
    return current && 'proposals' in current ? current.proposals : [];
  }

  get #current(): Proposed | null {
    return this.#answer && this.#answer.key === this.#asked ? this.#answer.proposed : null;
  }
}
