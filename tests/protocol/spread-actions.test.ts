import type { CodeAction } from 'vscode-languageserver';
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { commandLine } from '../../src/cli/command-line.ts';
import { LanguageClient } from './language-client.ts';

const path = new URL('../agreement/three-readers.hoof', import.meta.url);
const uri = path.href;
const text = readFileSync(path, 'utf8');

let client: LanguageClient;
beforeAll(async () => {
  client = await LanguageClient.start({
    capabilities: { textDocument: { codeAction: { disabledSupport: true } } },
  });
  client.open(uri, text);
});
afterAll(() => client.stop());

async function spreadsAt(of: string, line: number): Promise<CodeAction[]> {
  const at = { line, character: 6 };
  const all: CodeAction[] = await client.request('textDocument/codeAction', {
    textDocument: { uri: of },
    range: { start: at, end: at },
    context: { diagnostics: [] },
  });
  return all.filter(({ title }) => title.startsWith('Write the spread'));
}

const lineOf = (words: string, within = text): number => within.split('\n').findIndex((line) => line.includes(words));

it('at a read line the spread of its reader is offered, the one that the command line finds', async () => {
  const [action, ...more] = await spreadsAt(uri, lineOf('read "Rowan"'));
  expect(more).toEqual([]);
  let out = '';
  await commandLine(['agree', path.pathname, '--spread'], { out: (said) => (out += said), err: () => undefined });
  const [, words = '?'] = /^Rowan: (.*); 95 % interval/.exec(out) ?? [];
  expect(action?.title).toBe(`Write the spread found for Rowan into each of their readings here: ${words}`);
  const { changes, documentChanges } = action?.edit ?? {};
  const edits = [
    ...Object.values(changes ?? {}).flat(),
    ...(documentChanges ?? []).flatMap((change) => ('edits' in change ? change.edits : [])),
  ].filter((edit) => 'newText' in edit);
  const lines = [...out.matchAll(/:(\d+): read "Rowan" (\+- [\d.]+)/g)].map(([, line, px]) => [
    Number(line) - 1,
    ` ${px}`,
  ]);
  expect(lines).toHaveLength(12);
  expect(edits.map(({ range, newText }) => [range.start.line, newText])).toEqual(lines);
  // Behind the name, and nothing is taken away.
  for (const { range } of edits) {
    expect(range.start).toEqual(range.end);
    expect(text.split('\n')[range.start.line]?.slice(0, range.start.character)).toBe('    read "Rowan"');
  }
});

it('nothing is offered to who has read nothing again, at another line, or where it stands there already', async () => {
  expect(await spreadsAt(uri, lineOf('read "Ash"'))).toEqual([]);
  expect(await spreadsAt(uri, lineOf('p3.tip'))).toEqual([]);
  const written = text.replaceAll('read "Rowan"', 'read "Rowan" +- 5.1');
  expect(inspect(written).study.films[0]?.readings.at(-1)?.reading.spread).toBe(5.1);
  const other = 'file:///written.hoof';
  client.open(other, written);
  expect(await spreadsAt(other, lineOf('read "Rowan"', written))).toEqual([]);
});

it('too few films read again are told, and nothing is written', async () => {
  const few = 'file:///few.hoof';
  const two = text
    .split(/(?=^visit )/m)
    .slice(0, 3)
    .join('');
  client.open(few, two);
  const [action] = await spreadsAt(few, lineOf('read "Rowan"', two));
  expect(action?.edit).toBeUndefined();
  expect(action?.disabled?.reason).toContain('Too few to be written: it takes 3 films read again');
});
