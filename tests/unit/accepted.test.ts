import { describe, expect, it } from 'vitest';
import { codes } from '../../shared/findings/catalogue.ts';
import { whyNever } from '../../shared/findings/engine/accepted.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { format } from '../../shared/notation/format.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { reportPage } from '../../shared/report/page.ts';
import { caseText, filmText } from './plain-foot.ts';

/** 6 mm of sole, told as a warning. */
const thin = { 'sole.tip': [0, 10] } as const;
const accept = (about: string, because = 'chronic case, agreed with the vet'): string =>
  `accept ${about} because "${because}"`;
const told = (text: string) =>
  inspect(text).findings.map(({ code, severity, accepted }) => ({ code, severity, accepted }));
const codesOf = (text: string): string[] => inspect(text).findings.map(({ code }) => code);
const sole = caseText(filmText(thin));

describe('an acceptance', () => {
  it('turns what it names into a note that keeps its message, number and source, and leads to its line', () => {
    const [before] = inspect(sole).findings;
    const text = caseText(filmText(thin, { more: [accept('range/sole-depth.tip')] }));
    const findings = inspect(text).findings;
    expect(before).toMatchObject({ code: 'range/sole-depth.tip', severity: 'warning' });
    expect(findings).toHaveLength(1);
    const [after] = findings;
    expect(after).toMatchObject({
      ...before,
      severity: 'info',
      accepted: 'chronic case, agreed with the vet',
      message: `${before?.message} Accepted: "chronic case, agreed with the vet"`,
      at: expect.anything(),
      related: expect.anything(),
    });
    expect(after?.related.map(({ at, message }) => [text.slice(at.start, at.end), message])).toEqual([
      ['accept range/sole-depth.tip because "chronic case, agreed with the vet"', 'Accepted here.'],
    ]);
  });

  it('makes a note of an error and a hint of what was information', () => {
    const trim = `${caseText(`${filmText()}\n\n  trim LF\n    heel down 1 mm\n    ${accept('trim/outcome')}`)}\nvisit 2026-04-01\n${filmText({}, { header: 'film LF lateral "y.png"' })}\n`;
    expect(told(trim)).toEqual([{ code: 'trim/outcome', severity: 'hint', accepted: expect.any(String) }]);
    const grave = caseText(filmText({ 'sole.tip': [0, 13] }, { more: [accept('range/sole-depth.tip')] }));
    expect(told(grave.replace(/ {4}accept.*\n/, ''))).toMatchObject([{ severity: 'error' }]);
    expect(told(grave)).toMatchObject([{ severity: 'info' }]);
  });

  it('counts in its block and in the blocks within, and nowhere else', () => {
    const two = (first: string, inFilm: string): string =>
      caseText(
        `${first}${filmText(thin, inFilm ? { more: [inFilm] } : {})}\n${filmText(thin, { header: 'film RF lateral "y.png"' })}`,
      );
    const here = accept('range/sole-depth.tip');
    expect(told(two('', here)).map(({ severity }) => severity)).toEqual(['info', 'warning']);
    expect(told(two(`  ${here}\n`, '')).map(({ severity }) => severity)).toEqual(['info', 'info']);
    // The one in the film is nearer, so that of the visit is left with the other film.
    const both = inspect(two(`  ${accept('range/sole-depth.tip', 'of the visit')}\n`, here)).findings;
    expect(both.map(({ accepted }) => accepted)).toEqual(['chronic case, agreed with the vet', 'of the visit']);
  });

  it('in a reader’s placing counts for that reader', () => {
    const places = filmText(thin).split('\n').slice(3).join('\n');
    const read = (name: string, line = ''): string =>
      `    read "${name}"\n${line}${places.replace(/^ {4}/gm, '      ')}`;
    const body = `  film LF lateral "x.png"\n    scale 0.1 mm/px\n    ground 0, 1000 .. 2000, 1000\n`;
    const text = caseText(`${body}${read('A', `      ${accept('range/sole-depth.tip')}\n`)}\n${read('B')}`);
    // What both see is told once, and then of the reader who does not live with it.
    expect(told(text).map(({ code, severity }) => `${severity} ${code}`)).toEqual([
      'info accept/nothing',
      'warning range/sole-depth.tip',
    ]);
    // It does not end the reading: every landmark after it is still that reader's.
    expect(inspect(text).study.films[0]?.readings.map(({ reading }) => reading.placings.length)).toEqual([25, 25]);
  });

  it('counts in a plan, a trim, a tape, a case and a visit', () => {
    const after = (text: string, code: string): unknown =>
      inspect(text).findings.find((one) => one.code === code)?.accepted;
    const old = (line: string): string =>
      caseText(`${filmText({}, { more: ['taken 2026-01-05'] })}\n\n  plan LF\n    heel down 1 mm\n    ${line}`);
    expect(after(old(accept('trim/film-age', 'a')), 'trim/film-age')).toBe('a');
    const tape = caseText(`${filmText()}\n\n  tape LF\n    toe-length 95 mm\n    ${accept('tape/disagrees', 'b')}`);
    expect(after(tape, 'tape/disagrees')).toBe('b');
    const chip = `hoof 1\n\ncase "X"\n  microchip 985999999999999\n  ${accept('record/microchip', 'c')}\n`;
    expect(after(chip, 'record/microchip')).toBe('c');
    const interval = `${caseText(`${filmText(thin)}\n\n  next 8 weeks`)}  ${accept('visit/interval', 'd')}\n`;
    expect(after(interval, 'visit/interval')).toBe('d');
  });

  it('that names a measure accepts what is told of that one only, by either of its names', () => {
    const limits = '\nlimits\n  heel-height <= 20 mm\n  breakover-reach <= 1 mm\n';
    const text = (more: string[]): string => caseText(filmText({}, { more }), { limits });
    const of = (more: string[]) =>
      inspect(text(more)).findings.map(({ code, measure, accepted }) => `${code} ${measure} ${accepted ?? '-'}`);
    expect(of([]).toSorted()).toEqual(['range/agreed breakover-reach -', 'range/agreed heel-height -']);
    expect(of([accept('range/agreed heel-height', 'x')]).toSorted()).toEqual([
      'range/agreed breakover-reach -',
      'range/agreed heel-height x',
    ]);
    expect(of([accept('range/agreed', 'x')]).toSorted()).toEqual([
      'range/agreed breakover-reach x',
      'range/agreed heel-height x',
    ]);
    expect(codesOf(text([accept('range/agreed hel-height')]))).toContain('measure/unknown');
    const hind = caseText(
      filmText({}, { header: 'film LH lateral "x.png"', more: [accept('range/palmar-angle plantar-angle', 'y')] }),
      { limits: '\nlimits\n  plantar-angle <= 2 deg\n' },
    );
    expect(inspect(hind).findings.find(({ code }) => code === 'range/palmar-angle')?.accepted).toBe('y');
  });
});

