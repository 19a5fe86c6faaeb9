import type { StoredScale } from '../../shared/measures/take.ts';
import { byteEdit, tokenEdit } from '../property/random-edits.ts';
import {
  animalBlock,
  cutBlock,
  dateOf,
  filmBlock,
  limitsBlock,
  pick,
  pictures,
  start,
  visitBlock,
  type Random,
} from './starts.ts';
import { usualSettings, type Settings, type State } from './state.ts';

/** A change of the text; `past` are the texts before it, the newest last. */
type TextStep = (text: string, random: Random, past: readonly string[]) => string;

/** Stretches of a text that begin at a match of `begin`, each up to the next one. */
function stretches(text: string, begin: RegExp): { start: number; end: number }[] {
  const starts = [...text.matchAll(begin)].map(({ index }) => index);
  return starts.map((at, index) => ({ start: at, end: starts[index + 1] ?? text.length }));
}

const wholeBlocks = /^[ \t]*(?:visit|case|limits|hoof)\b/gm;
const groups = /^[ \t]*(?:visit|case|limits|film|photo|tape|plan|trim)\b/gm;

/** Cuts out one stretch and puts nothing, two of it, or it elsewhere in its place. */
function rearrange(text: string, random: Random, begin: RegExp): string {
  const all = stretches(text, begin);
  if (all.length === 0) return text;
  const one = pick(random, all);
  const part = text.slice(one.start, one.end);
  const without = text.slice(0, one.start) + text.slice(one.end);
  switch (random(4)) {
    case 0:
      return without;
    case 1:
      return text.slice(0, one.end) + (part.endsWith('\n') ? '' : '\n') + part + text.slice(one.end);
    case 2: {
      const other = pick(random, all);
      return text.slice(0, other.start) + part + (part.endsWith('\n') ? '' : '\n') + text.slice(other.start);
    }
    default: {
      const places = stretches(without, begin);
      const at = places.length > 0 ? pick(random, places).start : 0;
      return `${without.slice(0, at)}${part}${part.endsWith('\n') ? '' : '\n'}${without.slice(at)}`;
    }
  }
}

/** One match of `what` replaced; the text as it is where there is none. */
function replaceOne(text: string, random: Random, what: RegExp, put: (found: string) => string): string {
  const all = [...text.matchAll(what)];
  if (all.length === 0) return text;
  const found = pick(random, all);
  return text.slice(0, found.index) + put(found[0]) + text.slice(found.index + found[0].length);
}

function lineStart(text: string, random: Random): number {
  const starts = [0, ...[...text.matchAll(/\r\n|\n|\r/g)].map((found) => found.index + found[0].length)];
  return pick(random, starts);
}

function insert(text: string, at: number, put: string): string {
  return text.slice(0, at) + put + text.slice(at);
}

const headerWords = [
  'visit',
  'case',
  'limits',
  'hoof',
  'visit 2026-02-01',
  'case "Y"',
  'hoof 1',
  'limits\n',
  'visitor',
];
const anyDay = (random: Random): string => dateOf(random(200));

/** Numbers that nobody means: too large, too small, below 0, too long, or written as no number of the notation is. */
function absurd(random: Random): string {
  return pick(random, [
    '0',
    '-0',
    '0.0',
    '-1',
    '-5.5',
    '0.004',
    '60.1',
    '501',
    '9999',
    '100001',
    '-100001',
    '1e308',
    '5e-324',
    'Infinity',
    'NaN',
    '0x10',
    '1_000',
    '+5',
    '--1',
    '1..2',
    '1,5',
    '٣',
    '１２',
    '12345678901234567890',
    '9'.repeat(1 + random(400)),
    `0.${'0'.repeat(random(330))}1`,
    `${random(1000)}.${'3'.repeat(1 + random(40))}`,
  ]);
}

