import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { commandLine } from '../../src/cli/command-line.ts';
import { caseText, filmText } from './plain-foot.ts';

let folder = '';
const at = (name: string): string => join(folder, name);
const set = (name: string, low: number): string =>
  JSON.stringify({
    'ungula-reference': 1,
    name,
    source: { cite: 'our films' },
    bands: [{ measure: 'sole-depth.tip', low, severity: 'error' }],
  });

async function run(...args: string[]): Promise<{ status: number; out: string; err: string[] }> {
  let out = '';
  const err: string[] = [];
  const status = await commandLine(args, { out: (text) => (out += text), err: (line) => err.push(line) });
  return { status, out, err };
}

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'ungula-reference-'));
  writeFileSync(at('case.hoof'), caseText(filmText()));
  writeFileSync(at('a.json'), set('First', 18));
  writeFileSync(at('b.json'), set('Second', 20));
  writeFileSync(at('broken.json'), set('Third', 20).replace('"low":20', '"low":"20"'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('--reference', () => {
  it('holds check to the sets, the first before the second', async () => {
    const { status, out } = await run(
      'check',
      '--reference',
      at('a.json'),
      '--reference',
      at('b.json'),
      at('case.hoof'),
    );
    expect(status).toBe(1);
    expect(out).toContain(', under 18 mm (First: our films). Published: 12 mm');
    expect(out).not.toContain('Second');
  });

  it('shows in measure and report', async () => {
    expect((await run('measure', '--reference', at('b.json'), at('case.hoof'))).out).toMatch(
      /sole depth at the tip.+act, usual from 20 mm/,
    );
    await run('report', '--reference', at('b.json'), '-o', at('page.html'), at('case.hoof'));
    expect(readFileSync(at('page.html'), 'utf8')).toContain('Second: our films. Published: 12 mm');
  });

  it('ends with 2 and one sentence where a set cannot be used, before anything is printed', async () => {
    expect(await run('check', '--reference', at('broken.json'), at('case.hoof'))).toEqual({
      status: 2,
      out: '',
      err: [`${at('broken.json')}: bands[0].low: this wants a number.`],
    });
    expect(await run('measure', '--reference', at('none.json'), at('case.hoof'))).toEqual({
      status: 2,
      out: '',
      err: [`${at('none.json')}: no such file or folder`],
    });
  });
});
