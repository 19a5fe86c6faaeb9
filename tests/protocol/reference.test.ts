import { mkdtempSync, mkdirSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Diagnostic, Hover, MarkupContent } from 'vscode-languageserver';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { caseText, filmText } from '../unit/plain-foot.ts';
import { LanguageClient } from './language-client.ts';

let folder = '';
let client: LanguageClient;
const uri = 'file:///reference.hoof';
const text = caseText(filmText());

const set = (low: number): string =>
  JSON.stringify({
    'ungula-reference': 1,
    name: 'Our clinic',
    source: { cite: 'our films' },
    bands: [{ measure: 'sole-depth.tip', low }],
  });

const write = (name: string, json: string): void => writeFileSync(join(folder, name), json);
const use = (...files: unknown[]): void =>
  client.notify('workspace/didChangeConfiguration', { settings: { ungula: { reference: { files } } } });
const saved = (name: string): void =>
  client.notify('workspace/didChangeWatchedFiles', {
    changes: [{ uri: pathToFileURL(join(folder, name)).href, type: 2 }],
  });
/** What the server has held in memory at most until now. */
const peakMegabytes = (): number =>
  Number(/VmHWM:\s+(\d+) kB/.exec(readFileSync(`/proc/${client.pid}/status`, 'utf8'))?.[1]) / 1000;
const says = (part: string) => (all: Diagnostic[]) => all.some(({ message }) => String(message).includes(part));

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'ungula sets-'));
  mkdirSync(join(folder, 'kept here'));
  client = await LanguageClient.start({ folder: pathToFileURL(folder).href });
  client.open(uri, text);
});
afterAll(async () => {
  await client.stop();
  rmSync(folder, { recursive: true, force: true });
});

describe('reference values of one’s own', () => {
  it('are taken from the files of the setting, and followed when one is saved', async () => {
    write('kept here/a.hoof-reference.json', set(18));
    use('kept here/a.hoof-reference.json');
    await client.diagnosticsWith(uri, says('under 18 mm (Our clinic: our films). Published: 7 mm'));
    write('kept here/a.hoof-reference.json', set(19));
    saved('kept here/a.hoof-reference.json');
    await client.diagnosticsWith(uri, says('under 19 mm (Our clinic: our films)'));
  });

  it('stand in the hover, with what is published', async () => {
    client.open(
      'file:///limits.hoof',
      'hoof 1\nlimits\n  sole-depth.tip >= 20 mm because "x"\n  palmar-angle <= 9 deg\n',
    );
    const limits = await client.hover('file:///limits.hoof', { line: 3, character: 4 });
    const { value } = (limits as Hover).contents as MarkupContent;
    expect(value).toContain('- range 2° to 10°: horses, as a textbook gives it, fore feet (usually 3 to 5°).');
    expect(value).toContain('- mean 1.8°: horses without hind lameness, UK, left side, hind feet, 50 animals.');
    client.close('file:///limits.hoof');
  });

  it('go when the setting does', async () => {
    use();
    await client.diagnosticsWith(uri, (all) => !says('Our clinic')(all));
  });

  it('that cannot be used are told once, in a sentence with the place', async () => {
    write('broken.hoof-reference.json', set(18).replace('sole-depth.tip', 'sole-deph.tip'));
    use('broken.hoof-reference.json', 'none.json', '../outside.json', '/etc/hosts', 'file:///etc/hosts', 7);
    expect([...(await client.messages(5))].sort()).toEqual([
      'Ungula: ../outside.json: the path of a set of reference values is relative to the folder that is open, and stays within it.',
      'Ungula: /etc/hosts: the path of a set of reference values is relative to the folder that is open, and stays within it.',
      'Ungula: broken.hoof-reference.json: bands[0].measure: «sole-deph.tip» is no measure that Ungula knows.',
      'Ungula: file:///etc/hosts: the path of a set of reference values is relative to the folder that is open, and stays within it.',
      'Ungula: none.json: this set of reference values cannot be read.',
    ]);
    saved('broken.hoof-reference.json');
    write('broken.hoof-reference.json', set(18));
    saved('broken.hoof-reference.json');
    await client.diagnosticsWith(uri, says('under 18 mm (Our clinic'));
    expect(client.shown).toHaveLength(5);
  });

  it('that are too large are not read: a sentence says so', async (context) => {
    if (process.platform !== 'linux') context.skip('not run: only Linux tells what a process has held at most');
    const peak = peakMegabytes();
    writeFileSync(join(folder, 'large.hoof-reference.json'), '');
    truncateSync(join(folder, 'large.hoof-reference.json'), 190_000_000);
    use('large.hoof-reference.json');
    const said = await client.until(() => client.shown.find((message) => message.includes('large.hoof-reference')));
    expect(said).toBe('Ungula: large.hoof-reference.json: this is too large.');
    // All of its bytes would be in the peak of what the server ever held.
    expect(peakMegabytes()).toBeLessThan(peak + 100);
  });
});
