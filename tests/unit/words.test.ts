import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { bundleText, isSaid, saidIn, speakingFiles, treeOf, walk, WORDS_FILE, type Node } from '../../scripts/words.ts';
import { t, useWords } from '../../shared/language/words.ts';

const root = join(import.meta.dirname, '..', '..');
const read = (name: string): string => readFileSync(join(root, name), 'utf8');

describe('a sentence in the language of the editor', () => {
  afterEach(() => useWords(undefined));

  it('is English where there is no other, with its values in place', () => {
    expect(t('{0} is not {1}, {0}', 'a', 2)).toBe('a is not 2, a');
    expect(t('{0} {1} {7}', '{1}', '$&')).toBe('{1} $& {7}');
  });

  it('is the table’s, in which the values may stand elsewhere; nothing is taken from what every object has', () => {
    useWords({ '{0} of {1}': '{1}: {0}' });
    expect(t('{0} of {1}', 'Plan', 'May')).toBe('May: Plan');
    expect(t('toString')).toBe('toString');
    expect(t('__proto__')).toBe('__proto__');
  });
});

describe('what is to be translated', () => {
  it('stands in one file, as the code has it (npm run docs writes it)', async () => {
    const text = await bundleText();
    expect(readFileSync(WORDS_FILE, 'utf8')).toBe(text);
    expect(Object.keys(JSON.parse(text)).length).toBeGreaterThan(100);
  });

  it('is written where it is said: each `t` begins with its English', () => {
    expect(speakingFiles().filter((file) => saidIn(file).includes(null))).toEqual([]);
  });

  it('of the manifest stands in package.nls.json, every key used and every use there', () => {
    const keys = [...read('package.json').matchAll(/"%([\w.]+)%"/g)].map(([, key]) => key);
    expect(keys.toSorted()).toEqual(Object.keys(JSON.parse(read('package.nls.json'))).sort());
    expect(read('package.json')).not.toMatch(/"(?:markdownDescription|description|title)": "(?!%|Ungula")/);
    const { l10n, files } = JSON.parse(read('package.json'));
    expect(existsSync(join(root, l10n, 'bundle.l10n.json'))).toBe(true);
    // What a translation begins from is of no use in an editor, which has the English anyway.
    const languages = readdirSync(join(root, l10n)).filter(
      (name) => /^bundle\.l10n\..+\.json$/.test(name) && name !== 'bundle.l10n.json',
    );
    expect(files).toEqual(expect.arrayContaining(['package.nls.json', ...languages.map((name) => `l10n/${name}`)]));
  });
});

const attributes = /^(?:aria-label|aria-description|aria-valuetext|title|label|alt|placeholder|data-label)$/;
/** A sentence, or a word with a capital that others follow; code has none of those. */
const sentence = /^\p{Lu}\p{Ll}+[ ,:].*\p{L}|\p{L}\p{Ll}+ \p{Ll}+ .*\p{Ll}/su;

/** What code says to code in words. */
const codeWords = new Set(['as it is', 'rotation and sole']);

/** Words for a person that do not go through `t`. */
function bypassing(tree: Node): string[] {
  const found: string[] = [];
  walk(tree, (node, above) => {
    const holder = above.at(-1);
    const inside = (type: string): Node | undefined => above.findLast((one) => one.type === type);
    if (above.some(isSaid) || inside('ImportDeclaration') || inside('ThrowStatement')) return;
    const attribute = String((inside('JSXAttribute')?.['name'] as Node | undefined)?.['name'] ?? '');
    const text =
      node.type === 'JSXText' || (node.type === 'Literal' && typeof node['value'] === 'string')
        ? String(node['value'])
        : node.type === 'TemplateElement'
          ? String((node['value'] as { cooked: string }).cooked)
          : null;
    if (text === null || !/\p{L}/u.test(text) || codeWords.has(text)) return;
    const shown =
      node.type === 'JSXText' ||
      (attributes.test(attribute) && (holder?.type === 'JSXAttribute' || / /.test(text))) ||
      (attribute === '' && sentence.test(text.trim()));
    if (shown) found.push(text.trim().slice(0, 80));
  });
  return found;
}

describe('no sentence goes past the one place', () => {
  const files = speakingFiles().filter((file) => /^src.(?:extension|preview)/.test(file));

  it.each(files)('%s', (file) => {
    expect(bypassing(treeOf(file))).toEqual([]);
  });

  it('sees one that does', () => {
    const tree = treeOf('tests/unit/bypassing-words.tsx');
    expect(bypassing(tree).toSorted()).toEqual([
      'Heel down',
      'Layers',
      'Save it again',
      'The foot does not turn.',
      'is not there',
    ]);
  });
});
