import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { jsonShapes } from '../../shared/export/json-shapes.ts';
import { dayNumber } from '../../shared/notation/dates.ts';
import { dueOn } from '../../shared/views/due.ts';
import { commandLine } from '../../src/cli/command-line.ts';
import { caseText, filmText } from './plain-foot.ts';

const folder = mkdtempSync(join(tmpdir(), 'ungula-due-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const itemsOn = (date: string, text: string): string[] =>
  dueOn(dayNumber(date) ?? NaN, inspect(text)).items.map(({ says }) => says);

/** A visit of 4 March 2026 with these lines. */
const visit = (lines: string): string => caseText(`  ${lines}`);

describe('what waits on a day', () => {
  it.each([
    ['2026-03-25', []],
    ['2026-03-26', ['The next visit, 2 April 2026: due in 7 days.']],
    ['2026-04-01', ['The next visit, 2 April 2026: due in 1 day.']],
    ['2026-04-02', ['The next visit, 2 April 2026: due today.']],
    ['2026-04-03', ['The next visit, 2 April 2026: 1 day overdue.']],
    ['2026-05-02', ['The next visit, 2 April 2026: 30 days overdue.']],
  ])('on %s of a visit that comes four weeks and a day after 4 March', (date, says) => {
    expect(itemsOn(date, visit('next 2026-04-02'))).toEqual(says);
    expect(itemsOn(date, visit('next 29 days'))).toEqual(says);
  });

  it('is no visit that a later one has followed, and none where nothing was agreed', () => {
    expect(itemsOn('2026-06-01', `${visit('next 2026-04-02')}\nvisit 2026-03-30\n  obel 0\n`)).toEqual([]);
    expect(itemsOn('2026-06-01', visit('obel 0'))).toEqual([]);
    // One to an emergency, long before it, leaves it as it was agreed; one that names its own takes its place.
    const emergency = (lines: string): string => `${visit('next 2026-04-02')}\nvisit 2026-03-10\n  ${lines}\n`;
    expect(itemsOn('2026-04-03', emergency('obel 0'))).toEqual(['The next visit, 2 April 2026: 1 day overdue.']);
    expect(itemsOn('2026-04-03', emergency('next 2026-04-10'))).toEqual([
      'The next visit, 10 April 2026: due in 7 days.',
    ]);
  });

  it('is the newest plan of a foot, until a trim of that foot', () => {
    const plan = 'plan LF\n    heel down 4 mm\n';
    const waits = ['Planned on 4 March 2026, and no trim since: left fore, heel down 4 mm.'];
    const after = (lines: string): string => `${visit(plan)}\nvisit 2026-03-30\n  ${lines}\n`;
    expect(itemsOn('2026-03-04', visit(plan))).toEqual(waits);
    expect(itemsOn('2026-03-03', visit(plan))).toEqual([]);
    expect(itemsOn('2026-04-04', after('trim RF\n    heel down 4 mm'))).toEqual(waits);
    expect(itemsOn('2026-04-04', after('trim LF\n    heel down 2 mm'))).toEqual([]);
    // A trim in words was one all the same; of one day the order of the text counts.
    expect(itemsOn('2026-04-04', after('trim LF RF\n    work "edges"'))).toEqual([]);
    expect(itemsOn('2026-04-04', visit(`${plan}  trim LF\n    heel down 2 mm\n`))).toEqual([]);
    expect(itemsOn('2026-04-04', visit(`trim LF\n    heel down 2 mm\n  ${plan}`))).toEqual(waits);
  });

  it('is an old film of a lame foot: 42 days, as a plan may rest on none that is older', () => {
    const filmed = (obel: string): string => caseText(`${obel}${filmText()}\n`);
    const old = ['Left fore, lame: its newest film is 43 days old, of 4 March 2026; after 42 no plan rests on it.'];
    expect(itemsOn('2026-04-16', filmed('  obel 1\n'))).toEqual(old);
    expect(itemsOn('2026-04-15', filmed('  obel 1\n'))).toEqual([]);
    expect(itemsOn('2026-04-16', filmed('  obel 0\n'))).toEqual([]);
    expect(itemsOn('2026-04-16', filmed(''))).toEqual([]);
    expect(itemsOn('2026-04-16', filmed('  meier 5\n'))).toEqual(old);
  });
});

async function run(...args: string[]) {
  let [out, err] = ['', ''];
  const status = await commandLine(['due', ...args], {
    out: (said) => (out += said),
    err: (said) => (err += `${said}\n`),
  });
  return { status, out, err };
}

describe('ungula due', () => {
  const write = (name: string, text: string): void => writeFileSync(join(folder, name), text);
  write('a.hoof', visit('next 2026-03-30'));
  write('b.hoof', visit('obel 0'));
  write('c.hoof', visit('sign fever'));
  write('d.hoof', visit('next 2026-03-20'));

  it('tells the cases with an alarm first, then the longest overdue, and how many wait', async () => {
    const { out, status } = await run(folder, '--on', '2026-04-02');
    expect(status).toBe(0);
    const names = [...out.matchAll(/^\S*([a-d])\.hoof: /gm)].map(([, name]) => name);
    expect(names).toEqual(['c', 'd', 'a']);
    expect(out).toMatch(/c\.hoof:\d+: Call the vet now: fever, seen on 4 March 2026\./);
    expect(out.trimEnd().split('\n').at(-1)).toBe('On 2 April 2026 something waits in 3 of 4 cases.');
  });

  it('says so where nothing waits', async () => {
    const { out } = await run(join(folder, 'b.hoof'), '--on', '2026-04-02');
    expect(out.trimEnd()).toBe('On 2 April 2026 nothing waits (1 case looked at).');
  });

  it('is the same as JSON, and refuses a day that is none', async () => {
    const { out } = await run(folder, '--on', '2026-04-02', '--format', 'json');
    const { on, cases } = jsonShapes.due.parse(JSON.parse(out));
    expect([on, cases.length]).toEqual(['2026-04-02', 3]);
    expect(cases[1]?.items).toMatchObject([{ kind: 'visit', foot: null, date: '2026-03-20', days: 13 }]);
    const bad = await run(folder, '--on', '2026-02-30');
    expect([bad.status, bad.err]).toEqual([2, '--on takes a day such as 2026-03-04; not 2026-02-30\n']);
  });
});
