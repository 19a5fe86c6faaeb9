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
  // Without the colours that a library puts in. This runs in a browser too, where Node's own function for it is not.
  // oxlint-disable-next-line no-control-regex
  if (error instanceof Error) return (error.stack ?? error.message).replace(/\u001b\[[\d;]*m/g, '');
  return String(error);
}
