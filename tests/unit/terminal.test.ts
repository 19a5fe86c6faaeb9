import { chmodSync, linkSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { commandLine } from '../../src/cli/command-line.ts';
import type { PlannedJson } from '../../shared/export/json-shapes.ts';
import { Program } from './command-line-program.ts';
import { dicomFile, syntaxes } from './picture-dicom-writer.ts';
import { caseText, filmText } from './plain-foot.ts';

vi.mock('../../shared/findings/inspect.ts', async (original) => {
  const real = await original<typeof import('../../shared/findings/inspect.ts')>();
  return {
    ...real,
    inspect: (...given: Parameters<typeof real.inspect>) => {
      if (given[0].includes('fatal')) throw new TypeError('x is not a function');
      return real.inspect(...given);
    },
  };
});

let folder = '';
let program: Program;
const at = (...names: string[]): string => join(folder, ...names);
const bad = 'hoof 1\ncase "B"\n  height 148\n';
const told = (path: string): string => `${path}:3:10: error notation/missing-unit`;

async function run(...args: string[]): Promise<{ status: number; out: string; err: string[] }> {
  let out = '';
  const err: string[] = [];
  const status = await commandLine(args, { out: (text) => (out += text), err: (line) => err.push(line) });
  return { status, out, err };
}

/** Where a line of `check` begins, up to its code. */
const heads = (out: string): string[] =>
  out
    .split('\n')
    .filter(Boolean)
    .map((line) => line.split(' ').slice(0, 3).join(' '));

beforeAll(async () => {
  program = await Program.build();
});
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'ungula-terminal-'));
  return () => rmSync(folder, { recursive: true, force: true });
});
afterAll(() => program.remove());

describe('a pipe or a disk that takes no more', () => {
  /** Tells more than a pipe holds (64 KB under Linux). */
  const many = (): void => writeFileSync(at('many.hoof'), `hoof 1\ncase "B"\n${'  rubbish 148\n'.repeat(5000)}`);

  it.each<[string, string, number]>([
    ['check', 'check', 1],
    ['check as JSON', 'check --format json', 1],
    ['format', 'format', 0],
  ])('| head ends %s quietly, with the status that it had anyway', (_, command, status) => {
    many();
    const { out, err } = program.shell(`ungula ${command} ${at('many.hoof')} | head -n 1; echo "\${PIPESTATUS[0]}"`);
    expect([out.trimEnd().split('\n').at(-1), err]).toEqual([String(status), []]);
  });

  it('a closed output ends it quietly, a closed error output too', () => {
    writeFileSync(at('bad.hoof'), bad);
    expect(program.shell(`ungula check ${at('bad.hoof')} >&-`)).toMatchObject({ status: 1, out: '', err: [] });
    const { status, out, err } = program.shell(`ungula check ${at('bad.hoof')} ${at('none.hoof')} 2>&-`);
    expect([status, heads(out), err]).toEqual([2, [told(at('bad.hoof'))], []]);
  });

  it('a full one is said in a line, with status 2', () => {
    writeFileSync(at('bad.hoof'), bad);
    expect(program.shell(`ungula check ${at('bad.hoof')} >/dev/full`)).toMatchObject({
      status: 2,
      err: ['ungula: standard output: the disk is full'],
    });
    expect(program.shell(`ungula check ${at('none.hoof')} 2>/dev/full`)).toMatchObject({ status: 2, out: '', err: [] });
  });

  it('one that fills up half-way too: no part of an answer passes for the whole', () => {
    many();
    const { status, err } = program.shell(`ulimit -f 8; ungula check --format json ${at('many.hoof')} >${at('out')}`);
    expect([status, err]).toEqual([2, ['ungula: standard output: larger than a file may be here']]);
  });
});

