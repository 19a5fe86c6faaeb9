import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { counted, t, useWords } from '../../shared/language/words.ts';
import { spoken, spokenRows } from '../../shared/language/rows.ts';
import { spokenLanguage } from '../../src/cli/language.ts';

const folder = mkdtempSync(join(tmpdir(), 'ungula-language-'));
writeFileSync(join(folder, 'bundle.l10n.qaa.json'), '{"Hoof":"Fooh"}');
writeFileSync(join(folder, 'bundle.l10n.qab-xy.json'), '{"Hoof":"Oohf"}');
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const asked = (argv: string[], environment = {}) => spokenLanguage(argv, environment, [folder]);

describe('the language of the command line', () => {
  it('is that of the option, which is taken out of the arguments', async () => {
    const fooh = { words: { Hoof: 'Fooh' }, language: 'qaa' };
    expect(await asked(['--language', 'qaa', 'check', 'a'])).toEqual({ argv: ['check', 'a'], ...fooh });
    expect(await asked(['check', 'a', '--language=qaa'])).toEqual({ argv: ['check', 'a'], ...fooh });
    expect(await asked(['check', '--', '--language', 'qaa'])).toMatchObject({ words: undefined });
  });

  // POSIX.1-2024, base definitions 8.2: LC_ALL before LC_MESSAGES before LANG; one that is empty counts as not set.
  it.each([
    [{ LANG: 'qaa_DE.UTF-8' }, 'qaa'],
    [{ LC_ALL: 'qab_XY', LC_MESSAGES: 'qaa', LANG: 'qaa' }, 'qab-xy'],
    [{ LC_ALL: '', LC_MESSAGES: 'qaa', LANG: 'C' }, 'qaa'],
    [{ LC_ALL: 'C.UTF-8', LANG: 'qaa' }, 'en'],
    [{ LANG: 'en_GB.UTF-8' }, 'en'],
    [{ LANG: 'qac' }, 'en'],
    [{ LANG: '../qaa' }, 'en'],
    [{}, 'en'],
  ])('is else that of the environment %o: %s', async (environment, language) => {
    expect((await asked(['check'], environment)).language).toBe(language);
  });

  it('one without a table that is asked for is an error', async () => {
    await expect(asked(['--language', 'qac', 'check'])).rejects.toThrow('not qac');
    await expect(asked(['check', '--language'])).rejects.toThrow('--language takes');
  });
});

describe('words that are looked up', () => {
  afterAll(() => useWords(undefined));

  it('a table and a row are looked up as they are read, whenever the words came', () => {
    const table = spoken({ hoof: 'Hoof' });
    const [row] = spokenRows([{ title: 'Hoof', code: 'Hoof' }], 'title', 'absent');
    expect([table.hoof, row.title, row.code]).toEqual(['Hoof', 'Hoof', 'Hoof']);
    useWords({ Hoof: 'Fooh' });
    expect([table.hoof, row.title, row.code]).toEqual(['Fooh', 'Fooh', 'Hoof']);
    expect({ ...row }).toEqual({ title: 'Fooh', code: 'Hoof' });
  });

  it('what counts is one of two sentences', () => {
    useWords({ '{0} films of {1}': '{1}: {0}' });
    expect(counted(1, 'one film of {1}', '{0} films of {1}', 'LF')).toBe('one film of LF');
    expect(counted(0, 'one film of {1}', '{0} films of {1}', 'LF')).toBe('LF: 0');
    expect(t('{0} {x} {12} {', null)).toBe('null {x} {12} {');
  });
});
