import { readFileSync } from 'node:fs';
import { createHighlighterCore } from '@shikijs/core';
import { createJavaScriptRegexEngine } from '@shikijs/engine-javascript';
import hljs from 'highlight.js/lib/core';
import { Parser } from 'htmlparser2';
import { beforeAll, describe, expect, it } from 'vitest';
import { colourFiles } from '../../scripts/colours.ts';
import { GRAMMAR_FILE } from '../../scripts/grammar.ts';
import { HIGHLIGHT_FILE } from '../../scripts/highlight-language.ts';
import { differences, editedTexts, examples, isKnown, linesOf, productColours } from '../colours/product-colours.ts';

/**
 * What colours a case without a server, held against the colours that the server gives: on every example, and on a thousand edited
 * texts. Vim and Neovim: `tests/host/vim.ts`.
 */

/** How many edited texts are tried for each. */
const edited = Number(process.env['UNGULA_COLOURED'] ?? 1000);

/** The colour of each character of each line, in the server's words. */
type Highlighter = (text: string) => readonly (readonly (string | null)[])[];

/** The server's word for a scope of the grammar; null for punctuation and for plain ink. */
const ofScope: readonly (readonly [string, string | null])[] = [
  ['keyword.control.block', 'keyword'],
  ['keyword.other.unit', 'keyword'],
  ['keyword.operator', 'operator'],
  ['variable.other.property', 'property'],
  ['variable.other.measure', 'variable'],
  ['entity.name.type.landmark', 'type'],
  ['constant.language', 'enumMember'],
  ['constant.numeric', 'number'],
  ['constant.character.escape', 'string'],
  ['string', 'string'],
  ['comment', 'comment'],
  ['punctuation.definition.comment', 'comment'],
  ['punctuation', null],
  ['meta.prose', null],
  ['source', null],
];

const typeOfScope = (scope = ''): string | null => {
  const found = ofScope.find(([begins]) => scope.startsWith(begins));
  if (!found) throw new Error(`no word for the scope ${scope}`);
  return found[1];
};

async function shiki(): Promise<Highlighter> {
  const grammar = JSON.parse(readFileSync(GRAMMAR_FILE, 'utf8')) as object;
  const core = await createHighlighterCore({
    themes: [{ name: 'plain', type: 'light', settings: [{ settings: { foreground: '#000000' } }] }],
    langs: [{ ...grammar, name: 'hoof' } as never],
    engine: createJavaScriptRegexEngine(),
  });
  return (text) =>
    core
      .codeToTokens(linesOf(text).join('\n'), { lang: 'hoof', theme: 'plain', includeExplanation: 'scopeName' })
      .tokens.map((line) =>
        line.flatMap(({ explanation = [] }) =>
          explanation.flatMap(({ content, scopes }) =>
            Array.from({ length: content.length }, () => typeOfScope(scopes.at(-1)?.scopeName)),
          ),
        ),
      );
}

/** The server's word for a scope of highlight.js. */
const ofClass: Readonly<Record<string, string | null>> = {
  'hljs-keyword': 'keyword',
  'hljs-property': 'property',
  'hljs-type': 'type',
  'hljs-variable': 'variable',
  'hljs-literal': 'enumMember',
  'hljs-operator': 'operator',
  'hljs-number': 'number',
  'hljs-string': 'string',
  'hljs-comment': 'comment',
  'hljs-punctuation': null,
};

async function highlightJs(): Promise<Highlighter> {
  const { default: hoof } = (await import(HIGHLIGHT_FILE)) as { default: () => never };
  hljs.registerLanguage('hoof', hoof);
  return (text) => {
    const lines: (string | null)[][] = [[]];
    const open: (string | null)[] = [];
    const parser = new Parser(
      {
        onopentag: (_, { class: name = '' }) => {
          if (!Object.hasOwn(ofClass, name)) throw new Error(`no word for the class ${name}`);
          open.push(ofClass[name] ?? null);
        },
        onclosetag: () => open.pop(),
        ontext: (piece) => {
          for (const unit of piece.split(''))
            if (unit === '\n') lines.push([]);
            else lines.at(-1)?.push(open.at(-1) ?? null);
        },
      },
      { decodeEntities: true },
    );
    parser.end(hljs.highlight(linesOf(text).join('\n'), { language: 'hoof', ignoreIllegals: false }).value);
    return lines;
  };
}

/** How many tokens of the server were compared, and each difference with its line. */
function compared(highlight: Highlighter, text: string): { tokens: number; found: string[] } {
  const types = highlight(text);
  const lines = linesOf(text);
  // Nothing is lost or added.
  expect(types.map((line) => line.length)).toEqual(lines.map((line) => line.length));
  let tokens = 0;
  const found: string[] = [];
  for (const [number, coloured] of productColours(text)) {
    const line = lines[number] ?? '';
    tokens += coloured.length;
    for (const one of differences(line, coloured, (column) => types[number]?.[column] ?? null, isKnown))
      found.push(`${JSON.stringify(line)} ${one}`);
  }
  return { tokens, found };
}

it('what colours without a server is what the vocabulary makes of it (npm run build writes it)', () => {
  for (const [path, text] of colourFiles()) expect([path, readFileSync(path, 'utf8') === text]).toEqual([path, true]);
});

describe.each([
  ['the grammar in Shiki', shiki],
  ['the language for highlight.js', highlightJs],
])('%s', (_, make) => {
  let highlight: Highlighter;
  beforeAll(async () => {
    highlight = await make();
  });

  it.each([...examples.keys()])('colours %s as the server does', (name) => {
    const { tokens, found } = compared(highlight, examples.get(name) ?? '');
    expect(found).toEqual([]);
    expect(tokens).toBeGreaterThan(50);
  });

  it(`colours ${edited} edited texts as the server does, but for misspelt words that it reads`, () => {
    let [texts, tokens] = [0, 0];
    const all = new Set<string>();
    for (const text of editedTexts(edited, 20261129)) {
      const { tokens: more, found } = compared(highlight, text);
      tokens += more;
      texts += 1;
      for (const one of found) all.add(one);
    }
    expect([...all]).toEqual([]);
    expect(texts).toBe(edited);
    expect(tokens).toBeGreaterThan(100 * edited);
  }, 300_000);

  it('takes a wrong colour for a difference', () => {
    const wrong: Highlighter = (text) =>
      highlight(text).map((line) => line.map((type) => (type === 'type' ? 'keyword' : type)));
    const { found } = compared(wrong, examples.get('juniper.hoof') ?? '');
    expect(found.length).toBeGreaterThan(50);
  });
});
