import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { CompletionItem, CompletionList, TextEdit } from 'vscode-languageserver';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { LanguageClient } from './language-client.ts';
import { applied, cursorIn } from './text-positions.ts';

let client: LanguageClient;
let root = '';
let count = 0;

beforeAll(async () => {
  root = mkdtempSync(join(tmpdir(), 'ungula-paths-'));
  const files = [
    'open/cases/films/lf-2026-03-04.png',
    'open/cases/films/lf-2026-03-31.png',
    'open/cases/films/lf-9.jpeg',
    'open/cases/films/lf-10.jpeg',
    'open/cases/films/right fore "ä".PNG',
    'open/cases/films/IM00017',
    'open/cases/films/notes.txt',
    'open/cases/films/README',
    'open/cases/films/.hidden.png',
    'open/cases/films/deeper/x.tif',
    'open/cases/beside.webp',
    'open/cases/a:b.png',
    'open/shared/s.dcm',
    'closed/c.png',
  ];
  for (const file of files) {
    mkdirSync(join(root, file, '..'), { recursive: true });
    writeFileSync(join(root, file), 'x');
  }
  symlinkSync(join(root, 'closed'), join(root, 'open', 'cases', 'way-out'));
  client = await LanguageClient.start({ folder: pathToFileURL(join(root, 'open')).href });
});
afterAll(async () => {
  await client.stop();
  rmSync(root, { recursive: true, force: true });
});

interface Offered {
  readonly list: CompletionList;
  readonly labels: readonly string[];
  becomes(label: string): string | undefined;
}

async function offers(marked: string, from = client, folder = 'open/cases'): Promise<Offered> {
  const { text, position } = cursorIn(`hoof 1\n\nvisit 2026-03-04\n${marked}`);
  const uri = pathToFileURL(join(root, folder, `case-${(count += 1)}.hoof`)).href;
  from.open(uri, text);
  const list = await from.request<CompletionList>('textDocument/completion', { textDocument: { uri }, position });
  from.close(uri);
  const sorted = list.items.toSorted((a, b) => ((a.sortText ?? '') < (b.sortText ?? '') ? -1 : 1));
  const find = (label: string): CompletionItem | undefined => sorted.find((item) => item.label === label);
  return {
    list,
    labels: sorted.map(({ label }) => label),
    becomes: (label) => {
      const item = find(label);
      return (
        item &&
        applied(text, [item.textEdit as TextEdit])
          .split('\n')
          .at(-1)
      );
    },
  };
}

