import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { usualStudy } from '../../shared/trim/study.ts';
import { findingsOf } from './marked-text.ts';
import { caseText, filmText, soundFoot, type Places } from './plain-foot.ts';

const told = (text: string) =>
  findingsOf(text).filter(({ code }) => /^(?:landmark|scale|tape)\/|^limits\/absent/.test(code));
const only = (text: string) => {
  const found = told(text);
  expect(found.map(({ code, message }) => `${code} ${message}`)).toHaveLength(1);
  return found[0] as (typeof found)[number];
};
/** Only those of the sound foot's places. */
const some = (...names: string[]): Places =>
  Object.fromEntries(Object.keys(soundFoot).map((name) => [name, names.includes(name) ? soundFoot[name] : undefined]));

describe('two landmarks exchanged', () => {
  it('are told once, both named, with a fix that sets all right', () => {
    const text = caseText(filmText({ 'p3.tip': soundFoot['p3.wing'], 'p3.wing': soundFoot['p3.tip'] }));
    const found = only(text);
    expect(found).toMatchObject({ code: 'landmark/order', severity: 'error' });
    expect(found.message).toContain('«p3.tip»');
    expect(found.message).toContain('«p3.wing»');
    expect(found.related).toHaveLength(1);
    const edits = [...(found.fixes[0]?.edits ?? [])].sort((a, b) => b.start - a.start);
    const right = edits.reduce((now, { start, end, text: put }) => now.slice(0, start) + put + now.slice(end), text);
    expect(findingsOf(right)).toEqual([]);
  });

  it('are left open where nothing tells which pair it is', () => {
    const found = only(
      caseText(
        filmText({
          ...some('toe.ground', 'heel.ground'),
          'p3.tip': soundFoot['p3.wing'],
          'p3.wing': soundFoot['p3.tip'],
        }),
      ),
    );
    expect(found.fixes.map(({ title }) => title).sort()).toEqual([
      'Exchange «p3.tip» and «p3.wing»',
      'Exchange «toe.ground» and «heel.ground»',
    ]);
  });

  it('are no error of placing: points nearer together than that are left alone', () => {
    const near = (above: number) =>
      told(caseText(filmText({ 'navicular.upper': [-70, 30 + above], 'navicular.lower': [-65, 30] })));
    expect(near(-0.5)).toEqual([]);
    expect(near(-4).map(({ code }) => code)).toEqual(['landmark/order']);
  });

  it('say which reader', () => {
    const film = filmText({ 'wall.upper': [17, 17], 'wall.lower': [-11, 52] }, { more: ['read "Ann"'] });
    expect(only(caseText(film)).message).toMatch(/^Reader Ann: /);
  });
});

describe('a point far off', () => {
  it('is told with the place where it is to be expected, and spoils nothing else', () => {
    const found = only(caseText(filmText().replace('coronet.dorsal @ 1750, 320', 'coronet.dorsal @ 17500, 320')));
    expect(found.code).toBe('landmark/far-off');
    const [, x, y] = /near (\d+), (\d+)/.exec(found.message) ?? [];
    expect(Math.abs(Number(x) - 1750)).toBeLessThan(200);
    expect(Math.abs(Number(y) - 320)).toBeLessThan(200);
  });

  it('is not told among too few to know which is the wrong one', () => {
    const film = filmText(some('p3.tip', 'p3.wing', 'toe.ground', 'heel.ground')).replace(
      'heel.ground @ 900',
      'heel.ground @ 90',
    );
    expect(told(caseText(film)).filter(({ code }) => code === 'landmark/far-off')).toEqual([]);
  });

  it('is an error outside the picture', () => {
    const film = filmText().replace('sole.tip @ 2000, 990', 'sole.tip @ -2000, 990');
    expect(only(caseText(film))).toMatchObject({ code: 'landmark/far-off', severity: 'error' });
  });
});

describe('the ground', () => {
  it('is not compared with contacts that make it', () => {
    expect(told(caseText(filmText({ 'heel.ground': [-110, 5] }, { ground: null })))).toEqual([]);
  });

  it.each([
    ['3 mm and less', { 'heel.ground': [-110, 2.9] }, []],
    ['more than 3 mm', { 'heel.ground': [-110, 3.2] }, ['heel.ground']],
    ['a sole below it', { 'sole.tip': [0, -6] }, ['sole.tip']],
    ['a sole as low as a soft block lets it', { 'sole.tip': [0, -4] }, []],
  ] as const)('%s', (_what, places, names) => {
    const found = told(caseText(filmText(places)));
    expect(found.map(({ message }) => /^«([^»]+)»/.exec(message)?.[1])).toEqual([...names]);
  });

  it('that leans is told where neither contact is far from it', () => {
    // 2.5 mm up in front and down behind, over a short bearing length.
    const places = {
      'toe.ground': [0, 2.5],
      'heel.ground': [-60, -2.5],
      breakover: [0, 0],
      'heel.upper': [-90, 20],
    } as const;
    expect(only(caseText(filmText(places))).message).toContain('leans 4.8°');
  });
});

