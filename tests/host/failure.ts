import { stripVTControlCharacters } from 'node:util';

/** A failure that tells the reader what to do about it; printed without a stack. */
export class Failure extends Error {
  readonly remedy: string;

  constructor(message: string, remedy: string) {
    super(message);
    this.name = 'Failure';
    this.remedy = remedy;
  }
}

export function describe(error: unknown): string {
  if (error instanceof Failure) return `${error.message}\n  what to do: ${error.remedy}`;
  if (error instanceof Error) return stripVTControlCharacters(error.stack ?? error.message);
  return String(error);
}
