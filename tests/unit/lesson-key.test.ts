import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { jsonShapes } from '../../shared/export/json-shapes.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { toldInText } from '../../shared/findings/withheld.ts';
import { keyRefusalWords } from '../../shared/lessons/key-refusal.ts';
import type { KeySeen } from '../../shared/lessons/key-seen.ts';
import { format } from '../../shared/notation/format.ts';
import { casePlace } from '../../shared/picture/picture-place.ts';
import { commandLine } from '../../src/cli/command-line.ts';
import { filmText } from './plain-foot.ts';

const folder = mkdtempSync(join(tmpdir(), 'ungula-lesson-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const lesson = (line: string, body = filmText()): string =>
  `hoof 1\n\ncase "Lesson"\n  ${line}\n\nvisit 2026-03-04\n${body}\n`;
const reading = (name: string): string => `    read "${name}"\n      p3.tip @ 2000, 840\n`;

describe('the line `key`', () => {
  const keyOf = (line: string) => {
    const { study, findings } = inspect(lesson(line));
    const key = study.record.animal?.is.key;
    return {
      key: key && { file: key.file?.text ?? null, by: key.by?.text ?? null },
      codes: findings.map(({ code }) => code).filter((code) => code.startsWith('notation/')),
    };
  };

  it('names another file, a reader in it, or a reader in this one', () => {
    expect(keyOf('key "teacher.hoof"')).toEqual({ key: { file: 'teacher.hoof', by: null }, codes: [] });
    expect(keyOf('key "teacher.hoof" by "Rowan"')).toEqual({ key: { file: 'teacher.hoof', by: 'Rowan' }, codes: [] });
    expect(keyOf('key by "Rowan"')).toEqual({ key: { file: null, by: 'Rowan' }, codes: [] });
  });

  it.each(['key', 'key by', 'key "a.hoof" by', 'key "a.hoof" "Rowan"', 'key Rowan'])('«%s» says too little', (line) => {
    const { key, codes } = keyOf(line);
    expect(key).toBeNull();
    expect(codes).not.toEqual([]);
  });

  it('stays as it is written when the file is laid out', () => {
    const text = lesson('key   "teacher.hoof"  by  "Rowan"');
    expect(format(text)).toContain('\n  key       "teacher.hoof" by "Rowan"\n');
  });
});

describe('a key that cannot be used', () => {
  const told = (line: string, seen: KeySeen | null, body = filmText()) => {
    const text = lesson(line, body);
    const { findings } = inspect(text, undefined, undefined, undefined, undefined, () => seen);
    return findings
      .filter(({ code }) => code === 'lesson/key')
      .map(({ at, severity, message }) => ({ at: text.slice(at.start, at.end), severity, message }));
  };
  const same = { foot: 'LF', view: 'lateral', picture: 'other/x.png' } as const;

  it('is told at the file, the reader or the film', () => {
    expect(told('key "t.hoof"', { refused: 'not there' })).toEqual([
      { at: '"t.hoof"', severity: 'warning', message: keyRefusalWords('not there', 't.hoof') },
    ]);
    expect(told('key ""', null)).toEqual([{ at: '""', severity: 'warning', message: keyRefusalWords('no name', '') }]);
    expect(told('key "t.hoof" by "Rowan"', { films: [{ ...same, readers: ['Ash'] }] })).toMatchObject([
      { at: '"Rowan"', severity: 'warning' },
    ]);
    expect(told('key "t.hoof"', { films: [{ ...same, readers: [] }] })).toMatchObject([
      { at: '"t.hoof"', severity: 'warning' },
    ]);
    expect(told('key "t.hoof"', { films: [{ ...same, foot: 'RF', readers: [null] }] })).toMatchObject([
      { at: '"x.png"', severity: 'info' },
    ]);
    expect(told('key by "Rowan"', null)).toMatchObject([{ at: '"Rowan"' }]);
  });

  it('is not told where it can be used, or nobody has looked', () => {
    expect(told('key "t.hoof"', { films: [{ ...same, readers: [null] }] })).toEqual([]);
    expect(told('key "t.hoof" by "Rowan"', { films: [{ ...same, readers: ['Ash', 'Rowan'] }] })).toEqual([]);
    expect(told('key "t.hoof" by "Rowan"', null)).toEqual([]);
    expect(told('key by "Rowan"', null, `${filmText()}\n${reading('Rowan')}`)).toEqual([]);
  });

  it.each([
    ['/etc/keys/t.hoof', 'absolute'],
    ['c:/t.hoof', 'absolute'],
    ['https://example.org/t.hoof', 'elsewhere'],
    ['../../t.hoof', 'outside'],
    ['sub\\t.hoof', 'backslash'],
    ['con.hoof', 'reserved name'],
    ['t.png', 'unknown kind'],
    ['', 'no name'],
  ])('%s is refused by its path: %s', (path, refused) => {
    expect(casePlace(path, '/clinic/class', ['/clinic'])).toEqual({ refused });
  });

  it('may lie anywhere within the open folders', () => {
    expect(casePlace('../keys/t.hoof', '/clinic/class', ['/clinic'])).toEqual({ path: '/clinic/keys/t.hoof' });
  });
});

describe('what is kept back beside the text of a lesson', () => {
  // The bone 20 degrees steeper than a usual foot's; and a weight in no unit, which is a slip of writing.
  const body = `  weight 500\n${filmText({ 'p3.wing': [-80, 55] })}`;
  const codes = (line: string, isShown: boolean) => {
    const { study, findings } = inspect(lesson(line, body));
    return toldInText(study, findings, isShown).map(({ code }) => code);
  };

  it('is what rests on places, and no slip of writing', () => {
    const whole = codes('breed "cob"', false);
    expect(whole).toContain('range/palmar-angle');
    expect(whole).toContain('notation/missing-unit');
    const kept = codes('key "t.hoof"', false);
    expect(kept).toContain('notation/missing-unit');
    expect(kept.filter((code) => /^(?:range|landmark|alignment|course|scale|trim)\//.test(code))).toEqual([]);
    expect(codes('key "t.hoof"', true)).toContain('range/palmar-angle');
  });
});

describe('ungula mark by the keys that the files name', () => {
  const write = (name: string, text: string): string => {
    writeFileSync(join(folder, name), text);
    return join(folder, name);
  };
  const run = async (...args: string[]) => {
    let [out, err] = ['', ''];
    const status = await commandLine(args, {
      out: (text) => (out += text),
      err: (line) => (err += `${line}\n`),
      terminal: false,
    });
    return { status, out, err };
  };
  // 3 mm to the toe and 4 mm down, at 0.1 mm a pixel: 5 mm by Pythagoras.
  const off = { 'p3.tip': [3, 12] } as const;
  mkdirSync(join(folder, 'class'));
  const teacher = write('class/teacher.hoof', `hoof 1\n\nvisit 2026-03-04\n${filmText()}\n`);
  const student = write('class/ash.hoof', lesson('key "teacher.hoof"', filmText(off)));
  const own = write('own.hoof', lesson('key by "Rowan"', `${filmText(off)}\n${reading('Rowan')}`));

  it('is the same as by --key', async () => {
    const named = await run('mark', student, '--format', 'json');
    const given = await run('mark', student, '--key', teacher, '--format', 'json');
    expect(named.err).toBe('');
    expect(jsonShapes.mark.parse(JSON.parse(named.out))).toEqual(JSON.parse(given.out));
    expect(named.out).toContain('"distance": 5');
  });

  it('passes over the key itself where a folder is named', async () => {
    const { status, out, err } = await run('mark', join(folder, 'class'));
    expect([status, err]).toEqual([1, '']);
    expect(out).toContain('Tip of the pedal bone: 5.0 mm off');
    expect(out).not.toContain('teacher.hoof');
  });

  it('holds a reading against another one of the same file', async () => {
    const { students } = jsonShapes.mark.parse(JSON.parse((await run('mark', own, '--format', 'json')).out));
    const points = students[0]?.films[0]?.marked?.points;
    expect(points?.map(({ landmark }) => landmark)).toEqual(['p3.tip']);
    expect(points?.[0]?.off?.distance).toBeCloseTo(5, 9);
  });

  it('says of a file without a key, or with one that is not to be had, what to do', async () => {
    const without = write('without.hoof', lesson('breed "cob"'));
    const gone = write('gone.hoof', lesson('key "gone-key.hoof"'));
    mkdirSync(join(folder, 'secret'));
    write('secret/key.hoof', lesson('breed "cob"'));
    mkdirSync(join(folder, 'sub'));
    symlinkSync('../secret/key.hoof', join(folder, 'sub', 'link.hoof'));
    const led = write('sub/led.hoof', lesson('key "link.hoof"'));
    const { status, err } = await run('mark', without, gone, led);
    expect(status).toBe(2);
    expect(err).toContain('without.hoof: it names no key');
    expect(err).toContain(`gone.hoof: ${keyRefusalWords('not there', 'gone-key.hoof')}`);
    expect(err).toContain(`led.hoof: ${keyRefusalWords('leads out', 'link.hoof')}`);
    const checked = await run('check', gone, led);
    expect(checked.out.match(/lesson\/key/g)).toHaveLength(2);
    expect((await run('mark', without, '--reader', 'Rowan')).err).toContain('--reader goes with --key');
  });
});