describe('an acceptance that does not hold', () => {
  const wrong = (line: string) => {
    const text = caseText(filmText(thin, { more: [line] }));
    const finding = inspect(text).findings.find(({ code }) => code.startsWith('accept/'));
    // What it was meant for stays as it is.
    expect(inspect(text).findings.find(({ code }) => code === 'range/sole-depth.tip')).toMatchObject({
      severity: 'warning',
    });
    return { ...finding, over: text.slice(finding?.at.start, finding?.at.end), text };
  };
  const mended = ({ text, fixes }: ReturnType<typeof wrong>): string => {
    const [edit, ...more] = fixes?.[0]?.edits ?? [];
    expect(more).toEqual([]);
    return edit ? text.slice(0, edit.start) + edit.text + text.slice(edit.end) : '';
  };

  it('for want of a reason says so at the quotes', () => {
    expect(wrong('accept range/sole-depth.tip because "  "')).toMatchObject({
      code: 'accept/no-reason',
      over: '"  "',
      severity: 'error',
    });
    const without = inspect(caseText(filmText(thin, { more: ['accept range/sole-depth.tip'] }))).findings;
    const missing = without.find(({ code }) => code === 'notation/missing-argument');
    expect(missing?.fixes.map(({ title }) => title)).toEqual(['Add because']);
    expect(missing?.fixes[0]?.edits[0]?.text).toBe(' because ""');
  });

  it('for a code that there is not names the nearest, first of those told here', () => {
    const found = wrong(accept('range/sole-deep.tip'));
    expect(found).toMatchObject({ code: 'accept/unknown-code', over: 'range/sole-deep.tip', severity: 'error' });
    expect(mended(found)).toBe(caseText(filmText(thin, { more: [accept('range/sole-depth.tip')] })));
    expect(wrong(accept('whatever')).message).toContain('In this film are told: range/sole-depth.tip');
  });

  it('for a code that is not told here says so, and its line can go', () => {
    const found = wrong(accept('range/palmar-angle'));
    expect(found).toMatchObject({ code: 'accept/nothing', severity: 'info' });
    expect(mended(found)).toBe(sole);
    const twice = caseText(
      filmText(thin, { more: [accept('range/sole-depth.tip'), accept('range/sole-depth.tip', 'again')] }),
    );
    expect(inspect(twice).findings.find(({ code }) => code === 'accept/nothing')).toMatchObject({
      message: expect.stringContaining('already'),
      at: { start: twice.indexOf('accept', twice.indexOf('accept') + 1) },
    });
  });

  it('is refused for what nobody lives with, and says what to do instead', () => {
    for (const code of [
      'visit/call-the-vet',
      'trim/live-sole',
      'trim/below-sole-plane',
      'trim/sole-depth',
      'course/sinking',
      'trim/no-vet',
      'limits/loosened',
      'notation/missing-unit',
      'accept/nothing',
    ])
      expect(wrong(accept(code)), code).toMatchObject({ code: 'accept/never', over: code, severity: 'error' });
    const text = caseText(`  sign fever\n  ${accept('visit/call-the-vet')}`);
    expect(told(text).map(({ code, severity }) => `${severity} ${code}`)).toEqual([
      'error visit/call-the-vet',
      'error accept/never',
    ]);
  });

  it('nothing that belongs to the writing or to the acceptances can be accepted', () => {
    for (const { code } of codes) if (/^(?:notation|accept)\//.test(code)) expect(whyNever(code), code).toMatch(/\.$/);
    expect(codes.filter(({ code }) => whyNever(code) === undefined).length).toBeGreaterThan(30);
  });
});

describe('acceptances elsewhere', () => {
  const accepted = caseText(filmText(thin, { more: [accept('range/sole-depth.tip')] }));

  it('are laid out in the column of their block and formatted once', () => {
    const laidOut = format(accepted);
    expect(laidOut).toContain('\n    accept  range/sole-depth.tip because "chronic case, agreed with the vet"\n');
    expect(format(laidOut)).toBe(laidOut);
  });

  it('are listed as accepted in the sheet of the film and in the report', () => {
    const inspection = inspect(accepted);
    expect(filmSheets(inspection)[0]?.notes).toMatchObject([
      { code: 'range/sole-depth.tip', severity: 'info', accepted: 'chronic case, agreed with the vet' },
    ]);
    const page = reportPage([{ file: 'x.hoof', inspection, pictures: new Map() }], '2026-03-05');
    expect(page).toMatch(
      /<strong>Accepted:<\/strong> Sole depth[^<]*Accepted: &quot;chronic case, agreed with the vet&quot;/,
    );
  });
});
