/** Runs what it is given, no more than so many at a time, in the order in which they were asked for. */
export function atMost(most: number): <T>(run: () => Promise<T>) => Promise<T> {
  const waiting: (() => void)[] = [];
  let running = 0;
  return async (run) => {
    if (running >= most) await new Promise<void>((resolve) => waiting.push(resolve));
    else running += 1;
    try {
      return await run();
    } finally {
      // The place is handed on, not given back and taken again.
      const next = waiting.shift();
      if (next) next();
      else running -= 1;
    }
  };
}