describe('control characters are shown and not sent', () => {
  // A title for the window, a bell, a colour as one character (C1), an override of the writing's direction.
  const evil = '\u001b]0;owned\u0007\u009b31m\u202egnp';
  const seen = '\\u001b]0;owned\\u0007\\u009b31m\\u202egnp';
  // oxlint-disable-next-line no-control-regex
  const sent = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/;
  const named = (): void =>
    writeFileSync(
      at('a.hoof'),
      caseText(filmText()).replace('"Test"', `"${evil}"`).replace('"x.png"', `"${evil}.png"`).concat(`\n${evil}\n`),
    );

  it.each([
    ['check'],
    ['check', '--format', 'json'],
    ['measure'],
    ['measure', '--format', 'json'],
    ['measure', '--format', 'csv'],
    ['course'],
    ['course', '--format', 'csv'],
    ['plan', '--foot', 'LF', '--heel', '1'],
  ])('from a text, by %s %s %s', async (command, ...options) => {
    named();
    const { out } = await run(command, ...options, at('a.hoof'));
    expect(out.length).toBeGreaterThan(20);
    expect(out.replaceAll('\r\n', '\n')).not.toMatch(sent);
    if (command === 'measure' || command === 'check') expect(out).toContain(seen.slice(0, 6));
  });

  it('from the name of a file, which stays within its line', async () => {
    const name = `${evil}\n\tb.hoof`;
    const gone = `${evil}.hoof`;
    writeFileSync(at(name), bad);
    const { out, err } = await run('check', at(name), at(gone));
    expect([heads(out), err]).toEqual([
      [told(at(`${seen}\\n\\tb.hoof`))],
      [`${at(`${seen}.hoof`)}: no such file or folder`],
    ]);
    const { out: json } = await run('check', '--format', 'json', at(name));
    expect(json).not.toMatch(sent);
    expect(JSON.parse(json)).toMatchObject({ findings: [{ file: at(name) }] });
    expect((await run('format', '--check', at(name))).out).toBe(`${at(`${seen}\\n\\tb.hoof`)}\n`);
    expect((await run('report', at(name), '-o', at(`${evil}.html`))).out).toBe(`${at(`${seen}.html`)}\n`);
  });

  it('from what a DICOM file says', async () => {
    writeFileSync(at('a.hoof'), caseText(filmText({}, { header: 'film LF lateral "x.dcm"', scale: 'scale dicom' })));
    writeFileSync(
      at('x.dcm'),
      dicomFile(syntaxes.explicit, [
        { tag: '00080060', vr: 'CS', value: 'DX' },
        { tag: '00280010', vr: 'US', value: [4] },
        { tag: '00280011', vr: 'US', value: [4] },
        { tag: '00280030', vr: 'DS', value: '\u001b[31m\u0007' },
      ]),
    );
    const { out } = await run('check', at('a.hoof'));
    expect(out).toContain('frame/no-scale');
    expect(out).not.toMatch(sent);
    expect((await run('check', '--format', 'json', at('a.hoof'))).out).not.toMatch(sent);
  });

  it('from arguments', async () => {
    for (const args of [[evil], ['check', '--format', evil, 'x'], ['check', `--${evil}`, 'x']])
      expect((await run(...args)).err.join('\n')).not.toMatch(sent);
  });

  it('where a file itself is printed: to a terminal; elsewhere it stays what it is', async () => {
    const text = `hoof 1\n\ncase "${evil}"\n`;
    writeFileSync(at('a.hoof'), text);
    expect((await run('format', at('a.hoof'))).out).toBe(text);
    let out = '';
    await commandLine(['format', at('a.hoof')], { out: (text) => (out += text), err: () => {}, terminal: true });
    expect(out).toBe(`hoof 1\n\ncase "${seen}"\n`);
  });
});

describe('folders', () => {
  it('that cannot be read cost only themselves; hidden ones and node_modules are not even looked into', () => {
    chmodSync(folder, 0o755);
    const shut = ['shut', 'node_modules', '.hidden', join('deep', 'node_modules')];
    for (const name of ['open', 'shut', 'node_modules', '.hidden', join('deep', 'node_modules')]) {
      mkdirSync(at(name), { recursive: true });
      writeFileSync(at(name, 'bad.hoof'), bad);
      if (shut.includes(name)) chmodSync(at(name), 0o000);
    }
    const { status, out, err } = program.runAsNobody('check', folder);
    for (const name of shut) chmodSync(at(name), 0o755);
    expect([status, heads(out)]).toEqual([2, [told(at('open', 'bad.hoof'))]]);
    expect(err).toEqual([`ungula: ${at('shut')}: may not be read`]);
  });

  it('of macOS have a hidden file beside each, which is no case unless it is named', async () => {
    writeFileSync(at('a.hoof'), bad);
    writeFileSync(at('._a.hoof'), Buffer.from([0, 5, 22, 7, 0, 2, 0, 0, 0xff]));
    const { status, out, err } = await run('check', folder);
    expect([status, heads(out), err]).toEqual([1, [told(at('a.hoof'))], []]);
    expect((await run('check', at('._a.hoof'))).status).toBe(2);
  });

  it('that are links are passed over, in a circle too', async () => {
    mkdirSync(at('a', 'b'), { recursive: true });
    writeFileSync(at('a', 'bad.hoof'), bad);
    symlinkSync('..', at('a', 'b', 'up'));
    symlinkSync(at('a'), at('again'));
    symlinkSync(at('a', 'bad.hoof'), at('also.hoof'));
    expect(heads((await run('check', folder)).out)).toEqual([told(at('a', 'bad.hoof'))]);
    // A link that is named is meant.
    expect(heads((await run('check', at('again'))).out)).toEqual([told(at('again', 'bad.hoof'))]);
  });

  it('without a case say so once', async () => {
    mkdirSync(at('none'));
    expect(await run('check', at('none'))).toEqual({
      status: 2,
      out: '',
      err: [`${at('none')}: no .hoof file is in this folder or below it`],
    });
  });
});

