import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Ajv } from 'ajv';
import addFormats from 'ajv-formats';
import { afterAll, describe, expect, it } from 'vitest';
import { codes } from '../../shared/findings/catalogue.ts';
import type { CheckJson } from '../../shared/export/json-shapes.ts';
import { sarifLog, type SarifLog } from '../../shared/export/sarif.ts';
import { commandLine } from '../../src/cli/command-line.ts';
import { caseText, filmText } from './plain-foot.ts';

const folder = mkdtempSync(join(tmpdir(), 'ungula-sarif-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const examples = join(import.meta.dirname, '..', '..', 'examples');

/**
 * The schema of SARIF 2.1.0 (rtm.5), as the package @microsoft/jest-sarif brings it. It is written in draft 4, of which it uses
 * nothing that later drafts read otherwise but the name of `id`. One of its patterns is no regular expression in Unicode mode.
 */
const schema = ((): ((log: unknown) => string[]) => {
  const library = createRequire(import.meta.url).resolve('@microsoft/jest-sarif');
  const { id, $schema, ...rest } = JSON.parse(
    readFileSync(join(library, '..', 'schemas', 'sarif-2.1.0-rtm.5.json'), 'utf8'),
  ) as { id: string; $schema: string };
  expect($schema).toContain('draft-04');
  expect(JSON.stringify(rest)).not.toMatch(/"exclusiveM(?:in|ax)imum"/);
  const ajv = new Ajv({ strict: false, allErrors: true, unicodeRegExp: false });
  addFormats.default(ajv);
  const validate = ajv.compile({ $id: id, ...rest });
  return (log) =>
    validate(log) ? [] : (validate.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message}`);
})();

async function run(format: string, ...args: string[]): Promise<{ status: number; out: string; err: string[] }> {
  let out = '';
  const err: string[] = [];
  const io = { out: (text: string) => (out += text), err: (line: string) => err.push(line) };
  const status = await commandLine(['check', ...args, '--format', format], io);
  return { status, out, err };
}
async function log(...args: string[]): Promise<SarifLog> {
  return JSON.parse((await run('sarif', ...args)).out) as SarifLog;
}
const write = (name: string, text: string | Uint8Array): string => {
  writeFileSync(join(folder, name), text);
  return join(folder, name);
};

describe('check --format sarif', () => {
  it.each(readdirSync(examples).filter((name) => name.endsWith('.hoof')))(
    'keeps to the schema of SARIF: %s',
    async (name) => {
      expect(schema(await log(join(examples, name)))).toEqual([]);
    },
  );

  it('is refused by that schema where something is wrong with it', async () => {
    const good = await log(join(examples, 'mistakes.hoof'));
    expect(schema({ ...good, version: '2.0.0' })).not.toEqual([]);
    expect(schema({ ...good, runs: [{ ...good.runs[0], tool: {} }] })).not.toEqual([]);
    const [result] = good.runs[0].results;
    expect(schema({ ...good, runs: [{ ...good.runs[0], results: [{ ...result, level: 'info' }] }] })).not.toEqual([]);
  });

  it('tells what the JSON tells, at the same places, and ends alike', async () => {
    const path = join(examples, 'mistakes.hoof');
    const [json, sarif] = [await run('json', path), await run('sarif', path)];
    expect(sarif.status).toBe(json.status);
    const { findings } = JSON.parse(json.out) as CheckJson;
    const [{ results, tool, columnKind }] = (JSON.parse(sarif.out) as SarifLog).runs;
    expect(columnKind).toBe('utf16CodeUnits');
    const levels = { error: 'error', warning: 'warning', info: 'note', hint: 'note' };
    expect(
      results.map(
        ({
          ruleId,
          level,
          message,
          locations: [
            {
              physicalLocation: { region },
            },
          ],
        }) => ({ ruleId, level, text: message.text, ...region }),
      ),
    ).toEqual(
      findings.map(({ code, severity, message, line, column, endLine, endColumn }) => ({
        ruleId: code,
        level: levels[severity],
        text: message,
        startLine: line,
        startColumn: column,
        endLine,
        endColumn,
      })),
    );
    for (const { ruleId, ruleIndex } of results) expect(tool.driver.rules[ruleIndex]?.id).toBe(ruleId);
    expect(tool.driver.rules).toHaveLength(new Set(findings.map(({ code }) => code)).size);
  });

  it('describes every code that there is within the schema', () => {
    const findings = codes.map(({ code, severity }) => ({
      file: 'a.hoof',
      line: 1,
      column: 1,
      endLine: 1,
      endColumn: 1,
      severity,
      code,
      message: 'x',
    }));
    const made = sarifLog(findings, []);
    expect(schema(made)).toEqual([]);
    for (const { shortDescription, fullDescription } of made.runs[0].tool.driver.rules) {
      expect(shortDescription?.text).toMatch(/\S/);
      expect(fullDescription?.text).toMatch(/\S/);
    }
  });

  it('has what the case accepts as suppressed in the source, with its reason', async () => {
    const text = caseText(
      `${filmText({ 'p3.wing': [-80, 40] })}\n    accept range/palmar-angle because "agreed with the vet"`,
    );
    const made = await log(write('accepted.hoof', text));
    expect(schema(made)).toEqual([]);
    const accepted = made.runs[0].results.filter(({ suppressions }) => suppressions);
    expect(accepted).toMatchObject([
      {
        ruleId: 'range/palmar-angle',
        level: 'note',
        suppressions: [{ kind: 'inSource', justification: 'agreed with the vet' }],
      },
    ]);
  });

  it.each([
    ['cases/a b.hoof', 'cases/a%20b.hoof'],
    ['./cases/ä#1.hoof', 'cases/%C3%A4%231.hoof'],
    ['/data/a.hoof', 'file:///data/a.hoof'],
    ['C:\\cases\\a.hoof', 'file:///C:/cases/a.hoof'],
    ['\\\\host\\cases\\a.hoof', 'file://host/cases/a.hoof'],
    ['-', '-'],
  ])('names the file %s as %s', (file, uri) => {
    const finding = {
      file,
      line: 1,
      column: 1,
      endLine: 1,
      endColumn: 2,
      severity: 'error',
      code: 'x',
      message: 'y',
    } as const;
    const made = sarifLog([finding], []);
    expect(made.runs[0].results[0]?.locations[0].physicalLocation.artifactLocation.uri).toBe(uri);
    expect(schema(made)).toEqual([]);
  });

  it('says which file could not be read, and prints a document also where the arguments are unusable', async () => {
    const unreadable = await run(
      'sarif',
      write('latin.hoof', Buffer.from([0x68, 0xe9, 0x0a])),
      write('good.hoof', 'hoof 1\n'),
    );
    expect(unreadable.status).toBe(2);
    const [{ invocations }] = (JSON.parse(unreadable.out) as SarifLog).runs;
    expect(invocations).toMatchObject([
      {
        executionSuccessful: false,
        toolExecutionNotifications: [{ message: { text: expect.stringContaining('not UTF-8') as string } }],
      },
    ]);
    expect(schema(JSON.parse(unreadable.out))).toEqual([]);
    const unusable = await run('sarif', write('good.hoof', 'hoof 1\n'), '--colour', 'red');
    expect([unusable.status, unusable.err.length]).toEqual([2, 1]);
    expect(schema(JSON.parse(unusable.out))).toEqual([]);
    expect((JSON.parse(unusable.out) as SarifLog).runs[0]).toMatchObject({
      results: [],
      invocations: [{ executionSuccessful: false }],
    });
  });
});
