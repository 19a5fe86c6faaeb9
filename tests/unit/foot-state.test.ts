import { TextDocument } from 'vscode-languageserver-textdocument';
import { describe, expect, it } from 'vitest';
import { codeLenses } from '../../server/features/code-lenses.ts';
import { clientAbilities } from '../../server/serving/client-abilities.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { footStateAt } from '../../shared/views/foot-state.ts';
import { caseText, filmText } from './plain-foot.ts';

// What is known of the plain foot: its bone at 5.0 degrees (7 mm over 80), 15 mm of sole.
const left = filmText();
const right = filmText({}, { header: 'film RF lateral "y.png"' });
const stateAt = (text: string, words: string) => footStateAt(text.indexOf(words), inspect(text));

describe('how the foot at the cursor stands', () => {
  const text = caseText(`${left}\n${right}\n  plan LF\n    heel down 2 mm\n`);

  it.each([
    ['film LF', 'LF'],
    ['film RF', 'RF'],
    ['plan LF', 'LF'],
    ['heel down', 'LF'],
    // Before all films: that of the newest.
    ['case "Test"', 'RF'],
  ])('at %s is told of %s, in a few words', (words, foot) => {
    const state = stateAt(text, words);
    expect(state?.foot).toBe(foot);
    expect(state?.says).toBe(`${foot} palmar angle 5.0°, sole 15.0 mm`);
    expect(state?.isAlarm).toBe(false);
    expect(text.split('\n')[state?.line ?? -1]).toContain(`film ${foot}`);
  });

  it('says at more length how sure that is, and the plan that is open', () => {
    expect(stateAt(text, 'film LF')?.about).toEqual([
      'Left fore, film of 4 March 2026',
      expect.stringMatching(/^palmar angle 5\.0° ± \d\.\d$/) as string,
      expect.stringMatching(/^sole depth at the tip 15\.0 mm ± \d\.\d$/) as string,
      'A plan is open: heel down 2 mm.',
    ]);
    expect(stateAt(text, 'film RF')?.about).toHaveLength(3);
  });

  it('is the newest film, by its day and not by its place', () => {
    const newer = filmText(
      { 'p3.wing': [-80, 30] },
      { header: 'film LF lateral "z.png"', more: ['    taken 2026-03-20'] },
    );
    const older = caseText(`${newer}\n${left}`);
    expect(stateAt(older, '"x.png"')?.says).toContain('palmar angle 9.9°');
  });

  it('is of the foot that a hand took, too', () => {
    const taped = caseText(`${left}\n${right}\n  tape LF\n    toe-length 80 mm\n  tape RF\n    toe-length 81 mm\n`);
    expect(stateAt(taped, 'tape LF')?.foot).toBe('LF');
    expect(stateAt(taped, 'toe-length 80')?.foot).toBe('LF');
    expect(stateAt(taped, 'toe-length 81')?.foot).toBe('RF');
  });

  it('is by the reading that gives a value, where the first that lies on its ground gives none', () => {
    const few = ['toe.ground', 'heel.ground', 'wall.upper', 'wall.lower', 'coronet.dorsal'];
    const first = filmText()
      .split('\n')
      .filter((line) => !line.includes('@') || few.some((name) => line.includes(name)));
    const second = filmText()
      .split('\n')
      .filter((line) => line.includes('@'));
    const read = ['    read "Ash"', ...second.map((line) => `  ${line}`)];
    const text = caseText([...first, ...read].join('\n'));
    expect(inspect(text).study.films[0]?.readings[0]?.taking.frame).not.toBeNull();
    expect(stateAt(text, 'film LF')?.says).toBe('LF palmar angle 5.0°, sole 15.0 mm');
  });

  it('names no foot where the alarm may be of another', () => {
    expect(stateAt(caseText(`${left}\n${right}\n  sign fever\n`), 'film RF')?.says).toMatch(/^An alarm is open, line /);
  });

  it('is an alarm while one is open, with its sentence and its line', () => {
    const alarmed = caseText(`  sign fever\n${left}`);
    const state = stateAt(alarmed, 'film LF');
    expect(state?.says).toBe('An alarm is open, line 7');
    expect(state?.isAlarm).toBe(true);
    expect(state?.line).toBe(6);
    expect(state?.about[0]).toMatch(/^Call the vet now: fever/);
  });

  it.each([
    ['without a film', caseText('  sign fever')],
    ['of a film on which nothing is placed', caseText('  sign fever\n\n  film LF lateral "x.png"')],
    ['by hand alone', caseText('  sign fever\n\n  tape RF\n    toe-length 90 mm')],
  ])('is the alarm of a case %s too', (_what, text) => {
    const state = stateAt(text, 'sign');
    expect(state?.says).toBe('An alarm is open, line 7');
    expect(state?.about).toEqual([expect.stringMatching(/^Call the vet now: fever/) as string]);
  });

  it('is nothing where nothing is measured', () => {
    expect(stateAt(caseText('  obel 0'), 'obel')).toBeNull();
    expect(stateAt(caseText('  film LF lateral "x.png"'), 'film')).toBeNull();
    expect(stateAt('', '')).toBeNull();
  });
});

describe('lenses of a client that has commands for them', () => {
  const commands = { preview: 'p', placeLandmark: 'l', planTrim: 't', handOver: 'h' };
  const lensesOf = (text: string, options: object) =>
    codeLenses(TextDocument.create('file:///a.hoof', 'hoof', 1, text), inspect(text), clientAbilities({}, options)).map(
      ({ range, command }) => [range.start.line + 1, command?.title, command?.command, command?.arguments],
    );
  const older = filmText({}, { header: 'film LF lateral "w.png"', more: ['    taken 2026-02-01'] });
  const text = caseText(`${older}\n${left}`);
  const lineOf = (words: string): number => text.slice(0, text.indexOf(words)).split('\n').length;
  const at = (words: string): unknown[] => ['file:///a.hoof', lineOf(words) - 1];

  it('lead to the preview, to placing, to a plan on the newest film, and to a page', () => {
    expect(lensesOf(text, commands)).toEqual([
      [lineOf('case'), '1 visit, 2026-03-04', 'p', at('case')],
      [lineOf('case'), 'page to hand over', 'h', at('case')],
      [lineOf('visit'), '2 films', 'p', at('visit')],
      [lineOf('film LF lateral "w.png"'), 'place more', 'l', [...at('film LF lateral "w.png"'), '']],
      [
        lineOf('film LF lateral "x.png"'),
        expect.stringMatching(/^since 2026-02-01: /),
        'p',
        at('film LF lateral "x.png"'),
      ],
      [lineOf('film LF lateral "x.png"'), 'place more', 'l', [...at('film LF lateral "x.png"'), '']],
      [lineOf('film LF lateral "x.png"'), 'plan a trim', 't', at('film LF lateral "x.png"')],
    ]);
  });

  it('of a client without, say what they say and nothing can be pressed', () => {
    expect(lensesOf(text, {}).map(([, , command]) => command)).toEqual(['', '', '']);
  });

  it('ask for landmarks where none are placed', () => {
    const bare = caseText('  film LF lateral "x.png"');
    expect(lensesOf(bare, commands).map(([, says]) => says)).toContain('place landmarks');
    expect(lensesOf(bare, commands).map(([, says]) => says)).not.toContain('plan a trim');
  });
});
