/**
 * Widths of lettering without a page to measure it on. Book faces differ by a fifth; the widest common one is
 * assumed, since a label that is wider than thought would run over its neighbour or off the plate.
 */
const WIDE = 'mwMWÆŒ@%—…→';
const NARROW = "iljI.,;:'|!()[] ·";
const SLIM = 'trfsJ-"°';

export function widthInEm(text: string): number {
  let width = 0;
  for (const letter of text) {
    if (WIDE.includes(letter)) width += 0.96;
    else if (NARROW.includes(letter)) width += 0.36;
    else if (SLIM.includes(letter)) width += 0.5;
    else if (letter === '±') width += 0.84;
    else if (letter.toUpperCase() === letter && letter.toLowerCase() !== letter) width += 0.8;
    else if (letter.charCodeAt(0) > 0x2e80) width += 1.05;
    else width += 0.64;
  }
  return width;
}

/** A text no wider than the limit, cut with an ellipsis. */
export function fitted(text: string, limit: number): string {
  if (widthInEm(text) <= limit) return text;
  let kept = '';
  for (const letter of text) {
    if (widthInEm(`${kept}${letter}…`) > limit) break;
    kept += letter;
  }
  return `${kept.trimEnd()}…`;
}

/** Words broken over as many lines as they need, at most three. */
export function wrapped(text: string, limit: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(/\s+/).filter((w) => w.length > 0)) {
    const last = lines[lines.length - 1];
    if (last !== undefined && widthInEm(`${last} ${word}`) <= limit) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  const kept = lines.slice(0, 3);
  if (lines.length > 3) kept[2] = `${kept[2]} ${lines.slice(3).join(' ')}`;
  return kept.map((line) => fitted(line, limit));
}
