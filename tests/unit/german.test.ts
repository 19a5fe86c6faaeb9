import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { untranslated } from '../../scripts/words.ts';

const root = join(import.meta.dirname, '..', '..');
const table = (...path: string[]) => JSON.parse(readFileSync(join(root, ...path), 'utf8')) as Record<string, string>;
const gathered = Object.keys(table('l10n', 'bundle.l10n.json'));
const german = table('l10n', 'bundle.l10n.de.json');
const rows = Object.entries(german);

/** German that is the same as the English: formulas and what is written with signs are told by their shape. */
const same = new Set([
  'April',
  'August',
  'November',
  'September',
  'Insulin',
  'Plan',
  'Trend',
  'C',
  'F',
  'mm',
  'normal',
  'warm',
  '    ICC(2,1) {0}; ICC(3,1) {1}',
  ' in {0}',
  '--severity: {0}',
  'Insulin {0}{1} µIU/mL',
  'Obel {0}',
  'UELN {0}',
  'Plan {0}: {1}',
  'Plan: {0}',
  'ungula: {0}\n',
  '{0} mm',
  '{0} in {1}',
  '{0} {1}, {2}',
  '      {0}',
  '{0} ({1}{2}; {3}, {4}): {5}',
]);
const formula = /^(?:100 × |atan2\(|[XY] |\{\d\}[.,:]? ?(?:\{\d\})?$|[a-z]+-angle - )/;

const places = (text: string): string[] => [...new Set(text.match(/\{\d*\}/g))].sort();
const typed = (text: string): string[] => (text.match(/`[^`]*`|«[^«»]*»|--[a-z-]+|\*\*|\]\(/g) ?? []).sort();

describe('the German words', () => {
  it('are there for every sentence that is gathered, and for no other', () => {
    expect(gathered.filter((english) => !Object.hasOwn(german, english))).toEqual([]);
    expect(Object.keys(german).filter((english) => !gathered.includes(english))).toEqual([]);
    expect(gathered.length).toBeGreaterThan(2800);
  });

  it('are asked for where a sentence is new, and where one is said no more', () => {
    const [first = '', ...others] = gathered;
    const told = untranslated([...others, 'A sentence that nobody has translated.']);
    expect(told).toEqual([
      'l10n/bundle.l10n.de.json lacks: "A sentence that nobody has translated."',
      `l10n/bundle.l10n.de.json holds what is said no more: ${JSON.stringify(first)}`,
    ]);
  });

  it('keep every value, and what is typed as it is', () => {
    const parted = rows.filter(([english, words]) => String(places(english)) !== String(places(words)));
    expect(parted).toEqual([]);
    expect(rows.filter(([english, words]) => String(typed(english)) !== String(typed(words)))).toEqual([]);
  });

  it('begin and end in blanks and line ends as the English does, unless a comma takes the blank’s place', () => {
    const edge = (text: string) => [/^\s*/.exec(text)?.[0], /\s*$/.exec(text)?.[0]].join('|');
    const parted = rows.filter(([english, words]) => edge(english) !== edge(words) && !/^ \S/.test(english));
    expect(parted).toEqual([]);
    for (const [english, words] of rows) if (/^ \S/.test(english)) expect(words).toMatch(/^(?: \S|[,;:])/);
  });

  it('leave nothing English but what is German too', () => {
    const left = rows.filter(([english, words]) => english === words && !formula.test(english)).map(([one]) => one);
    expect(left.filter((one) => !same.has(one))).toEqual([]);
    expect([...same].filter((one) => german[one] !== one)).toEqual([]);
    const english = /\b(?:the|and|with|which|where|that|than|heels?|toe|sole|film|films|foot|bone|trims?|vet)\b/;
    // What is typed, citations, and names of landmarks and measures stay.
    const typedWords =
      /vet seen|heel down|vet "…"|vet-Zeile|film LF lateral|heel\.medial, heel\.lateral und toe|[a-z0-9]+(?:[./-][a-z0-9]+)+|--[a-z-]+|`[^`]*`|«[^«»]*»|\([^()]*\)/g;
    const mixed = rows.filter(([, words]) => english.test(words.replaceAll(typedWords, ' ')) && !formula.test(words));
    expect(mixed.map(([, words]) => words)).toEqual([]);
  });
});

