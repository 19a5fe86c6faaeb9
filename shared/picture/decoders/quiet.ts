/** Options for a compiled decoder: nothing is written to the console, and what it reports as an error is kept. */
export function quiet(complaints: string[] = []): { print: (line: string) => void; printErr: (line: string) => void } {
  const keep = (line: string): void => {
    if (/error|fail/i.test(line)) complaints.push(line);
  };
  return { print: keep, printErr: keep };
}
