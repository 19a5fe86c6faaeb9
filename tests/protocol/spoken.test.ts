import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { everyWord } from '../../shared/notation/vocabulary.ts';
import { englishIn, madeUpLanguage, textsOf } from '../unit/made-up-language.ts';
import { wordyCases } from '../unit/wordy-cases.ts';
import { LanguageClient } from './language-client.ts';

const example = (name: string): [string, string] => [
  name,
  readFileSync(join(import.meta.dirname, '..', '..', 'examples', name), 'utf8'),
];

const notation = new Set(Object.values(everyWord()).flat());

/** Words of the notation that a completion offers, and names that it fills in. */
const offered = /^[\w.<>=@+|/°%-]+$/;

it('a client that gives the server a table hears its language: hover, completion, code actions, findings', async () => {
  const client = await LanguageClient.start({ options: { words: madeUpLanguage() } });
  const left = new Set<string>();
  /** The same is said at many places. */
  const clean = new Set<string>();
  const hear = (said: unknown, own: readonly string[]): void => {
    const text = typeof said === 'object' && said !== null && 'value' in said ? said.value : said;
    if (typeof text !== 'string' || offered.test(text) || clean.has(text)) return;
    // A hover begins with the word that it is about.
    const words = englishIn(text.replace(/^\*\*[\w/%-]+\*\*/, ''), own);
    if (words.length > 0) left.add(`${words.join(' ')} | ${text.slice(0, 300)}`);
    else clean.add(text);
  };
  let heard = 0;
  for (const [name, text] of [...wordyCases(), example('juniper.hoof'), example('larch.hoof')]) {
    const uri = `file:///${name}`;
    const own = textsOf(text);
    client.open(uri, text);
    const found = await client.diagnostics(uri);
    for (const { message, relatedInformation = [] } of found) {
      hear(message, own);
      for (const related of relatedInformation) hear(related.message, own);
    }
    const lines = text.split('\n');
    const end = { line: lines.length - 1, character: lines.at(-1)?.length ?? 0 };
    const actions = await client.codeActions(uri, { start: { line: 0, character: 0 }, end }, { diagnostics: found });
    for (const { title } of actions) hear(title, own);
    for (const [line, { length }] of lines.entries()) {
      const first = (lines[line] ?? '').search(/\S/);
      if (first < 0) continue;
      const at = (character: number) => ({ line, character });
      const [hover, atFirst, atEnd] = await Promise.all([
        client.hover(uri, at(first + 1)),
        client.completion(uri, at(first)),
        client.completion(uri, at(length)),
      ]);
      if (hover) hear(hover.contents, own);
      for (const { label, detail, documentation } of [...atFirst, ...atEnd]) {
        heard += 1;
        // A label may be what it writes: words of the notation alone.
        const written = label.split(' ').every((word) => notation.has(word));
        for (const said of [written ? '' : label, detail, documentation]) hear(said, own);
      }
    }
    client.close(uri);
  }
  expect([...left]).toEqual([]);
  expect(heard).toBeGreaterThan(2000);
  await client.stop();
}, 600_000);
