import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { spawnSync } from 'node:child_process';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { build, type BuildOptions } from 'esbuild';
// @ts-expect-error -- plain JavaScript
import { outputs } from '../../esbuild.mjs';
import { jsonShapes, type PlannedJson } from '../../shared/export/json-shapes.ts';
import { commandLine } from '../../src/cli/command-line.ts';
import { caseText, filmText } from './plain-foot.ts';

let folder = '';
const good = caseText(`${filmText()}\n\n  plan LF\n    heel down 1 mm`);
const bad = 'hoof 1\ncase "B"\n  height 148\n';

async function run(...args: string[]): Promise<{ status: number; out: string; err: string[] }> {
  let out = '';
  const err: string[] = [];
  const status = await commandLine(args, { out: (text) => (out += text), err: (line) => err.push(line) });
  return { status, out, err };
}

function onePlanned(out: string): PlannedJson {
  const planned = jsonShapes.plan.parse(JSON.parse(out));
  if (Array.isArray(planned)) throw new Error('an array where one case was asked for');
  return planned;
}

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'ungula-cli-'));
  mkdirSync(join(folder, 'deep', 'er'), { recursive: true });
  mkdirSync(join(folder, 'node_modules'));
  writeFileSync(join(folder, 'good.hoof'), good);
  // The picture that it names; whether it is one nobody looks.
  writeFileSync(join(folder, 'x.png'), '');
  writeFileSync(join(folder, 'deep', 'er', 'bad.hoof'), bad);
  writeFileSync(join(folder, 'node_modules', 'not.hoof'), bad);
  writeFileSync(join(folder, 'latin.hoof'), Buffer.from([0x68, 0xe9, 0x0a]));
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('check', () => {
  it('prints nothing and ends with 0 where nothing is wrong', async () => {
    expect(await run('check', join(folder, 'good.hoof'))).toEqual({ status: 0, out: '', err: [] });
  });

  it('prints a line for each finding, counted from 1, and ends with 1 at an error', async () => {
    const file = join(folder, 'deep', 'er', 'bad.hoof');
    const { status, out } = await run('check', file);
    expect(status).toBe(1);
    expect(out).toBe(`${file}:3:10: error notation/missing-unit The number 148 has no unit. Write 148 cm.\n`);
  });

  it('takes every case file below a folder, and none of node_modules', async () => {
    const { out, status, err } = await run('check', '--format', 'json', folder);
    const { findings } = JSON.parse(out) as { findings: { file: string }[] };
    expect(findings.map(({ file }) => file)).toEqual([join(folder, 'deep', 'er', 'bad.hoof')]);
    expect(status).toBe(2);
    expect(err).toEqual([`${join(folder, 'latin.hoof')}: not UTF-8 text; save it as UTF-8`]);
  });

  it('tells two files of one study code, each at its line, and as gravely as asked', async () => {
    const twins = join(folder, 'node_modules', 'twins');
    mkdirSync(twins, { recursive: true });
    for (const name of ['a', 'b']) writeFileSync(join(twins, `${name}.hoof`), `hoof 1\ncase "${name}"\n  code EX07\n`);
    const [a, b] = [join(twins, 'a.hoof'), join(twins, 'b.hoof')];
    const { status, out } = await run('check', a, b);
    expect(status).toBe(0);
    expect(out.split('\n').map((line) => line.split(' ').slice(0, 3).join(' '))).toEqual([
      `${a}:3:8: warning case/same-code`,
      `${b}:3:8: warning case/same-code`,
      '',
    ]);
    expect(out).toContain(`«EX07» is the study code of ${b} too.`);
    expect((await run('check', a, b, '--severity', 'case/same-code=off')).out).toBe('');
    expect((await run('check', a, b, '--severity', 'case/*=error')).status).toBe(1);
    expect((await run('check', a)).out).toBe('');
  });

  it('names a file that is not there, does the others, and ends with 2', async () => {
    const { status, out, err } = await run('check', join(folder, 'none.hoof'), join(folder, 'deep', 'er', 'bad.hoof'));
    expect(status).toBe(2);
    expect(err).toEqual([`${join(folder, 'none.hoof')}: no such file or folder`]);
    expect(out).toContain('notation/missing-unit');
  });

  it('counts warnings where asked to', async () => {
    writeFileSync(join(folder, 'warn.hoof'), caseText(filmText({ 'sole.tip': [0, 10] })));
    expect((await run('check', join(folder, 'warn.hoof'))).status).toBe(0);
    expect((await run('check', '--max-severity', 'warning', join(folder, 'warn.hoof'))).status).toBe(1);
    rmSync(join(folder, 'warn.hoof'));
  });

  it('gives JSON as other programs rely on', async () => {
    const { out } = await run('check', '--format', 'json', join(folder, 'deep', 'er', 'bad.hoof'));
    expect(jsonShapes.check.parse(JSON.parse(out)).findings[0]).toMatchObject({
      line: 3,
      column: 10,
      endLine: 3,
      endColumn: 13,
    });
  });
});

