import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { TextDocumentContentChangeEvent } from 'vscode-languageserver';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { LanguageClient } from './language-client.ts';
import { randomChange, seeded } from './random-edits.ts';

let client: LanguageClient;
beforeAll(async () => {
  client = await LanguageClient.start();
});
afterAll(() => client.stop());

const whole =
  readFileSync(join(import.meta.dirname, 'fixtures', 'film.hoof'), 'utf8') +
  readFileSync(join(import.meta.dirname, 'fixtures', 'words.hoof'), 'utf8');

/** What a document of its own, opened with the whole text, gets. */
async function afresh(uri: string, text: string) {
  client.open(uri, text);
  const diagnostics = await client.diagnostics(uri);
  const symbols = await client.symbols(uri);
  client.close(uri);
  return { diagnostics, symbols };
}

it.each([
  ['LF', 1, whole],
  ['CR LF', 2, whole.replace(/\n/g, '\r\n')],
  [
    'mixed ends and astral characters',
    3,
    whole
      .replace(/\n/g, (_, at: number) => (at % 3 === 0 ? '\r' : at % 3 === 1 ? '\n' : '\r\n'))
      .replace(/cob/g, '🐴🐴'),
  ],
])('edits give what opening the whole text gives: %s', async (_, seed, start) => {
  const random = seeded(seed);
  const uri = `file:///edited-${seed}.hoof`;
  let text = start;
  let changed = 0;
  const seen = new Set<string>();
  client.open(uri, text);
  for (let version = 2; version <= 301; version++) {
    const changes: TextDocumentContentChangeEvent[] = [];
    for (let left = 1 + random(3); left > 0; left--) {
      const next = randomChange(text, random);
      changes.push(next.change);
      text = next.text;
      changed += 1;
    }
    client.change(uri, version, changes);
    const related = `file:///whole-${seed}-${version}.hoof`;
    const [edited, fresh] = await Promise.all([client.diagnostics(uri, version), afresh(related, text)]);
    const context = `after version ${version}: ${JSON.stringify(text.slice(0, 300))}`;
    expect(JSON.parse(JSON.stringify(edited).replaceAll(uri, related)), context).toEqual(fresh.diagnostics);
    expect(await client.symbols(uri), context).toEqual(fresh.symbols);
    for (const { code } of edited) seen.add(String(code));
  }
  expect(changed).toBeGreaterThan(400);
  // The edits went through many states, and the text did not wither away.
  expect(seen.size).toBeGreaterThan(15);
  expect(text.length).toBeGreaterThan(start.length / 4);
});