describe('the glossary', () => {
  const text = readFileSync(join(root, 'l10n', 'glossary.de.md'), 'utf8');
  const terms = [...text.matchAll(/^\| (?!English|---)([^|]+) \| ([^|]+) \|([^|]*)\|$/gm)].map(
    ([, english = '', words = '', not = '']) => ({ english, words, not: not.trim() }),
  );
  const shipped = [...Object.values(german), ...Object.values(table('package.nls.de.json'))].join('\n');

  it('has the words that the translation uses', () => {
    expect(terms.length).toBeGreaterThan(70);
    for (const { words } of terms) {
      const [first = ''] = words.split(/[,;] /);
      // A word is found in its forms too.
      expect([first, shipped.toLowerCase().includes(first.toLowerCase())]).toEqual([first, true]);
    }
  });

  it('names what is not said, and it is said nowhere', () => {
    const unwanted = terms.flatMap(({ not }) => (not === '' ? [] : not.split(', ')));
    expect(unwanted.length).toBeGreaterThan(20);
    expect(unwanted.filter((word) => new RegExp(`(?<!\\p{L})${word}`, 'u').test(shipped))).toEqual([]);
  });

  it.each([
    [/\bpedal bone\b/i, /Hufbein/i],
    [/\bnavicular bone\b/i, /Strahlbein/],
    [/\bcoffin joint\b/i, /Hufgelenk/i],
    [/\bextensor process\b/i, /Strecksehnenfortsatz/],
    [/\blive sole\b/i, /lebende[rn]? Sohle/i],
    [/\bpalmar angle\b/i, /Palmarwinkel/],
    [/\bbearing plane\b/i, /Tragrandebene/],
    [/\bfounder distance\b/i, /Absenkungsabstand/],
    [/\blaminiti[sc]\b|\blaminitic\b/i, /Hufrehe/],
    [/\blandmarks?\b/i, /Messpunkt/],
    [/\bvisits?\b/i, /besuch/i],
    [/\bstandard deviations?\b/i, /Standardabweichung/],
    [/\ba judgement of ours\b/i, /eigene Einschätzung/],
    [/\bcommon practice, no source\b/i, /allgemeine Praxis, ohne Quelle/i],
    [/\bfrom memory\b/i, /aus dem Gedächtnis/],
    [/\bdecision support only\b/i, /nur Entscheidungshilfe/i],
    [/\bcall the vet\b/i, /[Rr]ufen Sie|ruft/],
    [/\bcall the vet now\b/i, /[Rr]ufen Sie jetzt die Tierärztin oder den Tierarzt/],
    [/\bcall the vet today\b/i, /[Rr]ufen Sie heute die Tierärztin oder den Tierarzt/],
    [/\btell the vet\b/i, /[Ss]agen Sie (?:es )?der Tierarztpraxis/],
  ])('of what is said of %s in English, all is said with %s in German', (english, words) => {
    const said = rows.filter(([key]) => english.test(key.replaceAll(/`[^`]*`|«[^«»]*»/g, '')));
    expect(said.length).toBeGreaterThan(0);
    expect(said.filter(([, one]) => !words.test(one))).toEqual([]);
  });
});

describe('the manifest in German', () => {
  it('has each text of the English one, with what is typed and linked', () => {
    const [english, words] = [table('package.nls.json'), table('package.nls.de.json')];
    expect(Object.keys(words)).toEqual(Object.keys(english));
    const kept = (text = '') => (text.match(/`[^`]*`|\(command:[^)]*\)/g) ?? []).sort();
    for (const [key, text] of Object.entries(english)) {
      expect([key, ...kept(words[key])]).toEqual([key, ...kept(text)]);
      expect([key, words[key]]).not.toEqual([key, text]);
    }
    const files = (JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { files: string[] }).files;
    expect(files).toContain('package.nls.de.json');
  });
});
