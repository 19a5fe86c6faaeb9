const signals = ['SIGINT', 'SIGTERM', 'SIGHUP', 'SIGQUIT'] as const;

/**
 * Does something before a signal ends the program, or it ends of itself; the signal then ends it as ever. A library would
 * listen to more signals, among them the one by which the system says that a file is too large, which Node makes an error of.
 *
 * @param tidy done at once, so nothing that waits
 * @returns forgets it again
 */
export function whenEnded(tidy: () => void): () => void {
  const ended = (signal: NodeJS.Signals): void => {
    tidy();
    forget();
    process.kill(process.pid, signal);
  };
  const forget = (): void => {
    for (const signal of signals) process.off(signal, ended);
    process.off('exit', tidy);
  };
  for (const signal of signals) process.on(signal, ended);
  process.on('exit', tidy);
  return forget;
}
