import type { Finding } from './expected.ts';

export interface Word {
  text: string;
  /** Both from 1. */
  line: number;
  column: number;
}

/** A word of the notation to hover over, on a line without a finding, whose hover would show instead. */
export function quietWord(text: string, findings: readonly Finding[]): Word | null {
  for (const [index, line] of text.split(/\r?\n/).entries()) {
    const found = /^\s*(scale)\s/.exec(line);
    if (found === null || findings.some((finding) => finding.line === index + 1)) continue;
    return { text: 'scale', line: index + 1, column: found[0].indexOf('scale') + 1 };
  }
  return null;
}
