import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { asLines, diagnosticsAsLines, expectationsIn } from './expectations.ts';
import { LanguageClient } from './language-client.ts';
import { textIn } from './text-positions.ts';

const folder = join(import.meta.dirname, 'fixtures');
const fixtures = readdirSync(folder).filter((name) => name.endsWith('.hoof'));

let client: LanguageClient;
beforeAll(async () => {
  client = await LanguageClient.start();
});
afterAll(() => client.stop());

describe('each fixture gets exactly the diagnostics that it announces', () => {
  for (const ending of ['\n', '\r\n'] as const)
    it.each(fixtures)(`%s, lines ended by ${JSON.stringify(ending)}`, async (name) => {
      const text = readFileSync(join(folder, name), 'utf8').replace(/\r?\n/g, ending);
      const uri = `file:///fixtures/${ending.length}/${name}`;
      client.open(uri, text);
      const told = await client.diagnostics(uri);
      const expected = expectationsIn(text);
      expect(diagnosticsAsLines(told)).toEqual(asLines(expected));
      for (const { line, start, code, says } of expected) {
        const messages = told
          .filter((one) => one.code === code && one.range.start.line === line && one.range.start.character === start)
          .map((one) => one.message);
        expect(messages.join('\n')).toContain(says);
      }
      expect(told.every(({ source }) => source === 'ungula')).toBe(true);
    });

  it('the fixtures announce something', () => {
    const codes = new Set(
      fixtures.flatMap((name) => expectationsIn(readFileSync(join(folder, name), 'utf8'))).map(({ code }) => code),
    );
    expect(codes.size).toBeGreaterThan(25);
  });
});

describe('a document’s diagnostics', () => {
  it('name the film that a plan is predicted on, and where it stands', async () => {
    const text = readFileSync(join(folder, 'film.hoof'), 'utf8');
    const uri = 'file:///related.hoof';
    client.open(uri, text);
    const [plan] = (await client.diagnostics(uri)).filter(({ code }) => code === 'trim/palmar-angle');
    expect(plan?.relatedInformation?.map(({ location }) => location.uri)).toEqual([uri]);
    const [film] = plan?.relatedInformation ?? [];
    expect(film && textIn(text, film.location.range)).toBe('film');
    expect(film?.location.range.start.line).toBe(4);
  });

  it('are cleared when it is closed, and told again when it is opened again', async () => {
    const uri = 'file:///closed.hoof';
    client.open(uri, 'hoof 1\nrubbish\n', 7);
    expect(await client.diagnostics(uri, 7)).toHaveLength(1);
    client.close(uri);
    expect(await client.diagnostics(uri, null)).toEqual([]);
    client.open(uri, 'hoof 1\nrubbish\nrubbish\n', 8);
    expect(await client.diagnostics(uri, 8)).toHaveLength(2);
  });

  it('are told for the last of many changes at once, not for each', async () => {
    const uri = 'file:///burst.hoof';
    client.open(uri, 'hoof 1\n');
    await client.diagnostics(uri);
    const before = client.timesTold(uri);
    for (let version = 2; version <= 201; version++)
      client.change(uri, version, [
        { range: { start: { line: 1, character: 0 }, end: { line: 1, character: 0 } }, text: 'x' },
      ]);
    expect((await client.diagnostics(uri, 201)).map(({ code }) => code)).toEqual(['notation/unknown-word']);
    expect(client.timesTold(uri) - before).toBeLessThan(50);
  });

  it('stop at a thousand, and say so', async () => {
    const uri = 'file:///many.hoof';
    client.open(uri, `hoof 1\n${'zzzzzzzz\n'.repeat(1200)}`);
    const told = await client.diagnostics(uri);
    expect(told).toHaveLength(1001);
    expect(told.at(-1)?.message).toContain('200 more');
  });

  it('hold no related information for a client that does not know it', async () => {
    const plain = await LanguageClient.start({ capabilities: {} });
    plain.open('file:///plain.hoof', readFileSync(join(folder, 'film.hoof'), 'utf8'));
    const told = await plain.diagnostics('file:///plain.hoof');
    expect(told.some(({ code }) => code === 'trim/palmar-angle')).toBe(true);
    expect(told.filter(({ relatedInformation }) => relatedInformation)).toEqual([]);
    expect(await plain.stop()).toBe(0);
  });
});