describe('completion in the path of a picture', () => {
  it('offers what stands beside the case file, pictures before folders', async () => {
    const { list, labels, becomes } = await offers('  film LF lateral "¦"');
    expect(labels).toEqual(['beside.webp', 'films/']);
    expect(becomes('films/')).toBe('  film LF lateral "films/"');
    // Another folder has other names in it, so the client asks again.
    expect(list.isIncomplete).toBe(true);
  });

  it('goes on folder by folder, the latest name first, numbers counted as numbers', async () => {
    const { labels, becomes } = await offers('  photo RF solar "films/¦"');
    expect(labels).toEqual([
      'right fore "ä".PNG',
      'lf-2026-03-31.png',
      'lf-2026-03-04.png',
      'lf-10.jpeg',
      'lf-9.jpeg',
      'IM00017',
      'deeper/',
    ]);
    expect(becomes('IM00017')).toBe('  photo RF solar "films/IM00017"');
    expect(becomes('right fore "ä".PNG')).toBe('  photo RF solar "films/right fore \\"ä\\".PNG"');
    expect((await offers('  film LF lateral "films/deeper/¦"')).labels).toEqual(['x.tif']);
  });

  it('replaces exactly what stands between the quotes, and filters by what stands before the cursor', async () => {
    const { list, becomes } = await offers('  film LF lateral "films/lf¦-old.png" # 🐴 "remark"');
    expect(becomes('lf-2026-03-04.png')).toBe('  film LF lateral "films/lf-2026-03-04.png" # 🐴 "remark"');
    for (const { filterText } of list.items) expect(filterText).toMatch(/^films\//);
    const open = await offers('  film LF lateral "films/¦');
    expect(open.becomes('lf-9.jpeg')).toBe('  film LF lateral "films/lf-9.jpeg');
  });

  it('offers last what the file names already, but not for its own line', async () => {
    const marked =
      '  film LF lateral "films/lf-2026-03-31.png"\n  film RF lateral "./films/lf-10.jpeg"\n  film LH lateral "films/¦lf-9.jpeg"';
    const { list, labels } = await offers(marked);
    expect(labels.slice(-2)).toEqual(['lf-2026-03-31.png', 'lf-10.jpeg']);
    expect(labels.indexOf('lf-9.jpeg')).toBeLessThan(labels.indexOf('deeper/'));
    expect(list.items.filter(({ detail }) => detail === 'in this file already').map(({ label }) => label)).toEqual(
      labels.slice(-2),
    );
  });

  it('climbs within the open folder and never out of it, and follows no link', async () => {
    expect((await offers('  film LF lateral "../shared/¦"')).labels).toEqual(['s.dcm']);
    expect((await offers('  film LF lateral "../¦"')).labels).toEqual(['cases/', 'shared/']);
    expect((await offers('  film LF lateral "../../closed/¦"')).labels).toEqual([]);
    expect((await offers('  film LF lateral "../../¦"')).labels).toEqual([]);
    expect((await offers('  film LF lateral "¦"')).labels).not.toContain('way-out/');
  });

  it('is bounded by the folder of the case where that lies in no open one', async () => {
    const alone = await LanguageClient.start();
    expect((await offers('  film LF lateral "films/deeper/¦"', alone)).labels).toEqual(['x.tif']);
    expect((await offers('  film LF lateral "../¦"', alone)).labels).toEqual([]);
    await alone.stop();
  });

  it('has nothing for paths that are none, and for other texts', async () => {
    for (const path of ['/etc/¦', 'file:///etc/¦', 'films\\¦', 'nowhere/¦', 'films/notes.txt/¦', 'http://x/¦'])
      expect([path, (await offers(`  film LF lateral "${path}"`)).labels]).toEqual([path, []]);
    for (const line of ['  feed "¦"', '  film LF "¦"', '  # film LF lateral "¦"', '  | film LF lateral "¦"'])
      expect([line, (await offers(line)).labels]).toEqual([line, []]);
    const { text, position } = cursorIn('visit 2026-03-04\n  film LF lateral "¦"');
    client.open('untitled:one', text);
    expect(await client.completion('untitled:one', position)).toEqual([]);
  });

  it('asks the client to go on after a folder only where the client has named a command for that', async () => {
    expect((await offers('  film LF lateral "¦"')).list.items.some(({ command }) => command)).toBe(false);
    const vs = await LanguageClient.start({ options: { suggestAgain: 'suggest.again' } });
    const { list } = await offers('  film LF lateral "¦"', vs);
    expect(list.items.map(({ label, command }) => [label, command?.command])).toEqual([
      ['beside.webp', undefined],
      ['films/', 'suggest.again'],
    ]);
    await vs.stop();
  });

  it('answers after it was cancelled with the error that says so, and goes on', async () => {
    const { text, position } = cursorIn('visit 2026-03-04\n  film LF lateral "films/¦"');
    const uri = pathToFileURL(join(root, 'open/cases/cancelled.hoof')).href;
    client.open(uri, text);
    const asked = client.cancelled('textDocument/completion', { textDocument: { uri }, position });
    // Whichever is first: cancelled (-32800), or answered before the word came.
    const outcome = await asked.then(
      (list) => (list as CompletionList).items.length,
      (error: { code: number }) => error.code,
    );
    expect([-32800, 7]).toContain(outcome);
    expect(await client.completion(uri, position)).toHaveLength(7);
  });
});
