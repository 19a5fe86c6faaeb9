import { join } from 'node:path';
import { colourWords, longestFirst } from './colour-words.ts';

/** What VS Code, and whatever else reads TextMate grammars, colours a case file by. */
export const GRAMMAR_FILE = join(import.meta.dirname, '..', 'syntaxes', 'hoof.tmLanguage.json');

/** Where a word of the notation ends: `p3.tip` is one word, and so is `mm/px`. */
const LETTER = '[\\p{L}\\p{N}_]';
const BEFORE = `(?<![\\p{L}\\p{N}_./-])`;
const AFTER = `(?!${LETTER}|[./-]${LETTER})`;

function oneOf(words: readonly string[]): string {
  return `(?:${longestFirst(words)
    .map((word) => word.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&'))
    .join('|')})`;
}

/** Oniguruma's blanks are not all of the notation's: a mark of byte order within a line is one there. */
const BLANK = '[\\s\\x{FEFF}]';
const NUMBER = '-?\\d+(?:\\.\\d+)?';

export function grammar(): string {
  const words = colourWords();
  const first = (name: string, of: readonly string[], then = ''): object => ({
    match: `^${BLANK}*(${oneOf(of)})${AFTER}${then}`,
    captures: { 1: { name } },
  });
  const inner = (name: string, of: readonly string[]): object => ({ name, match: `${BEFORE}${oneOf(of)}${AFTER}` });
  const rules = [
    {
      // Plain ink: it is a person's own words.
      name: 'meta.prose.hoof',
      match: `^${BLANK}*(\\|).*$`,
      captures: { 1: { name: 'punctuation.definition.prose.hoof' } },
    },
    {
      name: 'comment.line.number-sign.hoof',
      match: '(#).*$',
      captures: { 1: { name: 'punctuation.definition.comment.hoof' } },
    },
    {
      name: 'string.quoted.double.hoof',
      begin: '"',
      // A text that is left open costs its own line only.
      end: '"|$',
      patterns: [{ name: 'constant.character.escape.hoof', match: '\\\\["\\\\]' }],
    },
    first('keyword.control.block.hoof', words.blocks),
    {
      // A code is text, whatever it looks like.
      match: `^${BLANK}*(${oneOf(words.coded)})${BLANK}+([^\\s"#]+)`,
      captures: { 1: { name: 'variable.other.property.hoof' }, 2: { name: 'string.unquoted.code.hoof' } },
    },
    // A landmark only where it is placed, so that a misspelt one shows by its colour.
    first('entity.name.type.landmark.hoof', words.landmarks, `(?=${BLANK}*@)`),
    first('variable.other.property.hoof', words.statements),
    inner('variable.other.measure.hoof', words.measures),
    inner('constant.language.finding.hoof', words.findings),
    inner('constant.language.foot.hoof', words.feet),
    inner('keyword.operator.word.hoof', words.marks),
    inner('constant.language.hoof', words.choices),
    { name: 'constant.numeric.date.hoof', match: '(?<![\\p{N}.-])\\d{4}-\\d{2}(?:-\\d{2})?(?![\\p{N}.-])' },
    {
      match: `(${NUMBER})${BLANK}*(${oneOf(words.units)})${AFTER}`,
      captures: { 1: { name: 'constant.numeric.hoof' }, 2: { name: 'keyword.other.unit.hoof' } },
    },
    { name: 'constant.numeric.hoof', match: `(?:${BEFORE}|(?<=\\+-))${NUMBER}` },
    { name: 'keyword.operator.hoof', match: '\\+-|±|[<>]=?|[≤≥=@]' },
    { name: 'punctuation.separator.hoof', match: ',|\\.\\.' },
  ];
  return `${JSON.stringify(
    {
      name: 'Hoof case',
      scopeName: 'source.hoof',
      fileTypes: ['hoof'],
      patterns: rules,
    },
    null,
    2,
  )}\n`;
}
