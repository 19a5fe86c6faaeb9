/** What one configuration measured, in a process of its own; times in ms. */
export interface Result {
  readonly what: string;
  /** UTF-16 units of what was read. */
  readonly bytes: number;
  readonly runs: number;
  readonly minimum: number;
  readonly median: number;
  readonly p99: number;
  /** Bytes of memory, by what had been done before; only where a server was measured. */
  readonly memory?: Readonly<Record<string, number | null>>;
  /** A word on what came out, to see that it was the real thing. */
  readonly note?: string;
}

export function summed(what: string, bytes: number, times: readonly number[]): Result {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (share: number): number => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? NaN;
  return { what, bytes, runs: sorted.length, minimum: at(0), median: at(0.5), p99: at(0.99) };
}
