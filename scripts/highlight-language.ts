import { join } from 'node:path';
import { colourWords, longestFirst } from './colour-words.ts';

/** A language for highlight.js 11, as a module that gives the function which it registers. */
export const HIGHLIGHT_FILE = join(import.meta.dirname, '..', 'syntaxes', 'hoof.highlight.js');

const LETTER = '[\\p{L}\\p{N}_]';
const BEFORE = '(?<![\\p{L}\\p{N}_./-])';
const AFTER = `(?!${LETTER}|[./-]${LETTER})`;
/** Of the notation's lines and no others: `^` would begin one after U+2028 too. */
const LINE_START = '(?<![^\\n\\r])[^\\S\\n\\r]*';
const NUMBER = '-?\\d+(?:\\.\\d+)?';

const oneOf = (words: readonly string[]): string =>
  `(?:${longestFirst(words)
    .map((word) => word.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&'))
    .join('|')})`;

export function highlightLanguage(): string {
  const words = colourWords();
  const first = (scope: string, of: readonly string[], then = ''): object => ({
    begin: [LINE_START, `${oneOf(of)}${AFTER}${then}`],
    beginScope: { 2: scope },
  });
  const inner = (scope: string, of: readonly string[]): object => ({ scope, match: `${BEFORE}${oneOf(of)}${AFTER}` });
  const contains = [
    // A person's own words stay plain; the mark alone has a colour.
    { begin: [LINE_START, '\\|', '[^\\n\\r]*'], beginScope: { 2: 'punctuation' } },
    { scope: 'comment', match: '#[^\\n\\r]*' },
    // A text that is left open costs its own line only.
    { scope: 'string', match: '"(?:\\\\["\\\\]|[^"\\n\\r])*"?' },
    first('keyword', words.blocks),
    {
      begin: [LINE_START, oneOf(words.coded), '[^\\S\\n\\r]+', '[^\\s"#]+'],
      beginScope: { 2: 'property', 4: 'string' },
    },
    first('type', words.landmarks, '(?=[^\\S\\n\\r]*@)'),
    first('property', words.statements),
    inner('variable', words.measures),
    inner('literal', [...words.findings]),
    inner('literal', words.feet),
    inner('operator', words.marks),
    inner('literal', words.choices),
    { scope: 'number', match: '(?<![\\p{N}.-])\\d{4}-\\d{2}(?:-\\d{2})?(?![\\p{N}.-])' },
    { begin: [NUMBER, '[^\\S\\n\\r]*', `${oneOf(words.units)}${AFTER}`], beginScope: { 1: 'number', 3: 'keyword' } },
    { scope: 'number', match: `(?:${BEFORE}|(?<=\\+-))${NUMBER}` },
    { scope: 'operator', match: '\\+-|±|[<>]=?|[≤≥=@]' },
    { scope: 'punctuation', match: ',|\\.\\.' },
  ];
  const language = { name: 'Hoof case', aliases: ['hoof'], unicodeRegex: true, disableAutodetect: true, contains };
  return `// Made by scripts/colours.ts from the vocabulary. For highlight.js 11: hljs.registerLanguage('hoof', hoof).
export default function hoof() {
  return ${JSON.stringify(language, null, 2).split('\n').join('\n  ')};
}
`;
}
