import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { readLevels } from '../../shared/findings/engine/severity-levels.ts';
import { usualStudy } from '../../shared/trim/study.ts';
import { commandLine } from '../../src/cli/command-line.ts';
import { caseText, filmText } from './plain-foot.ts';

const thin = caseText(filmText({ 'sole.tip': [0, 10] }));
const accepted = caseText(filmText({ 'sole.tip': [0, 10] }, { more: ['accept range/sole-depth.tip because "x"'] }));
const fever = caseText('  sign fever');

function told(text: string, wishes: Readonly<Record<string, unknown>>): string[] {
  const { levels } = readLevels(Object.entries(wishes));
  return inspect(text, { ...usualStudy, levels }).findings.map(({ severity, code }) => `${severity} ${code}`);
}

describe('severity by code', () => {
  it.each([
    [{ 'range/sole-depth.tip': 'error' }, ['error range/sole-depth.tip']],
    [{ 'range/*': 'hint' }, ['hint range/sole-depth.tip']],
    [{ 'range/sole-depth.tip': 'info', 'range/*': 'off' }, ['info range/sole-depth.tip']],
    [{ 'range/*': 'off' }, []],
    [{ 'trim/*': 'off', 'no/such': 'off', 'range/*': 'loud' }, ['warning range/sole-depth.tip']],
  ])('%j', (wishes, expected) => {
    expect(told(thin, wishes)).toEqual(expected);
  });

  it('does not make an acceptance look for what is off', () => {
    expect(told(accepted, { 'range/*': 'off' })).toEqual([]);
    expect(told(accepted, { 'range/*': 'error' })).toEqual(['info range/sole-depth.tip']);
    expect(told(accepted, { 'range/*': 'hint' })).toEqual(['hint range/sole-depth.tip']);
  });

  it('never hides what must not be missed, and says so', () => {
    for (const level of ['off', 'hint'])
      for (const name of ['visit/call-the-vet', 'visit/*'])
        expect([level, told(fever, { [name]: level })]).toEqual([level, ['info visit/call-the-vet']]);
    const { kept, unknown } = readLevels(Object.entries({ 'trim/*': 'off', 'visit/call-the-vet': 'off' }));
    expect(unknown).toEqual([]);
    expect(kept).toHaveLength(2);
    expect(kept.join(' ')).toMatch(/trim\/live-sole.*stay at least information.*visit\/call-the-vet/);
    expect(readLevels([['visit/call-the-vet', 'warning']]).kept).toEqual([]);
  });

  it('names the nearest code for one that there is not', () => {
    const { unknown, levels } = readLevels([
      ['trim/film-aeg', 'off'],
      ['tape/disagrees', 3],
    ]);
    expect(levels.size).toBe(0);
    expect(unknown[0]).toContain('Did you mean «trim/film-age»?');
    expect(unknown[1]).toContain('not as «3»');
  });
});

describe('check --severity', () => {
  let folder = '';
  const file = (name: string): string => join(folder, name);
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'ungula-severity-'));
    for (const picture of ['x.png', 'y.png']) writeFileSync(file(picture), '');
    writeFileSync(file('thin.hoof'), thin);
    writeFileSync(file('accepted.hoof'), accepted);
    writeFileSync(file('fever.hoof'), fever);
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  async function check(...args: string[]): Promise<{ status: number; out: string; err: string[] }> {
    let out = '';
    const err: string[] = [];
    const io = { out: (text: string) => void (out += text), err: (line: string) => void err.push(line) };
    return { status: await commandLine(['check', ...args], io), out, err };
  }

  it.each([
    [['thin.hoof'], 0],
    [['thin.hoof', '--severity', 'range/*=error'], 1],
    [['thin.hoof', '--max-severity', 'warning'], 1],
    [['thin.hoof', '--max-severity', 'warning', '--severity', 'range/*=info'], 0],
    [
      [
        'thin.hoof',
        '--max-severity',
        'warning',
        '--severity',
        'range/*=error',
        '--severity',
        'range/sole-depth.tip=off',
      ],
      0,
    ],
    [['accepted.hoof', '--max-severity', 'warning'], 0],
    [['accepted.hoof', '--severity', 'range/*=error'], 0],
    [['fever.hoof', '--severity', 'visit/call-the-vet=info'], 0],
  ])('%j ends with %i', async ([name = '', ...options], status) => {
    expect(await check(file(name), ...options)).toMatchObject({ status, err: [] });
  });

  it('says once what it does not switch off, and goes on', async () => {
    const { status, out, err } = await check(file('fever.hoof'), file('thin.hoof'), '--severity', 'visit/*=off');
    expect(err).toEqual([expect.stringMatching(/visit\/call-the-vet.*at least information/)]);
    expect(out).toContain('info visit/call-the-vet');
    expect(status).toBe(0);
  });

  it('says of earlier films what it is asked to: a hint, as new, or nothing', async () => {
    const two = `${thin}\nvisit 2026-04-01\n${filmText({ 'sole.tip': [0, 10] }, { header: 'film LF lateral "y.png"' })}\n`;
    writeFileSync(file('two.hoof'), two);
    const levels = async (...args: string[]): Promise<string[]> =>
      (await check(file('two.hoof'), '--format', 'json', ...args)).out
        .match(/"severity": "\w+"/g)
        ?.map((one) => one.slice(13, -1)) ?? [];
    expect(await levels()).toEqual(['hint', 'warning']);
    expect(await levels('--past-films', 'as-new')).toEqual(['warning', 'warning']);
    expect(await levels('--past-films', 'off')).toEqual(['warning']);
    expect(await check(file('two.hoof'), '--past-films', 'never')).toMatchObject({ status: 2 });
    expect(JSON.parse((await check(file('two.hoof'), '--format', 'json')).out)).toMatchObject({
      findings: [{ past: true }, { severity: 'warning' }],
    });
  });

  it('refuses what is no code and no level', async () => {
    for (const wish of ['range/sole=off', 'range/*=quiet', 'off', '=off'])
      expect(await check(file('thin.hoof'), '--severity', wish)).toMatchObject({
        status: 2,
        out: '',
        err: [expect.stringContaining('--severity')],
      });
  });

  it('marks in the JSON what is accepted, with the reason', async () => {
    const { out } = await check(file('accepted.hoof'), '--format', 'json');
    expect(JSON.parse(out)).toMatchObject({
      findings: [{ code: 'range/sole-depth.tip', severity: 'info', accepted: 'x' }],
    });
  });
});
