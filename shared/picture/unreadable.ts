/** Thrown within this folder only. Its message is a sentence for the practitioner, and the entry points hand it on as `problem`. */
export class Unreadable extends Error {}

/** The sentence to show for whatever was thrown: our own, or `otherwise` for what a library or a read past the end threw. */
export function sentenceOf(cause: unknown, otherwise: string): string {
  return cause instanceof Unreadable ? cause.message : otherwise;
}