describe('the marker', () => {
  const marker = (length: number, more: string[] = []) =>
    told(caseText(filmText({}, { scale: `scale ${length} mm = 100, 100 .. ${100 + 10 * length}, 100`, more })));

  it.each([
    [36, 0],
    [35, 1],
  ])('of %d mm is told %d times: √2 × 0.5 mm are 2 per cent of 35.4 mm', (length, times) => {
    expect(marker(length)).toHaveLength(times);
  });

  it('is long enough where its reader places well', () => {
    expect(marker(20, ['read "Ann" +- 1'])).toEqual([]);
  });
});

describe('tape beside the picture', () => {
  const tape = (value: string, films = filmText()) => told(caseText(`${films}\n\n  tape LF\n    ${value}`));

  it('may differ by what the errors of both allow', () => {
    // 86.2 mm on the film; 1.96 × hypot(0.71, 2) is 4.2 mm.
    expect(tape('toe-length 90.3 mm')).toEqual([]);
    expect(tape('toe-length 90.5 mm').map(({ code }) => code)).toEqual(['tape/disagrees']);
    expect(tape('toe-length 9.05 cm').map(({ code }) => code)).toEqual(['tape/disagrees']);
  });

  it('says both values and what to do', () => {
    expect(tape('heel-angle 60 deg')[0]?.message).toMatch(/by hand 60\.0°, from the film 48\.0 ± .*Measure again/);
  });

  it('need fit only one of two films, before and after a trim', () => {
    const after = filmText(
      { 'coronet.heel': [-131, 10], 'heel.upper': [-128, 6] },
      { header: 'film LF lateral "b.png"' },
    );
    expect(tape('heel-height 24 mm', `${after}\n\n${filmText()}`)).toEqual([]);
    expect(tape('heel-height 17 mm', `${after}\n\n${filmText()}`)).toHaveLength(1);
  });

  it('of another foot is not compared', () => {
    expect(told(caseText(`${filmText()}\n\n  tape RF\n    toe-length 120 mm`))).toEqual([]);
  });
});

describe('a limit that a film cannot be held to', () => {
  const limited = (limits: string, film: string) => told(caseText(film, { limits: `\nlimits\n${limits}` }));

  it('is a hint that names what to place, once for a measure', () => {
    const film = filmText({ 'wall.top': undefined });
    const found = limited('  founder-distance <= 7 mm\n  founder-distance >= 0 mm\n', film);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ code: 'limits/absent', severity: 'hint' });
    expect(found[0]?.message).toContain('Place wall.top.');
  });

  it('is silent where the film gives the measure, is of another view, or has no frame at all', () => {
    expect(limited('  founder-distance <= 7 mm\n', filmText())).toEqual([]);
    expect(limited('  frog-width <= 60 mm\n', filmText())).toEqual([]);
    expect(limited('  grown-out >= 9 mm\n', filmText(some('p3.tip'), { ground: null }))).toEqual([]);
  });
});

describe('the examples', () => {
  it.each([
    ['bramble', []],
    ['juniper', []],
    ['sorrel', []],
    ['teasel', []],
    ['thistle', []],
    // Its first film has no scale, as the marker there is written without its unit.
    ['mistakes', ['limits/absent']],
  ])('%s has of these findings: %j', (name, codes) => {
    const text = readFileSync(new URL(`../../examples/${name}.hoof`, import.meta.url), 'utf8');
    expect(told(text).map(({ code }) => code)).toEqual(codes);
  });
});

describe('the order of the other points beside one that is far off', () => {
  /** The two of the navicular bone stand 4 mm the wrong way about; the coronet has a digit too many. */
  const text = (more: string[] = []): string =>
    caseText(
      filmText({ 'navicular.upper': [-70, 26], 'navicular.lower': [-65, 30] }, { more }).replace(
        'coronet.dorsal @ 1750, 320',
        'coronet.dorsal @ 17500, 320',
      ),
    );
  const orders = (of: string, mm: number): number => {
    const { findings } = inspect(of, { ...usualStudy, spread: { mm, px: 10 * mm } });
    expect(findings.map(({ code }) => code)).toContain('landmark/far-off');
    return findings.filter(({ code }) => code === 'landmark/order').length;
  };

  it('is judged with the spread that is set', () => {
    expect(orders(text(), 0.5)).toBe(1);
    expect(orders(text(), 5)).toBe(0);
  });

  it('is judged with the reader’s own spread where there is one', () => {
    const read = text(['read "Ann" +- 50']);
    expect(orders(read, 0.5)).toBe(0);
    expect(orders(text(['read "Ann" +- 5']), 5)).toBe(1);
  });
});