/** One line of each kind that takes a number, with N in its place. */
const numberLines = [
  '  height N cm',
  '  height N hh',
  '  weight N kg',
  '  girth N cm',
  '  insulin N uIU/mL',
  '  acth N pg/mL',
  '  obel N',
  '  next N weeks',
  '    magnify N',
  '    scale N mm/px',
  '    read "x" +- N',
  '    p3.tip @ N, 1000',
  '    p3.tip @ 1, 2 +- N',
  '    ground 0, N .. 2000, 1000',
  '    expect palmar-angle N deg +- 1 deg',
  '    heel down N mm',
  '    toe back N mm',
  '    toe-length N mm',
  '  heel-height <= N mm',
  '  palmar-angle >= N deg because "so"',
];

/** What a picture's file may say of its scale and no picture has. */
const absurdScales = [0, -0.1, 1e-12, 1e-4, 6, 1e9, 1e308];

const textSteps: Readonly<Record<string, TextStep>> = {
  bytes: byteEdit,
  words: tokenEdit,
  'a header in the middle of a block': (text, random) => {
    const at = random(3) === 0 ? random(text.length + 1) : lineStart(text, random);
    return insert(
      text,
      at,
      `${pick(random, ['', '\n', '\r', ' '])}${pick(random, headerWords)}${pick(random, ['', '\n', '\r\n', ' '])}`,
    );
  },
  'two blocks joined': (text, random) =>
    replaceOne(text, random, /(?:\r\n|\n|\r)+(?=[ \t]*(?:visit|case|limits)\b)/g, () =>
      pick(random, ['', ' ', '#', '\n| ', '\n"', '\u2028', '\n']),
    ),
  'a block moved': (text, random) => rearrange(text, random, wholeBlocks),
  'a group moved': (text, random) => rearrange(text, random, groups),
  'another animal': (text, random) => {
    const changed = replaceOne(text, random, /\b(?:horse|pony|donkey|mule|hinny)\b/g, () =>
      pick(random, ['horse', 'pony', 'donkey', 'mule', 'hinny', 'zebra']),
    );
    return changed === text ? insert(text, lineStart(text, random), animalBlock(random)) : changed;
  },
  'another height': (text, random) =>
    replaceOne(text, random, /^ *height .*$/gm, () =>
      pick(random, [
        '',
        `  height ${90 + random(90)} cm`,
        '  height 14.2 hh',
        '  height 14.8 cm',
        '  height -148 cm',
        `  height ${absurd(random)} cm`,
      ]),
    ),
  'another limit': (text, random) =>
    random(3) === 0
      ? insert(text, lineStart(text, random), limitsBlock(random))
      : replaceOne(text, random, /[<>]= *\d+(?:\.\d+)?/g, () => `${pick(random, ['<=', '>='])} ${random(60)}`),
  'another date': (text, random) =>
    replaceOne(text, random, /\d{4}-\d\d-\d\d/g, () => (random(8) === 0 ? '2026-02-30' : anyDay(random))),
  'two dates changed over': (text, random) => {
    const all = [...text.matchAll(/\d{4}-\d\d-\d\d/g)];
    if (all.length < 2) return text;
    const [a, b] = [pick(random, all), pick(random, all)].sort((one, other) => one.index - other.index);
    if (!a || !b || a === b) return text;
    return `${text.slice(0, a.index)}${b[0]}${text.slice(a.index + 10, b.index)}${a[0]}${text.slice(b.index + 10)}`;
  },
  'another number': (text, random) =>
    replaceOne(text, random, /\d+(?:\.\d+)?/g, (found) =>
      pick(random, [`${found}${random(10)}`, found.slice(0, -1), String(random(2000)), `${random(99)}.5`, `-${found}`]),
    ),
  'a number that nobody means': (text, random) => replaceOne(text, random, /-?\d+(?:\.\d+)?/g, () => absurd(random)),
  'a number out of its range': (text, random) =>
    insert(text, lineStart(text, random), `${pick(random, numberLines).replace('N', absurd(random))}\n`),
  'a landmark placed elsewhere': (text, random) =>
    replaceOne(text, random, /@ *-?[\d.]+, *-?[\d.]+/g, () =>
      random(5) === 0 ? `@ ${absurd(random)}, ${random(1300)}` : `@ ${random(2400)}, ${random(1300)}`,
    ),
  'a landmark taken out': (text, random) => replaceOne(text, random, /^.* @ .*$/gm, () => ''),
  'another foot': (text, random) =>
    replaceOne(text, random, /\b[LR][FH]\b/g, () => pick(random, ['LF', 'RF', 'LH', 'RH', 'lf'])),
  'another view': (text, random) =>
    replaceOne(text, random, /\b(?:lateral|front|solar)\b/g, () =>
      pick(random, ['lateral', 'front', 'solar', 'venogram']),
    ),
  'another scale': (text, random) =>
    replaceOne(text, random, /^ *scale .*$/gm, () =>
      pick(random, [
        '    scale dicom',
        '    scale 0.1 mm/px',
        `    scale 0.${1 + random(9)} mm/px`,
        '',
        '    scale 100 mm = 0, 0 .. 0, 900',
        `    scale ${absurd(random)} mm/px`,
        `    scale ${absurd(random)} mm = 0, 0 .. 0, 900`,
        '    scale 100 mm = 5, 5 .. 5, 5',
      ]),
    ),
  'another picture': (text, random) =>
    replaceOne(text, random, /"[^"\n]*\.(?:png|dcm)"/g, () => `"${pick(random, pictures)}"`),
  'a line that others rest on': (text, random) =>
    insert(
      text,
      lineStart(text, random),
      pick(random, [
        '  weight 700 kg\n',
        '  weight 420 kg\n',
        '  obel 3\n',
        '  obel 5\n',
        '  obel 0\n',
        '  vet seen 2026-03-01 "came"\n',
        '  foaled 2025-02\n',
        '  foaled 2024-02-29\n',
        '  accept range/wall-to-bone lamellar-share because "so be it"\n',
      ]),
    ),
  'a film more': (text, random) => insert(text, lineStart(text, random), filmBlock(random, random(200))),
  'a cut more': (text, random) => insert(text, lineStart(text, random), cutBlock(random)),
  'a visit more': (text, random) => insert(text, lineStart(text, random), visitBlock(random, random(200))),
  'another cut': (text, random) =>
    replaceOne(
      text,
      random,
      /\b(?:down|back) +[\d.]+/g,
      () => `${pick(random, ['down', 'back'])} ${random(5) === 0 ? absurd(random) : random(25)}`,
    ),
  'a plan done': (text, random) =>
    replaceOne(text, random, /\b(?:plan|trim)\b/g, () => pick(random, ['plan', 'trim', 'tape'])),
  'a remark more': (text, random) =>
    insert(text, lineStart(text, random), pick(random, ['# a remark\n', '\n', '  | prose\n', '#\r\n'])),
  'a remark behind': (text, random) => replaceOne(text, random, /$/gm, () => pick(random, [' # so', ' #', '  '])),
  'a remark less': (text, random) => replaceOne(text, random, /#.*$/gm, () => ''),
  'a line less': (text, random) => replaceOne(text, random, /^.*(?:\r\n|\n|\r)/gm, () => ''),
  'other line ends': (text, random) => text.replace(/\r\n|\n|\r/g, pick(random, ['\n', '\r\n', '\r'])),
  'another line end': (text, random) =>
    replaceOne(text, random, /\r\n|\n|\r/g, () => pick(random, ['\n', '\r\n', '\r', '\n\r'])),
  'a quote open': (text, random) =>
    random(2) === 0
      ? insert(text, random(text.length + 1), '"')
      : replaceOne(text, random, /"/g, () => pick(random, ['', '\\"'])),
  'a byte order mark': (text, random) =>
    text.startsWith('\ufeff') ? text.slice(1) : insert(text, random(4) === 0 ? lineStart(text, random) : 0, '\ufeff'),
  'another code': (text, random) =>
    random(2) === 0
      ? replaceOne(text, random, /\bcode +\S+/g, () => `code T${random(1000)}`)
      : replaceOne(text, random, /"[^"\n]{0,20}"/g, () => `"n${random(10)}"`),
  'something above': (text, random) => insert(text, 0, pick(random, ['\n', '# above\n', '\n\n\n', ' ', 'hoof 1\n'])),
  undone: (text, random, past) => (past.length > 0 ? pick(random, past) : text),
  'all gone': () => '',
  'another text': (_text, random) => start(random),
};

const sets = [
  { measure: 'palmar-angle', low: 2, high: 6 },
  { measure: 'sole-depth.tip', low: 18, severity: 'error', says: 'Ours are thicker.' },
  { measure: 'heel-height', high: 30, animals: 'ponies' },
].map((band, index) =>
  JSON.stringify({ 'ungula-reference': 1, name: `Set ${index}`, source: { cite: 'invented' }, bands: [band] }),
);

function otherSettings(settings: Settings, random: Random): Settings {
  switch (random(4)) {
    case 0:
      return { ...settings, spread: { mm: pick(random, [0, 0.2, 0.5, 2, 1e6]), px: pick(random, [0, 1, 5, 20, 1e6]) } };
    case 1: {
      const name = pick(random, [
        'heelPerVisit',
        'turnPerVisit',
        'hornAtToe',
        'filmAge',
        'interval',
        'growth',
      ] as const);
      return { ...settings, trim: { ...settings.trim, [name]: pick(random, [1, 4, 20, 1e-6, 1e9]) } };
    }
    case 2:
      return { ...settings, reference: sets.filter(() => random(2) === 0) };
    default:
      return usualSettings;
  }
}

function otherScales(scales: State['scales'], random: Random): State['scales'] {
  const path = pick(random, pictures);
  const { [path]: _, ...others } = scales;
  const told: readonly (StoredScale | null)[] = [
    null,
    { lack: `The picture ${path} is not there.` },
    { mmPerPx: 0.1, words: 'as calibrated' },
    { mmPerPx: 0.14, words: 'as calibrated' },
    { mmPerPx: pick(random, absurdScales), words: 'as calibrated' },
  ];
  const one = pick(random, told);
  return one ? { ...others, [path]: one } : others;
}

/** Steps that are taken oftener than the others, since what rests on something else rests on these. */
const often = [
  'bytes',
  'words',
  'words',
  'a header in the middle of a block',
  'two blocks joined',
  'a block moved',
  'a block moved',
  'a group moved',
  'another date',
  'a number that nobody means',
  'a number out of its range',
  'something above',
  'undone',
];
const names = Object.keys(textSteps).filter((name) => name !== 'all gone' && name !== 'another text');
const drawn = [...names, ...names, ...often, 'all gone', 'another text'];

/** No text of a sequence grows beyond this, or the run would be about size only. */
const longest = 40_000;

/** One change of the text: what it was called, and the text after it. */
export function textStep(text: string, random: Random, past: readonly string[]): { name: string; text: string } {
  const name = pick(random, drawn);
  const changed = textSteps[name]?.(text, random, past) ?? text;
  return { name, text: changed.length > longest ? start(random) : changed };
}

/** The state after one more step: some edits, other settings, or news of a picture. */
export function nextState(now: State, random: Random, past: readonly string[]): State {
  const kind = random(10);
  if (kind === 0) return { ...now, settings: otherSettings(now.settings, random) };
  if (kind === 1) return { ...now, scales: otherScales(now.scales, random) };
  let { text } = now;
  for (let edits = kind === 2 ? 1 + random(4) : 1; edits > 0; edits--) ({ text } = textStep(text, random, past));
  // Now and then everything at once.
  if (random(30) === 0)
    return { text, settings: otherSettings(now.settings, random), scales: otherScales(now.scales, random) };
  return { ...now, text };
}
