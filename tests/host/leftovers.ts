import { rmSync } from 'node:fs';

// What must not outlive this process: the process groups it started and the folders it made. Kept here, not
// in each user's `finally`, since a time limit or Ctrl+C ends the process without unwinding any of them.
const groups = new Set<number>();
const folders = new Set<string>();
let armed = false;
let interrupted: ((code: number) => void) | undefined;

function arm(): void {
  if (armed) return;
  armed = true;
  process.on('exit', () => {
    for (const group of groups) signalGroup(group, 'SIGKILL');
    for (const folder of folders) removeFolder(folder);
  });
  const bySignal = [
    ['SIGINT', 130],
    ['SIGTERM', 143],
    ['SIGHUP', 129],
  ] as const;
  for (const [signal, code] of bySignal) process.once(signal, () => (interrupted ?? process.exit)(code));
}

/** For a program that would rather stop by itself than be ended at once. A second signal ends it all the same. */
export function onInterrupt(handler: (code: number) => void): void {
  arm();
  interrupted = handler;
}

export function signalGroup(group: number, signal: NodeJS.Signals | 0): boolean {
  try {
    process.kill(-group, signal);
    return true;
  } catch {
    return false;
  }
}

export function removeFolder(folder: string): void {
  // A process that is just ending may still write into it, hence the retries.
  rmSync(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
}

export function ownGroup(group: number): void {
  arm();
  groups.add(group);
}

export function disownGroup(group: number): void {
  groups.delete(group);
}

export function ownFolder(folder: string): void {
  arm();
  folders.add(folder);
}

export function discardFolder(folder: string): void {
  removeFolder(folder);
  folders.delete(folder);
}
