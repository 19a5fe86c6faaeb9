import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { codes } from '../shared/findings/catalogue.ts';
import { measureNames } from '../shared/measures/registry.ts';
import { everyWord } from '../shared/notation/vocabulary.ts';
import { feet } from '../shared/notation/choices.ts';

/** What the editor colours a case file by, made from the vocabulary so that no word is listed twice. */
export const GRAMMAR_FILE = join(import.meta.dirname, '..', 'syntaxes', 'hoof.tmLanguage.json');

/** Where a word of the notation ends: `p3.tip` is one word, and so is `mm/px`. */
const LETTER = '[\\p{L}\\p{N}_]';
const BEFORE = `(?<![\\p{L}\\p{N}_./-])`;
const AFTER = `(?!${LETTER}|[./-]${LETTER})`;

/** Longest first, since the first alternative that fits is taken. */
function oneOf(words: readonly string[]): string {
  const escaped = words.map((word) => word.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&'));
  return `(?:${escaped.sort((a, b) => b.length - a.length || (a < b ? -1 : 1)).join('|')})`;
}

const NUMBER = '-?\\d+(?:\\.\\d+)?';

export function grammar(): string {
  const words = everyWord();
  const choices = words.choices.filter((word) => word !== 'because' && !(feet as readonly string[]).includes(word));
  const first = (name: string, of: readonly string[], then = ''): object => ({
    match: `^\\s*(${oneOf(of)})${AFTER}${then}`,
    captures: { 1: { name } },
  });
  const inner = (name: string, of: readonly string[]): object => ({ name, match: `${BEFORE}${oneOf(of)}${AFTER}` });
  const rules = [
    {
      // Plain ink: it is a person's own words.
      name: 'meta.prose.hoof',
      match: '^\\s*(\\|).*$',
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
    // A landmark only where it is placed, so that a misspelt one shows by its colour.
    first('entity.name.type.landmark.hoof', words.landmarks, '(?=\\s*@)'),
    first('variable.other.property.hoof', words.statements),
    inner('variable.other.measure.hoof', measureNames()),
    inner(
      'constant.language.finding.hoof',
      codes.map(({ code }) => code),
    ),
    inner('constant.language.foot.hoof', feet),
    inner('keyword.operator.word.hoof', ['because']),
    inner('constant.language.hoof', choices),
    { name: 'constant.numeric.date.hoof', match: '(?<![\\p{N}.-])\\d{4}-\\d{2}(?:-\\d{2})?(?![\\p{N}.-])' },
    {
      match: `(${NUMBER})\\s*(${oneOf(words.units)})${AFTER}`,
      captures: { 1: { name: 'constant.numeric.hoof' }, 2: { name: 'keyword.other.unit.hoof' } },
    },
    { name: 'constant.numeric.hoof', match: `${BEFORE}${NUMBER}` },
    { name: 'keyword.operator.hoof', match: '\\+-|±|\\.\\.|[<>]=?|[≤≥=@]' },
    { name: 'punctuation.separator.hoof', match: ',' },
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

function textOf(file: string): string | null {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    return null;
  }
}

if (import.meta.main) {
  const made = grammar();
  // Left alone where nothing changed, so that a watcher or a build by date sees nothing new.
  if (textOf(GRAMMAR_FILE) !== made) writeFileSync(GRAMMAR_FILE, made);
}
