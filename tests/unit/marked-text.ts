import { inspect } from '../../shared/findings/inspect.ts';

/** A text in which `⟦` and `⟧` stand around the place where something is to be found. */
export function unmark(marked: string): { text: string; start: number; end: number } {
  const start = marked.indexOf('⟦');
  const end = marked.indexOf('⟧') - 1;
  if (start < 0 || end < start) throw new Error('the text marks no place');
  return { text: marked.replace('⟦', '').replace('⟧', ''), start, end };
}

export function findingsOf(text: string) {
  return inspect(text).findings;
}

/** The findings with this code whose place is the marked one. */
export function foundAtMark(marked: string, code: string) {
  const { text, start, end } = unmark(marked);
  return findingsOf(text).filter(
    (finding) => finding.code === code && finding.at.start === start && finding.at.end === end,
  );
}
