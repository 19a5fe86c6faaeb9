import { statements } from '../../shared/notation/vocabulary.ts';

/** A small seeded generator (mulberry32), so that a failure can be had again. */
export function randomFrom(seed: number): (below: number) => number {
  let state = seed >>> 0;
  return (below) => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return Math.floor((((t ^ (t >>> 14)) >>> 0) / 4294967296) * below);
  };
}

const pieces = [
  'hoof 1',
  'hoof 9',
  'case "X"',
  'limits',
  'visit 2026-02-30',
  'visit 2026-03-01 "x"',
  'film LF lateral "a.png"',
  'photo RH solar "b"',
  'read "A" +- 2',
  'tape LF',
  'plan LF',
  'trim RF',
  'p3.tip @ 1, 2',
  'scale 100 mm =',
  'ground',
  '..',
  '+-',
  '±',
  '@',
  '=',
  ',',
  '"',
  '\\',
  '\\"',
  '|',
  '#',
  '12',
  '12,5',
  '-3.5',
  '1e9',
  '99999999999999999999',
  'mm',
  '%',
  'because',
  '>=',
  '<',
  'LF',
  '\n',
  '\r\n',
  '\r',
  '\t',
  ' ',
  '\u0000',
  '\ufeff',
  '\u2028',
  '\u00a0',
  'ß',
  '𝔥',
  '\ud800',
  'é',
  '-',
  '.',
  '-0',
  '0',
  '-1000000000',
  '9'.repeat(100),
  '7'.repeat(400),
  `0.${'0'.repeat(300)}1`,
  'height 148 cm',
  'height 14.8 cm',
  'weight -5 kg',
  'scale 0 mm/px',
  'scale 100 mm = 1, 1 .. 1.0001, 1',
  'ground 1, 1 .. 1, 1',
  'magnify 104',
  'sole-depth.tip >= -1000 mm',
  'next 4 weeks',
  'next -4 weeks',
  'heel down 8 mm',
  'heel down -5 mm',
  'toe back 80 mm',
  'toe back 1 in',
  'expect palmar-angle 5 deg +- 1 deg',
  ...statements.map(({ example }) => example),
];

/** One random change of bytes: flip, insert, delete or repeat a stretch. Bytes that are no UTF-8 any more become U+FFFD, as a reader shows them. */
export function byteEdit(text: string, random: (below: number) => number): string {
  const bytes = Buffer.from(text, 'utf8');
  const at = random(bytes.length + 1);
  switch (random(4)) {
    case 0: {
      if (bytes.length === 0) return text;
      const copy = Buffer.from(bytes);
      copy[at % bytes.length] = random(256);
      return copy.toString('utf8');
    }
    case 1:
      return Buffer.concat([bytes.subarray(0, at), Buffer.from([random(256)]), bytes.subarray(at)]).toString('utf8');
    case 2:
      return Buffer.concat([bytes.subarray(0, at), bytes.subarray(at + 1 + random(8))]).toString('utf8');
    default:
      return Buffer.concat([
        bytes.subarray(0, at),
        bytes.subarray(Math.max(0, at - random(30)), at),
        bytes.subarray(at),
      ]).toString('utf8');
  }
}

/** One random change of words: put one in, take one out, swap two lines, or cut the text short in the middle of one. */
export function tokenEdit(text: string, random: (below: number) => number): string {
  const at = random(text.length + 1);
  switch (random(5)) {
    case 0:
      return text.slice(0, at) + (pieces[random(pieces.length)] ?? '') + text.slice(at);
    case 1: {
      const words = /\S+/g;
      words.lastIndex = at;
      const word = words.exec(text);
      return word ? text.slice(0, word.index) + text.slice(word.index + word[0].length) : text;
    }
    case 2: {
      const words = /\S+/g;
      words.lastIndex = at;
      const word = words.exec(text);
      return word
        ? text.slice(0, word.index) + (pieces[random(pieces.length)] ?? '') + text.slice(word.index + word[0].length)
        : text;
    }
    case 3: {
      const lines = text.split('\n');
      const a = random(lines.length);
      const b = random(lines.length);
      [lines[a], lines[b]] = [lines[b] ?? '', lines[a] ?? ''];
      return lines.join('\n');
    }
    default:
      return text.slice(0, at) + '\n' + text.slice(at);
  }
}
