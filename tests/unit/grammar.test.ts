import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { createRegistry } from 'vscode-tmgrammar-test/dist/common/index.js';
import { GRAMMAR_FILE, grammar } from '../../scripts/grammar.ts';
import { codes } from '../../shared/findings/catalogue.ts';
import { measureNames } from '../../shared/measures/registry.ts';
import { everyWord, findBlock } from '../../shared/notation/vocabulary.ts';

type Grammar = NonNullable<Awaited<ReturnType<ReturnType<typeof createRegistry>['loadGrammar']>>>;

let loaded: Grammar;

beforeAll(async () => {
  const registry = createRegistry([{ path: GRAMMAR_FILE, scopeName: 'source.hoof' }]);
  const found = await registry.loadGrammar('source.hoof');
  if (!found) throw new Error('the grammar does not load');
  loaded = found;
});

/** `word -> the innermost scope, without the language's own ending`, blanks left out. */
function scopes(line: string): string[] {
  return loaded
    .tokenizeLine(line, null)
    .tokens.map(({ startIndex, endIndex, scopes: all }) => ({
      text: line.slice(startIndex, endIndex).trim(),
      scope: all.at(-1) ?? '',
    }))
    .filter(({ text }) => text !== '')
    .map(({ text, scope }) => `${text} -> ${scope.replace(/\.hoof$/, '')}`);
}

const scopeOf = (line: string, word: string): string | undefined =>
  scopes(line)
    .find((one) => one.startsWith(`${word} -> `))
    ?.slice(word.length + 4);

describe('the grammar for colours', () => {
  it('is what the vocabulary makes of it (npm run build writes it)', () => {
    expect(readFileSync(GRAMMAR_FILE, 'utf8')).toBe(grammar());
  });

  it('knows every word where it stands', () => {
    const words = everyWord();
    for (const word of words.blocks)
      expect([word, scopeOf(`  ${word} LF`, word)]).toEqual([word, 'keyword.control.block']);
    for (const word of words.statements)
      expect([word, scopeOf(`    ${word} 3`, word)]).toEqual([word, 'variable.other.property']);
    for (const word of words.landmarks)
      expect([word, scopeOf(`${word} @ 1, 2`, word)]).toEqual([word, 'entity.name.type.landmark']);
    for (const word of words.units)
      expect([word, scopeOf(`weight 3 ${word}`, word)]).toEqual([word, 'keyword.other.unit']);
    for (const word of measureNames())
      expect([word, scopeOf(`expect ${word} 3`, word)]).toEqual([word, 'variable.other.measure']);
    for (const { code } of codes)
      expect([code, scopeOf(`accept ${code} because`, code)]).toEqual([code, 'constant.language.finding']);
  });

  it('colours a header, its foot, its view and its path', () => {
    expect(scopes('  film LF lateral "films/a#b.png" # from the vet')).toEqual([
      'film -> keyword.control.block',
      'LF -> constant.language.foot',
      'lateral -> constant.language',
      '" -> string.quoted.double',
      'films/a#b.png -> string.quoted.double',
      '" -> string.quoted.double',
      '# -> punctuation.definition.comment',
      'from the vet -> comment.line.number-sign',
    ]);
  });

  it('tells a number, its unit and the signs of a scale apart', () => {
    expect(scopes('    scale 100 mm = 1310, 1422.5 .. 2290, 1425')).toEqual([
      'scale -> variable.other.property',
      '100 -> constant.numeric',
      'mm -> keyword.other.unit',
      '= -> keyword.operator',
      '1310 -> constant.numeric',
      ', -> punctuation.separator',
      '1422.5 -> constant.numeric',
      '.. -> punctuation.separator',
      '2290 -> constant.numeric',
      ', -> punctuation.separator',
      '1425 -> constant.numeric',
    ]);
  });

  it('leaves a misspelt landmark without colour', () => {
    expect(scopeOf('    p3.tipp @ 1, 2', 'p3.tipp')).toBe('source');
    expect(scopeOf('    p3.tip @ 1, 2 +- 4', '+-')).toBe('keyword.operator');
  });

  it('takes a line of prose whole, whatever stands in it', () => {
    expect(scopes('  | film LF "half a quote, 8 mm # no comment').slice(1)).toEqual([
      'film LF "half a quote, 8 mm # no comment -> meta.prose',
    ]);
  });

  it('ends an open text with its line', () => {
    const first = loaded.tokenizeLine('  feed "soaked hay', null);
    expect(
      loaded
        .tokenizeLine('  weight 512 kg', first.ruleStack)
        .tokens.some(({ scopes: all }) => all.includes('variable.other.property.hoof')),
    ).toBe(true);
  });

  it('reads a date as one thing, in a header and in a statement', () => {
    expect(scopeOf('visit 2026-03-04 "first"', '2026-03-04')).toBe('constant.numeric.date');
    expect(scopeOf('  foaled 2013-05', '2013-05')).toBe('constant.numeric.date');
  });
});

describe('how the editor handles the language', () => {
  const configuration = JSON.parse(readFileSync(new URL('../../language-configuration.json', import.meta.url), 'utf8'));

  it('indents after the header of each block that holds lines', () => {
    const increase = new RegExp(configuration.indentationRules.increaseIndentPattern);
    for (const word of everyWord().blocks)
      expect([word, increase.test(`  ${word} LF`)]).toEqual([word, word !== 'hoof']);
    expect(increase.test('  filmed LF')).toBe(false);
  });

  it('comes back out at the words of the outermost level', () => {
    const decrease = new RegExp(configuration.indentationRules.decreaseIndentPattern);
    for (const word of everyWord().blocks)
      expect([word, decrease.test(`  ${word} x`)]).toEqual([word, findBlock(word)?.level === 0]);
  });

  it('takes p3.tip, horn-lamellar.upper and mm/px each for one word', () => {
    const { pattern, flags } = configuration.wordPattern;
    const words = 'p3.tip horn-lamellar.upper 0.5 mm/px'.match(new RegExp(pattern, `g${flags}`));
    expect(words).toEqual(['p3.tip', 'horn-lamellar.upper', '0.5', 'mm/px']);
  });
});
