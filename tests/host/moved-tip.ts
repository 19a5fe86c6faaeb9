import type { CaseFile } from './expected.ts';

const TIP = /^(\s*p3\.tip\s*@\s*[\d.]+\s*,\s*)(\d+(?:\.\d+)?)(.*)$/;
// Pixels; far enough that the angle changes by more than its last printed digit on any film.
const STEP = 40;

/** The line of the first measured film that places the tip of the coffin bone, with that tip moved down. */
export function movedTip(text: string, { palmarAngles }: CaseFile): { line: number; text: string } | null {
  const film = palmarAngles[0]?.filmLine;
  if (film === undefined) return null;
  for (const [index, line] of text.split(/\r?\n/).entries()) {
    if (index < film) continue;
    const found = TIP.exec(line);
    if (found === null) continue;
    const [, before = '', y = '0', after = ''] = found;
    return { line: index + 1, text: `${before}${Number(y) + STEP}${after}` };
  }
  return null;
}