describe('one file', () => {
  it('under two names is read once, and not accused of having its own code', async () => {
    writeFileSync(at('a.hoof'), `${bad}  code EX07\n`);
    symlinkSync('a.hoof', at('link.hoof'));
    const names = [at('a.hoof'), `${folder}/./a.hoof`, relative(process.cwd(), at('a.hoof')), folder, at('link.hoof')];
    expect(heads((await run('check', ...names)).out)).toEqual([told(at('a.hoof'))]);
    expect((await run('check', '--format', 'json', ...names)).out).not.toContain('case/same-code');
    const twice = await run('format', '--write', at('a.hoof'), at('link.hoof'));
    expect(twice).toEqual({ status: 0, out: `${at('a.hoof')}\n`, err: [] });
  });

  it('under two hard links is two files, as it is for whoever edits one of them', async () => {
    writeFileSync(at('a.hoof'), `${bad}  code EX07\n`);
    linkSync(at('a.hoof'), at('b.hoof'));
    expect((await run('check', at('a.hoof'), at('b.hoof'))).out).toContain('case/same-code');
  });

  it.each(['check', 'measure', 'course', 'format'])('over 10 MB is too large for %s; the next is not', async (name) => {
    writeFileSync(at('big.hoof'), `hoof 1\n${'#'.repeat(11_000_000)}\n`);
    writeFileSync(at('good.hoof'), 'hoof 1\n\ncase "B"\n');
    const { status, out, err } = await run(name, at('big.hoof'), at('good.hoof'));
    expect(status).toBe(2);
    expect(err).toEqual([expect.stringContaining('big.hoof: larger than 10 MB, so it is not read as a case')]);
    expect(out.length).toBeLessThan(1000);
    if (name !== 'check') expect(out).toContain('B');
  });

  it.each(['check', 'measure', 'course', 'format', 'report'])(
    'of millions of short lines is too large for %s, which needs no memory to say so',
    (name) => {
      writeFileSync(at('lines.hoof'), 'x\n'.repeat(4_700_000));
      const file = `${at('lines.hoof')}${name === 'report' ? ` -o ${at('page.html')}` : ''}`;
      const { status, err } = program.shell(
        `ulimit -t 20; "$NODE" --max-old-space-size=1024 "$PROGRAM" ${name} ${file}`,
      );
      expect([status, err]).toEqual([
        2,
        [
          `ungula: ${at('lines.hoof')}: more than 400,000 lines, so it is not read as a case; if it is one, move its older visits into a second file`,
        ],
      ]);
    },
  );

  it('without an end is not read for ever, by standard input neither', () => {
    const { status, err } = program.shell('timeout 30 "$NODE" "$PROGRAM" check /dev/zero');
    expect([status, err]).toEqual([2, [expect.stringContaining('/dev/zero: larger than 10 MB')]]);
    const piped = program.shell('timeout 30 "$NODE" "$PROGRAM" check - </dev/zero');
    expect([piped.status, piped.err]).toEqual([2, [expect.stringContaining('-: larger than 10 MB')]]);
  });

  it('is no folder on standard input', () => {
    for (const command of ['check', 'measure', 'format']) {
      const { status, out, err } = program.shell(`ungula ${command} - < .`);
      expect([status, out, err]).toEqual([2, '', ['ungula: -: standard input is a folder; name it in place of -']]);
    }
    expect(program.shell('ungula check - < /dev/null').status).toBe(1);
    expect(program.shell('ungula check - <&-').err.join()).not.toContain('mistake of the program');
  });

  it('may come through a pipe of its own', () => {
    const { status, out } = program.shell(`ungula check <(printf 'hoof 1\\ncase "B"\\n  height 148\\n')`);
    expect([status, out]).toEqual([1, expect.stringContaining(':3:10: error notation/missing-unit')]);
  });

  it('that the program itself stumbles over costs only itself, in a line without a stack', async () => {
    writeFileSync(at('a.hoof'), `${bad}# fatal\n`);
    writeFileSync(at('b.hoof'), bad);
    const sentence = 'a mistake of the program itself, not of your file; please report it: x is not a function';
    for (const [args, words] of [
      [['check'], 'missing-unit'],
      [['measure'], 'b.hoof: B'],
      [['course'], 'b.hoof: B'],
      [['report', '-o', at('page.html')], 'page.html'],
    ] as const) {
      const { status, out, err } = await run(...args, at('a.hoof'), at('b.hoof'));
      expect([status, err]).toEqual([2, [`${at('a.hoof')}: ${sentence}`]]);
      expect(out).toContain(words);
    }
    expect(readFileSync(at('page.html'), 'utf8')).not.toContain('a.hoof');
  });
});