describe('measure', () => {
  it('gives JSON as other programs rely on, lines from 1, numbers unrounded', async () => {
    const file = join(folder, 'good.hoof');
    const { out, status } = await run('measure', '--format', 'json', file);
    const [first] = jsonShapes.measure.parse(JSON.parse(out)).cases;
    const [visit] = first?.visits ?? [];
    const lines = good.split('\n');
    expect(status).toBe(0);
    expect(first).toMatchObject({ file, case: 'Test' });
    expect(lines[(visit?.line ?? 0) - 1]).toContain('visit 2026-03-04');
    expect(lines[(visit?.films[0]?.line ?? 0) - 1]).toContain('film LF');
    expect(lines[(visit?.plans[0]?.line ?? 0) - 1]).toContain('plan LF');
    expect(visit?.films[0]).toMatchObject({ foot: 'LF', view: 'lateral', scale: 0.1 });
    // On paper: the wing lies 7 mm above the tip and 80 mm behind it.
    expect(visit?.films[0]?.readings[0]?.measures['palmar-angle']?.value).toBeCloseTo(
      (Math.atan2(7, 80) * 180) / Math.PI,
      10,
    );
    expect(visit?.plans[0]?.delta).toBeCloseTo((Math.atan2(1, 138) * 180) / Math.PI, 10);
    expect(visit?.plans[0]?.solecut).toEqual({ tip: 0, wing: 0, heel: 0 });
  });

  it('writes a table for people and rows for a spreadsheet', async () => {
    const file = join(folder, 'good.hoof');
    expect((await run('measure', file)).out).toMatch(/palmar angle\s+5\.0° ± 0\.5\s+within, usual 2° to 10°/);
    const rows = (await run('measure', '--format', 'csv', file)).out.trimEnd().split('\r\n');
    expect(rows[0]).toBe('file,case,visit,line,foot,view,reader,measure,value,unit,sd,scale_from,source');
    expect(rows.length).toBeGreaterThan(25);
    expect(new Set(rows.map((row) => row.split(',').length))).toEqual(new Set([13]));
  });
});

