import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { CodeAction, TextDocumentEdit } from 'vscode-languageserver';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { caseText, filmText, soundFoot } from '../unit/plain-foot.ts';
import { LanguageClient } from './language-client.ts';
import { randomChange, seeded } from './random-edits.ts';
import { applied, offsetAt } from './text-positions.ts';

let client: LanguageClient;
let count = 0;
beforeAll(async () => {
  client = await LanguageClient.start();
});
afterAll(() => client.stop());

const nowhere = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };
const fixture = (name: string): string => readFileSync(join(import.meta.dirname, 'fixtures', name), 'utf8');

async function actions(uri: string, only?: string[]): Promise<CodeAction[]> {
  const context = only ? { diagnostics: [], only } : { diagnostics: [] };
  return (await client.codeActions(uri, nowhere, context)).filter(({ kind }) => kind?.startsWith('source'));
}

/** The text with everything mended; edits of one action must not touch one another, or clients refuse them. */
async function mended(text: string): Promise<string> {
  const uri = `file:///all-${(count += 1)}.hoof`;
  client.open(uri, text);
  const [action, ...more] = await actions(uri, ['source.fixAll']);
  client.close(uri);
  expect(more).toEqual([]);
  const [change] = (action?.edit?.documentChanges ?? []) as TextDocumentEdit[];
  const edits = (change?.edits ?? []) as Parameters<typeof applied>[1];
  const spans = edits
    .map(({ range }) => [offsetAt(text, range.start), offsetAt(text, range.end)] as const)
    .toSorted(([a], [b]) => a - b);
  for (const [index, [start]] of spans.entries()) {
    const before = spans[index - 1];
    if (before) expect(start >= before[1] && start > before[0], text).toBe(true);
  }
  return applied(text, edits);
}

const single = (text: string) =>
  inspect(text).findings.filter(
    ({ fixes, code }) => fixes.length === 1 && /^(?:notation|record|measure|limits)\//.test(code),
  );

describe('source.fixAll', () => {
  it.each(['\n', '\r\n'])('mends everything that can be mended in one way only, lines ending in %j', async (end) => {
    const text = `case "A 🐴"
  breed cob
  foaled 2013-5
visit 4.3.2026
  wieght 512 kg
  weight 500
  condition 6,5
  girth 190 cm
  girth 191 cm
  film LF lateral "films\\a.png"
`.replace(/\n/g, end);
    expect(await mended(text)).toBe(
      `hoof 1

case "A 🐴"
  breed "cob"
  foaled 2013-05
visit 2026-03-04
  weight 512 kg
  weight 500
  condition 6.5
  girth 190 cm
  film LF lateral "films/a.png"
`.replace(/\n/g, end),
    );
  });

  it('leaves nothing that has one way out, on whatever text, once it has been asked often enough', async () => {
    let before = 0;
    for (const name of ['words.hoof', 'names.hoof', 'film.hoof', 'no-version.hoof']) {
      let text = fixture(name);
      before += single(text).length;
      // What is mended may show the next mistake of its line.
      for (let round = 0; round < 3; round++) text = await mended(text);
      // What is left, if anything, is a fix that writes what stands there.
      for (const { edits } of single(text).flatMap(({ fixes }) => fixes))
        for (const { start, end, text: put } of edits) expect(text.slice(start, end), name).toBe(put);
      expect(await mended(text), name).toBe(text);
    }
    expect(before).toBeGreaterThan(10);
  });

  it('never gives edits that meet, whatever is in the file', async () => {
    const random = seeded(9);
    let text = fixture('words.hoof') + fixture('film.hoof');
    let changed = 0;
    for (let step = 0; step < 150; step++) {
      text = randomChange(text, random).text;
      if ((await mended(text)) !== text) changed += 1;
    }
    expect(changed).toBeGreaterThan(100);
  });

  it('never changes what is to be cut or was cut', async () => {
    const text = fixture('film.hoof');
    expect(inspect(text).findings.some(({ code, fixes }) => code.startsWith('trim/') && fixes.length === 1)).toBe(true);
    expect(await mended(text)).toContain('heel down 20 mm');
  });

  it('never decides which of two points is which, nor when to come back', async () => {
    const exchanged = caseText(filmText({ 'p3.tip': soundFoot['p3.wing'], 'p3.wing': soundFoot['p3.tip'] }));
    const late = caseText(`${filmText({ 'sole.tip': [0, 12] })}\n\n  next 8 weeks`);
    for (const [text, code] of [
      [exchanged, 'landmark/order'],
      [late, 'visit/interval'],
    ] as const) {
      expect(inspect(text).findings.find((finding) => finding.code === code)?.fixes).toHaveLength(1);
      expect(await mended(text)).toBe(text);
    }
  });

  it('is offered only where it is asked for, and only where there is something to mend', async () => {
    const uri = 'file:///offered.hoof';
    client.open(uri, 'hoof 1\nvisit 2026-03-04\n  wieght 512 kg\n');
    expect(await actions(uri)).toEqual([]);
    for (const only of ['quickfix', 'refactor', 'source.organizeImports', 'source.fix', 'source.fixAll.other'])
      expect(await actions(uri, [only]), only).toEqual([]);
    for (const only of ['source', 'source.fixAll', 'source.fixAll.ungula'])
      expect(
        (await actions(uri, [only])).map(({ kind }) => kind),
        only,
      ).toEqual(['source.fixAll.ungula']);
    client.change(uri, 2, [{ text: 'hoof 1\nvisit 2026-03-04\n  weight 512\n' }]);
    expect(await actions(uri, ['source.fixAll'])).toEqual([]);
  });
});
