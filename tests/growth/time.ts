import { readFileSync } from 'node:fs';

/**
 * How much processor time one thing took, so that a machine with other work to do changes little. `Infinity`: more than there was patience
 * for; `NaN`: it failed, and `says` why.
 */
export interface Time {
  readonly what: string;
  readonly seconds: number;
  readonly says?: string;
  /** The most memory that its process held so far, where that is known. */
  readonly megabytes?: number | null;
}

/** What a process has used so far. */
export interface Used {
  /** Of all its threads, of the processor. */
  readonly seconds: number;
  /** The most memory that it held. */
  readonly megabytes: number;
}

/** As Linux tells it; null elsewhere and for a process that has ended. */
export function usedBy(pid: number | undefined): Used | null {
  try {
    const [, fields = ''] = /\) (.*)/.exec(readFileSync(`/proc/${pid}/stat`, 'utf8')) ?? [];
    const [user, system] = fields.split(' ').slice(11, 13).map(Number);
    const [, kilobytes] = /^VmHWM:\s+(\d+) kB/m.exec(readFileSync(`/proc/${pid}/status`, 'utf8')) ?? [];
    if (user === undefined || system === undefined || kilobytes === undefined) return null;
    return { seconds: (user + system) / TICKS, megabytes: Math.round(Number(kilobytes) / 1024) };
  } catch {
    return null;
  }
}

/** A second, in which Linux counts the time of a process wherever it counts it for programs. */
const TICKS = 100;

/** Looks now and then what a process has used, and calls `tooMuch` where that is more than `patience` seconds from now on. */
export function watched(pid: number | undefined, patience: number, tooMuch: () => void): { end(): Used } {
  const start = usedBy(pid)?.seconds ?? 0;
  let last: Used = { seconds: 0, megabytes: 0 };
  const look = (): void => {
    const used = usedBy(pid);
    if (used) last = { seconds: used.seconds - start, megabytes: used.megabytes };
    if (last.seconds > patience) tooMuch();
  };
  const timer = setInterval(look, 20);
  return {
    end() {
      look();
      clearInterval(timer);
      return last;
    },
  };
}