describe('format', () => {
  it('names what is not laid out, writes it whole, and then has nothing to do', async () => {
    const file = join(folder, 'loose.hoof');
    writeFileSync(file, 'hoof 1\ncase "X"\nbreed   "cob"\n');
    expect(await run('format', '--check', file)).toMatchObject({ status: 1, out: `${file}\n` });
    expect((await run('format', '--write', file)).status).toBe(0);
    expect(readFileSync(file, 'utf8')).toBe('hoof 1\n\ncase "X"\n  breed     "cob"\n');
    expect((await run('format', '--check', file)).status).toBe(0);
    expect(readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual([]);
    rmSync(file);
  });
});

describe('report', () => {
  it('writes one page that needs nothing else, with text shown as text', async () => {
    const file = join(folder, 'odd.hoof');
    writeFileSync(
      file,
      good.replace('"Test"', '"<script>alert(1)</script>"').replace('"x.png"', '"no <b>such</b>.png"'),
    );
    const page = join(folder, 'out', 'page.html');
    const { status, out } = await run('report', file, '-o', page);
    const html = readFileSync(page, 'utf8');
    expect(status).toBe(0);
    expect(out.trim()).toBe(page);
    expect(html).not.toContain('<script');
    expect(html).not.toContain('<b>such');
    expect(html).toContain('&lt;script&gt;');
    expect(html).toMatch(/data-measure="palmar-angle"/);
    expect(html).toContain(
      'is not there. Put the picture at that path, counted from the case file’s folder. The foot is drawn alone.',
    );
    expect(html).toContain('belong to the vet');
    expect(html).toMatch(/<svg[\s\S]*<\/svg>/);
    expect(html).not.toMatch(/(?:src|href)="https?:/);
    rmSync(file);
  });

  it.each([
    [[], '-o OUT.html'],
    [['-o', 'x.txt'], 'a page ends in .html or .pdf'],
    [['-o', 'x.pdf'], 'only a page with --for is written as PDF'],
    [['-o', 'x.pdf', '--for', 'yard', '--paper', 'a5'], '--paper takes a4, letter'],
    [['-o', 'x.html', '--for', 'yard', '--paper', 'a4'], '--paper goes with a page that ends in .pdf'],
    [['-o', 'x.html', '--for', 'neighbour'], '--for takes owner, vet, yard'],
    [['-o', 'x.html', '--for', 'owner', '--on', '28 May'], '--on takes a date such as'],
    [['-o', 'x.html', '--for', 'owner', '--on', '2026-02-30'], '--on takes a date such as'],
  ] as const)('refuses %j with words', async (args, words) => {
    const { status, err } = await run('report', join(folder, 'good.hoof'), ...args);
    expect(status).toBe(2);
    expect(err.join('\n')).toContain(words);
  });
});

describe('report --for', () => {
  it.each(['owner', 'vet', 'yard'] as const)('writes the page for the %s of the day that is named', async (reader) => {
    const file = join(folder, `${reader}.html`);
    const { status } = await run(
      'report',
      join(folder, 'good.hoof'),
      '--for',
      reader,
      '--on',
      '2026-03-05',
      '-o',
      file,
    );
    expect(status).toBe(0);
    const page = readFileSync(file, 'utf8');
    expect(page).toContain(`For the ${reader} · 5 March 2026`);
    expect(page).not.toContain('<script');
    rmSync(file);
  });

  it('is of one case', async () => {
    const file = join(folder, 'two.html');
    const { status, err } = await run(
      'report',
      join(folder, 'good.hoof'),
      join(folder, 'deep', 'er', 'bad.hoof'),
      '--for',
      'owner',
      '-o',
      file,
    );
    expect(status).toBe(2);
    expect(err.join('\n')).toContain('--for makes the page of one case; here are 2');
    expect(existsSync(file)).toBe(false);
  });

  it('names people only where it is asked to', async () => {
    const named = join(folder, 'named.hoof');
    writeFileSync(named, 'hoof 1\n\ncase "Clover"\n  microchip 985000000000001\n');
    const file = join(folder, 'named.html');
    await run('report', named, '--for', 'vet', '-o', file);
    expect(readFileSync(file, 'utf8')).not.toContain('985000000000001');
    await run('report', named, '--for', 'vet', '--names', '-o', file);
    expect(readFileSync(file, 'utf8')).toContain('Microchip 985000000000001');
    rmSync(file);
    rmSync(named);
  });
});

describe('arguments', () => {
  it.each([
    [['chekc', 'x'], 'there is no command'],
    [['check'], 'wants a file'],
    [['check', '--format', 'xml', 'x'], '--format takes'],
    [['check', '--colour', 'x'], '--colour'],
    [['format', '--check', '--write', 'x'], 'exclude'],
  ] as const)('%j are unusable, in one line', async (args, words) => {
    const { status, err } = await run(...args);
    expect(status).toBe(2);
    expect(err).toHaveLength(1);
    expect(err[0]).toContain(words);
  });

  it('tell the commands, and the caution', async () => {
    const { status, out } = await run('--help');
    expect(status).toBe(0);
    for (const word of ['check', 'measure', 'report', 'format', 'belong to the vet']) expect(out).toContain(word);
  });
});

describe('the bundle', () => {
  it('runs on Node 20, which has no Object.groupBy', async () => {
    const { outfile, ...cli } = outputs.commandLine;
    expect(outfile).toBe('dist/cli.js');
    const bundle = await build({ ...cli, write: false } as BuildOptions);
    const program = join(folder, 'cli.mjs');
    writeFileSync(program, bundle.outputFiles?.[0]?.text ?? '');
    const { stdout, status } = spawnSync(
      process.execPath,
      [
        '--import',
        'data:text/javascript,delete Object.groupBy',
        program,
        'check',
        join(folder, 'deep', 'er', 'bad.hoof'),
      ],
      { encoding: 'utf8' },
    );
    expect(stdout).toContain('notation/missing-unit');
    expect(status).toBe(1);
  });
});

describe('plan', () => {
  const rotated = fileURLToPath(new URL('../../examples/juniper.hoof', import.meta.url));

  it('predicts a cut, and says which limits it breaks', async () => {
    const { status, out } = await run('plan', rotated, '--foot', 'LF', '--heel', '9', '--format', 'json');
    const answer = onePlanned(out);
    expect(status).toBe(1);
    expect(answer.stages[0]).toMatchObject({ heel: 9, toe: 0, back: 0 });
    expect(answer.stoppedBy).toContain('trim/below-sole-plane');
    expect((await run('plan', rotated, '--foot', 'LF', '--heel', '1')).status).toBe(0);
  });

  it('solves for a goal, and what it writes is notation that check accepts', async () => {
    const { status, out } = await run('plan', rotated, '--foot', 'LF', '--to', 'sole-plane', '--format', 'json');
    const answer = onePlanned(out);
    expect(status).toBe(0);
    const file = join(folder, 'planned.hoof');
    writeFileSync(file, `${readFileSync(rotated, 'utf8')}\n${answer.notation}\n`);
    const { out: told } = await run('check', file);
    const added = readFileSync(rotated, 'utf8').split('\n').length;
    expect(told.split('\n').filter((line) => Number(line.split(':')[1]) > added)).toEqual([]);
    rmSync(file);
  });

  it('says to which plane an angle is that it tells of a shod foot', async () => {
    const shod = fileURLToPath(new URL('../../examples/larch.hoof', import.meta.url));
    const { out: tried } = await run('plan', shod, '--foot', 'LF', '--heel', '2');
    // By hand in docs/shod.md.
    expect(tried).toContain('palmar angle then 5.6° to the ground, 2.6° to the bearing plane.');
    const { out: broken } = await run('plan', shod, '--foot', 'LF', '--heel', '4');
    expect(broken).toContain('the palmar angle to the bearing plane 0.2° under its limit');
    const { out: planned } = await run('plan', shod, '--foot', 'LF', '--to', 'palmar-angle=2.5');
    expect(planned).toContain('to a palmar angle of 2.5° to the bearing plane');
    // Half a millimetre a step, atan(1 / 137.8) = 0.42°: 3.45 - 0.42.
    expect(planned).toContain('palmar angle to the bearing plane then 3.0°.');
    const { out: bare } = await run('plan', rotated, '--foot', 'LF', '--to', 'palmar-angle=5');
    expect(bare).not.toContain('bearing plane');
  });

  it.each([
    [['--to', 'sole-plane'], 'wants a foot'],
    [['--foot', 'LF'], 'wants a goal'],
    [['--foot', 'LF', '--to', 'heaven'], '--to takes'],
    [['--foot', 'LF', '--heel', 'much'], '--heel takes a number'],
    [['--foot', 'LF', '--to', 'most', '--heel', '3'], 'leave --heel'],
    [['--foot', 'RH', '--to', 'most'], 'no lateral film of the right hind foot'],
  ] as const)('%j is refused in words', async (args, words) => {
    const { status, err } = await run('plan', rotated, ...args);
    expect(status).toBe(2);
    expect(err.join('\n')).toContain(words);
  });
});
