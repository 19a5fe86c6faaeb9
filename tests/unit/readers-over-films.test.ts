import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { openAlarms } from '../../shared/findings/open-alarms.ts';
import { sinkingSheet } from '../../shared/views/sinking-sheet.ts';
import { sunk } from './moved-foot.ts';
import { filmText, type Places } from './plain-foot.ts';

/** Films that several people have placed, over a course: the same person is compared where both films have him. */

const places = (changes: Places): string =>
  filmText(changes)
    .split('\n')
    .slice(3)
    .map((line) => `  ${line}`)
    .join('\n');
type Readings = readonly (readonly [reader: string, changes: Places])[];
const caseOf = (...films: readonly Readings[]): string =>
  `hoof 1\n\n${films
    .map(
      (readings, index) =>
        `visit 2026-0${index + 1}-10\n  obel 0\n  film LF lateral "f${index}.png"\n    scale 0.1 mm/px\n    ground 0, 1000 .. 2000, 1000\n${readings
          .map(([reader, changes]) => `    read "${reader}"\n${places(changes)}`)
          .join('\n')}\n`,
    )
    .join('\n')}`;
const told = (text: string, code = 'course/sinking') => inspect(text).findings.filter((one) => one.code === code);
const sheet = (text: string) => sinkingSheet('LF', inspect(text).study)?.text;

describe('a sinking that only the second reader of each film sees', () => {
  const text = caseOf(
    ...[0, 2, 4, 6, 8].map((mm): Readings => [
      ['Ash', {}],
      ['Rowan', sunk(mm)],
    ]),
  );

  it('is told one level lower, with who sees it and who does not', () => {
    const [found, ...more] = told(text);
    expect(more).toEqual([]);
    expect(found).toMatchObject({ severity: 'warning' });
    expect(found?.message).toMatch(/gone down by \d\.\d ± \d\.\d mm|lies \d\.\d ± \d\.\d mm lower/);
    expect(found?.message).toContain('It may be sinking: tell the vet');
    expect(found?.message).not.toContain('Call the vet today');
    expect(found?.message).toMatch(
      /The readers disagree: this is by the placings of Rowan; by those of Ash nothing is seen\.$/,
    );
    expect(openAlarms(inspect(text).study)).toHaveLength(1);
    expect(sheet(text)).toContain('The readers disagree');
  });

  it('that all of them see is as grave as ever', () => {
    const both = caseOf(
      ...[0, 2, 4, 6, 8].map((mm): Readings => [
        ['Ash', sunk(mm)],
        ['Rowan', sunk(mm)],
      ]),
    );
    expect(told(both)).toMatchObject([{ severity: 'error' }]);
    expect(told(both)[0]?.message).toMatch(/Call the vet today\. By the placings of Ash\.$/);
  });

  it('is not hidden either where the first reader sees it alone', () => {
    const first = caseOf(
      ...[0, 4, 8].map((mm): Readings => [
        ['Ash', sunk(mm)],
        ['Rowan', {}],
      ]),
    );
    expect(told(first)).toMatchObject([{ severity: 'warning' }]);
    // Who has read nothing since says nothing against it.
    const stopped = caseOf(
      ...[0, 0, 4, 8].map((mm, index): Readings => [['Ash', sunk(mm)], ...(index < 2 ? [['Rowan', {}] as const] : [])]),
    );
    expect(told(stopped)).toMatchObject([{ severity: 'error' }]);
  });
});

describe('a film with another reader before the old one', () => {
  it('is held against the earlier film by the reader whom both have', () => {
    for (const newer of [
      [['Cedar', sunk(5)] as const, ['Ash', {}] as const],
      [['Ash', {}] as const, ['Cedar', sunk(5)] as const],
    ]) {
      const text = caseOf([['Ash', {}]], newer);
      expect(told(text)).toEqual([]);
      expect(sheet(text)).toMatch(/^None seen by the placings of Ash; /);
    }
    const sinks = caseOf(
      [['Ash', {}]],
      [
        ['Cedar', {}],
        ['Ash', sunk(6)],
      ],
    );
    expect(told(sinks)).toMatchObject([{ severity: 'error' }]);
  });
});

describe('a rotation that one of two readers sees', () => {
  it('is told one level lower', () => {
    const turned: Places = { 'p3.dorsal.upper': [-23, 55] };
    const text = caseOf(
      [
        ['Ash', {}],
        ['Rowan', {}],
      ],
      [
        ['Ash', {}],
        ['Rowan', turned],
      ],
    );
    expect(told(text, 'course/rotating')).toMatchObject([{ severity: 'info' }]);
    expect(told(text, 'course/rotating')[0]?.message).toMatch(
      /^Left fore: bone and wall (?:may )?have parted by \d+\.\d ± \d\.\d° more than on 10 January 2026\. .*by the placings of Rowan; by those of Ash nothing is seen\.$/,
    );
  });
});

describe('a newest film that cannot tell of sinking', () => {
  const one = (changes: Places, scale: string | null = 'scale 0.1 mm/px') => filmText(changes, { scale });
  const pair = (before: string, after: string): string =>
    `hoof 1\n\nvisit 2026-01-10\n  obel 0\n${before}\n\nvisit 2026-02-10\n${after.replace('x.png', 'y.png')}\n`;
  const said = (text: string) =>
    told(text, 'course/cannot-tell').map(({ severity, message }) => `${severity}: ${message}`);

  it('says what is missing, at the film', () => {
    expect(said(pair(one({}), one({ ...sunk(8), 'p3.extensor': undefined })))).toEqual([
      'info: Left fore: this film cannot tell whether the bone has sunk. It lacks the extensor process (p3.extensor).',
    ]);
    expect(said(pair(one({}), one(sunk(8), null)))[0]).toContain('It lacks a scale.');
    const none = one({ ...sunk(8), 'wall.top': undefined, 'coronet.dorsal': undefined });
    expect(said(pair(one({}), none))[0]).toContain('It lacks the top of the firm wall (wall.top) or the hairline');
    expect(said(pair(one({}, null), one(sunk(8))))[0]).toContain('It has no earlier film with a scale');
  });

  it('that has no landmark at the top in common with an earlier film says so, and the course says the same', () => {
    const text = pair(one({ 'wall.top': undefined }), one({ ...sunk(6), 'coronet.dorsal': undefined }));
    expect(said(text)[0]).toContain('It has no landmark at the top in common with an earlier film');
    expect(sheet(text)).toBe(
      'The newest film cannot tell: it has no landmark at the top in common with an earlier film; place wall.top or coronet.dorsal on both.',
    );
  });

  it('is not said of one that can, of a first film, nor of one on which nothing is placed', () => {
    expect(said(pair(one({}), one({})))).toEqual([]);
    expect(said(`hoof 1\n\nvisit 2026-01-10\n${one({ 'p3.extensor': undefined })}\n`)).toEqual([]);
    expect(said(pair(one({}), '  film LF lateral "y.png"'))).toEqual([]);
  });
});