describe('arguments', () => {
  const juniper = join(import.meta.dirname, '..', '..', 'examples', 'juniper.hoof');
  const plan = (...args: string[]) => run('plan', juniper, '--foot', 'LF', ...args);

  it.each(
    ['heel', 'toe', 'back'].flatMap((name) =>
      ['-5', 'Infinity', '1e308', '9'.repeat(400), 'five', '', '61', '1,5', '0x10', 'NaN', '.5'].map(
        (value) => [name, value] as const,
      ),
    ),
  )('--%s %j is refused in a line', async (name, value) => {
    const { status, out, err } = await plan(`--${name}`, value);
    expect([status, out]).toEqual([2, '']);
    expect(err).toEqual([
      `--${name} takes a number from 0 to 60 mm, such as 5.5; not ${value === '' ? 'nothing' : value}`,
    ]);
  });

  it.each(['-1', '0', '1e3', '157', 'four', ''])('--weeks %j is refused in a line', async (value) => {
    const { status, err } = await plan('--to', 'most', '--weeks', value);
    expect([status, err]).toEqual([
      2,
      [expect.stringContaining('--weeks takes a number from 1 to 156 weeks, such as 4')],
    ]);
  });

  it.each(['1e1', '181', '-181', '', 'steep'])('--to palmar-angle=%s is refused in a line', async (value) => {
    const { status, err } = await plan('--to', `palmar-angle=${value}`);
    expect([status, err]).toEqual([2, [expect.stringContaining('palmar-angle takes a number from -180 to 180 deg')]]);
  });

  it('an option goes as far as the same number in a case file', async () => {
    const { status, out } = await plan('--to', 'most', '--weeks', '156');
    expect(status).toBe(0);
    expect(out).toMatch(/^visit \d{4}-/m);
    // A file takes this angle as a limit; that no foot stands so is for the solver to say.
    expect((await plan('--to', 'palmar-angle=-120')).err.join()).not.toContain('takes a number');
  });

  it('a cut has no weeks, and no option is given twice', async () => {
    expect((await plan('--heel', '1', '--weeks', '4')).err).toEqual([expect.stringContaining('it goes with --to')]);
    expect((await plan('--heel', '1', '--heel', '2')).err).toEqual([expect.stringContaining('--heel is given twice')]);
  });

  it('plan --to with --back takes the toe back first, and what it writes checks', async () => {
    const { status, out } = await plan('--to', 'most', '--back', '2', '--format', 'json');
    const { stages, notation } = JSON.parse(out) as { stages: { back: number }[]; notation: string };
    expect([status, stages[0]?.back]).toEqual([0, 2]);
    expect(notation).toContain('toe   back 2 mm');
    const text = `${readFileSync(juniper, 'utf8')}\n${notation}\n`;
    writeFileSync(at('planned.hoof'), text);
    const first = text.split('\n').length - notation.split('\n').length - 1;
    const { out: lines } = await run('check', at('planned.hoof'));
    expect(lines.split('\n').filter((line) => Number(line.split(':')[1]) > first)).toEqual([]);
  });

  it('plan keeps the limits of a set of one’s own', async () => {
    writeFileSync(
      at('own.json'),
      JSON.stringify({
        'ungula-reference': 1,
        name: 'Own',
        source: { cite: 'our films' },
        bands: [{ measure: 'palmar-angle', low: 8, severity: 'error' }],
      }),
    );
    const most = ['--to', 'most', '--format', 'json'];
    const usual = JSON.parse((await plan(...most)).out) as PlannedJson;
    expect(usual.stages[0]?.predicted['palmar-angle']?.value).toBeLessThan(8);
    const { status, out } = await plan(...most, '--reference', at('own.json'));
    expect([status, JSON.parse(out)]).toMatchObject([
      1,
      { stages: [], stoppedBy: ['trim/palmar-angle'], problem: null },
    ]);
    expect((await plan('--to', 'most', '--reference', at('none.json'))).err).toEqual([
      `${at('none.json')}: no such file or folder`,
    ]);
  });
});
