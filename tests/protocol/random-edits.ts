import type { TextDocumentContentChangeEvent } from 'vscode-languageserver';
import { linesOf, offsetAt } from './text-positions.ts';

/** The same numbers for the same seed, on every machine (mulberry32). */
export function seeded(seed: number): (below: number) => number {
  let state = seed >>> 0;
  return (below) => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return Math.floor((((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32) * below);
  };
}

const pieces = [
  'a',
  '1',
  '.',
  ',',
  ' ',
  '  ',
  '"',
  '#',
  '|',
  '@',
  '%',
  '\\',
  '-',
  '\t',
  'é',
  'µ',
  '°',
  '±',
  '\u00a0',
  '\u2028',
  '🐴',
  '𝔥oof',
  '\u0000',
  '\ufeff',
  '\n',
  '\r\n',
  '\r',
  '\n\n',
  'hoof 1\n',
  'visit 2026-03-09\n',
  '\nvisit 2026-03-04 "🐴"\r\n',
  '\n  film RF lateral "b 🐴.png"\n',
  '\n  film LF front "c.png"\r\n',
  '\n    p3.tip @ 410, 1190\n',
  '\n    p3.wing @ 900, 1100\r\n',
  'scale 0.2 mm/px\n',
  'read "second"\n',
  '\n  plan LF\n    heel down 12 mm\n',
  '\nlimits\n  palmar-angle <= 8 deg\n',
  'case "Two 🐴"\n',
  'weight 512',
  ' mm',
  ' kg',
  '\n  tape LF\n    toe-length 92 mm\n',
  'expect palmar-angle 3 deg\n',
  'sign fever\n',
  '| 🐴 prose\n',
];

/** One change somewhere in the text: a piece put in, a stretch taken out, or both. */
export function randomChange(
  text: string,
  random: (below: number) => number,
): { change: TextDocumentContentChangeEvent; text: string } {
  const lines = linesOf(text);
  const start = place(lines, random);
  const kind = random(4);
  const end = kind === 0 ? start : kind === 3 ? place(lines, random) : near(start, lines, random);
  const [from, to] = [start, end].sort((a, b) => a.line - b.line || a.character - b.character) as [
    typeof start,
    typeof start,
  ];
  // A long cut seldom: the text is to stay long enough to be worth cutting.
  const cut = kind === 3 && random(40) > 0 ? from : to;
  const put = kind === 1 ? '' : (pieces[random(pieces.length)] ?? '');
  const [a, b] = [offsetAt(text, from), offsetAt(text, cut)];
  return { change: { range: { start: from, end: cut }, text: put }, text: text.slice(0, a) + put + text.slice(b) };
}

type Lines = ReturnType<typeof linesOf>;

function place(lines: Lines, random: (below: number) => number) {
  const line = random(lines.length);
  return { line, character: random((lines[line]?.length ?? 0) + 1) };
}

function near(start: { line: number; character: number }, lines: Lines, random: (below: number) => number) {
  // Over the end of a line now and then, so that lines are joined.
  const line = Math.min(lines.length - 1, start.line + (random(6) === 0 ? 1 : 0));
  const length = lines[line]?.length ?? 0;
  return {
    line,
    character: line === start.line ? Math.min(length, start.character + random(6)) : Math.min(length, random(4)),
  };
}
