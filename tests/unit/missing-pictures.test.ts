import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import type { Files } from '../../server/serving/files.ts';
import { MissingPictures } from '../../server/serving/missing-pictures.ts';
import { jsonShapes } from '../../shared/export/json-shapes.ts';
import { commandLine } from '../../src/cli/command-line.ts';

const document = TextDocument.create('file:///case/a.hoof', 'hoof', 1, '');

/** A book on a disk that holds these files. */
function book(there: Set<string>, reach: 'yes' | 'no' | 'unknown' = 'yes') {
  const asked: string[] = [];
  const told = { news: 0 };
  const files: Files = {
    readBytes: () => Promise.resolve(null),
    listFolder: () => Promise.resolve(null),
    storedScale: () => Promise.reject(new Error('nothing of a picture is read')),
    stampOf: () => Promise.resolve(null),
    isThere(uri) {
      asked.push(uri);
      if (reach === 'no') return Promise.reject(new Error('out of reach'));
      return Promise.resolve(reach === 'unknown' ? null : uri === document.uri || there.has(uri));
    },
  };
  const missing = new MissingPictures(
    () => files,
    () => [],
    () => void (told.news += 1),
  );
  const isMissing = (path: string, of = document): boolean | string => missing.of(of)(path);
  return { missing, isMissing, asked, told };
}

const aTurn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 5));

describe('pictures that are not there', () => {
  it('are told at once where the path itself leads to none', () => {
    const { isMissing, asked } = book(new Set());
    expect(isMissing('../../elsewhere/x.png')).toBe('outside');
    expect(isMissing('/home/x.png')).toBe('absolute');
    expect(isMissing('x.heic')).toBe('unknown kind');
    expect(isMissing('https://example.org/x.png')).toBe('elsewhere');
    // Of what is shown from elsewhere the folders are not known.
    expect(isMissing('../../elsewhere/x.png', TextDocument.create('git:///case/a.hoof', 'hoof', 1, ''))).toBe(false);
    expect(asked).toEqual([]);
  });

  it('are told as soon as somebody has looked, and no more once they have come', async () => {
    const there = new Set<string>();
    const { missing, isMissing, told, asked } = book(there);
    expect(isMissing('x.png')).toBe(false);
    await aTurn();
    expect([isMissing('x.png'), told.news]).toEqual([true, 1]);
    there.add('file:///case/x.png');
    missing.forget(['file:///case/x.png']);
    expect(told.news).toBe(2);
    expect(isMissing('x.png')).toBe(false);
    await aTurn();
    expect([isMissing('x.png'), told.news]).toEqual([false, 2]);
    // The case itself was looked for once, as the picture was not there.
    expect(asked.filter((uri) => uri === document.uri)).toHaveLength(1);
    // Gone with its folder.
    there.clear();
    missing.forget(['file:///case']);
    isMissing('x.png');
    await aTurn();
    expect(isMissing('x.png')).toBe(true);
  });

  it('are none where nobody can look, and of a case that was never saved; nothing is looked for by a path that the policy refuses', async () => {
    const other = TextDocument.create('untitled:Untitled-1', 'hoof', 1, '');
    for (const reach of ['no', 'unknown'] as const) {
      const { isMissing, told } = book(new Set(), reach);
      isMissing('x.png');
      await aTurn();
      expect([isMissing('x.png'), told.news]).toEqual([false, 0]);
    }
    const { isMissing, asked } = book(new Set());
    const shown = TextDocument.create('file:///older/a.hoof', 'hoof', 1, '');
    isMissing('x.png', shown);
    await aTurn();
    // It is itself no file: nothing lies beside it.
    expect(isMissing('x.png', shown)).toBe(false);
    asked.length = 0;
    for (const path of ['../../etc/x.png', '/etc/x.png', 'http://a/x.png', '']) isMissing(path);
    isMissing('x.png', other);
    await aTurn();
    expect(asked).toEqual([]);
  });

  it('of a file that is not open are learnt, without news', async () => {
    const { missing, told } = book(new Set());
    await missing.learn(document, 'x.png');
    expect(missing.of(document, { look: false })('x.png')).toBe(true);
    expect(told.news).toBe(0);
  });

  it('are looked for again a moment after the text has changed, where no client tells of files', async () => {
    vi.useFakeTimers();
    try {
      const there = new Set<string>();
      const { missing, isMissing, told } = book(there);
      isMissing('x.png');
      await vi.advanceTimersByTimeAsync(1);
      expect(isMissing('x.png')).toBe(true);
      there.add('file:///case/x.png');
      missing.lookAgainSoon(document);
      await vi.advanceTimersByTimeAsync(2000);
      expect([isMissing('x.png'), told.news]).toEqual([false, 2]);
    } finally {
      vi.useRealTimers();
    }
  });
});

describe('ungula check', () => {
  let folder = '';
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'ungula-missing-'));
    writeFileSync(join(folder, 'there.png'), '');
    const films = ['film LF lateral "there.png"', 'film RF lateral "gone.png"', 'photo LF solar "../out.png"'];
    mkdirSync(join(folder, 'films'));
    const text = [...films, 'film LF venogram "gone too.png"', 'film LH lateral "films"']
      .map((line) => `  ${line}`)
      .join('\n');
    writeFileSync(join(folder, 'a.hoof'), `hoof 1\n\nvisit 2026-03-04\n${text}\n`);
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('tells of each picture that is not there at its path, as a warning', async () => {
    let out = '';
    await commandLine(['check', join(folder, 'a.hoof'), '--format', 'json'], {
      out: (text) => (out += text),
      err: () => {},
    });
    const { findings } = jsonShapes.check.parse(JSON.parse(out));
    const told = findings.filter(({ code }) => code === 'picture/missing');
    expect(told.map(({ line, column, severity }) => [line, column, severity])).toEqual([
      [5, 19, 'warning'],
      [6, 18, 'warning'],
      [7, 20, 'warning'],
      [8, 19, 'warning'],
    ]);
    expect(told[0]?.message).toBe(
      'gone.png is not there. Put the picture at that path, counted from the case file’s folder.',
    );
    expect(told[1]?.message).toMatch(/^\.\.\/out\.png leads out of the folders that pictures of this case may be in\./);
    expect(told[3]?.message).toBe('films is a folder, not a picture. Write the path of a picture in it.');
  });
});
