import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { atEnd } from '../../shared/findings/limits/plan-place.ts';
import { planAt, tryCutAt } from '../../shared/findings/limits/planning.ts';
import { sayBroken } from '../../shared/findings/wording/say-cut.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { caseText, filmText, type Places } from './plain-foot.ts';

/**
 * What is told of a foot on a shoe. The plain foot at 0.1 mm/px, its bearing plane the level of y = 1000 px, toe to the right;
 * figures are plane trigonometry on that.
 */
const bearing = 'bearing 0, 1000 .. 4000, 1000';
const rad = Math.PI / 180;

/** The ground under a shoe that is so thick below the toe's contact (x = 2280 px) and raises the heel by so much. */
function under(thickness: number, wedge: number): string {
  const y = (x: number): number => 1000 + thickness * 10 + (2280 - x) * Math.tan(wedge * rad);
  return `ground 0, ${y(0).toFixed(6)} .. 4000, ${y(4000).toFixed(6)}`;
}

interface Shoe {
  readonly thickness?: number;
  readonly wedge?: number;
  readonly more?: readonly string[];
}

const shodFilm = (
  places: Places = {},
  { thickness = 10, wedge = 3, more = [bearing] }: Shoe = {},
  foot = 'LF',
): string => filmText(places, { header: `film ${foot} lateral "${foot}.png"`, ground: under(thickness, wedge), more });

const told = (text: string, ...wanted: readonly string[]) =>
  inspect(text)
    .findings.filter(({ code }) => wanted.length === 0 || wanted.includes(code))
    .map(({ code, severity, message }) => ({ code, severity, message }));

describe('a thin sole on a shoe without its bearing plane', () => {
  /** 5 mm of sole below the tip, 6 mm below the wing. */
  const thin: Places = { 'sole.tip': [0, 11], 'sole.wing': [-80, 17] };
  const depths = (text: string) =>
    Object.fromEntries(
      (filmSheets(inspect(text))[0]?.rows ?? [])
        .filter(({ measure }) => measure.startsWith('sole-depth'))
        .map(({ measure, value }) => [measure, value]),
    );

  it('is judged as that of the bare foot is', () => {
    const bare = told(caseText(`  obel 0\n${filmText(thin)}`), 'range/sole-depth.tip');
    for (const wedge of [0, 3, 8]) {
      const film = shodFilm(thin, { wedge, more: [] });
      const [found, ...more] = told(caseText(`  obel 0\n  shoe LF "plain"\n${film}`), 'range/sole-depth.tip');
      expect(more).toEqual([]);
      expect(found?.severity).toBe(bare[0]?.severity);
      expect(found?.message).toMatch(
        /: 5\.0 ± .*, under 7 mm .* Taken square to the ground, as `bearing` is not placed;/,
      );
    }
  });

  it('is as deep as the cosine of the wedge makes it', () => {
    const seen = depths(caseText(`  shoe LF 10 mm wedge 8 deg\n${shodFilm(thin, { wedge: 8, more: [] })}`));
    expect(seen['sole-depth.tip']).toBeCloseTo(5 * Math.cos(8 * rad), 6);
    expect(seen['sole-depth.wing']).toBeCloseTo(6 * Math.cos(8 * rad), 6);
  });

  it('is none where the point lies under the shoe', () => {
    const under: Places = { 'sole.tip': [0, -14] };
    const seen = depths(caseText(`  shoe LF 10 mm\n${shodFilm(under, { wedge: 0, more: [] })}`));
    expect(seen['sole-depth.tip']).toBeUndefined();
    expect(seen['sole-depth.wing']).toBeCloseTo(19, 6);
  });
});

/** A shod foot of 5.0° to the bearing plane, atan(7 / 80), and 8.0° to the ground; 20 mm of heel beyond its live sole. */
const tall: Places = { 'sole.heel': [-104, 20], 'sole.tip': [0, 8], 'p3.tip': [0, 24], 'p3.wing': [-80, 31] };

describe('the palmar angle that a limit of cuts goes by', () => {
  const text = caseText(`  obel 0\n  shoe LF 10 mm wedge 3 deg\n${shodFilm(tall)}\n  plan LF\n    heel down 9 mm`);

  it('is told to the bearing plane, that of the film too', () => {
    // 9 mm over 138 mm turn by atan(9 / 138) = 3.7°.
    expect(told(text, 'trim/palmar-angle').map(({ message }) => message)).toEqual([
      expect.stringMatching(
        /^Palmar angle to the bearing plane would be 1\.3 ± .* after this plan, under 2° .*; it is 5\.0° on the film\./,
      ),
    ]);
    const bare = told(caseText(`  obel 0\n${filmText(tall)}\n  plan LF\n    heel down 9 mm`), 'trim/palmar-angle');
    expect(bare[0]?.message).not.toContain('bearing plane');
  });

  it('is named so in the answers of a plan', () => {
    const { study } = inspect(text);
    const place = atEnd('LF', study);
    if (!place) throw new Error('no date');
    const tried = tryCutAt(place, { heelDown: 9, toeDown: 0, toeBack: 0 }, study);
    if (typeof tried === 'string') throw new Error(tried);
    expect(sayBroken(tried.broken, tried.judge.foot.frame)).toContain(
      'the palmar angle to the bearing plane 0.7° under its limit',
    );
    expect(planAt(place, { goal: { kind: 'palmar-angle', angle: 6 } }, study).says).toBe(
      'The palmar angle to the bearing plane is 6° or less already.',
    );
  });
});

describe('a bearing plane below the ground', () => {
  const planned = (thickness: number) => {
    const { study } = inspect(caseText(`  obel 0\n  shoe LF 10 mm\n${shodFilm(tall, { thickness, wedge: 0 })}`));
    const place = atEnd('LF', study);
    if (!place) throw new Error('no date');
    return planAt(place, { goal: { kind: 'most' } }, study);
  };

  it('lets no plan be written down, as a scale in doubt does not', () => {
    expect(planned(10).says).toBe('');
    expect(planned(-12).says).toBe(
      'The bearing plane lies below the ground on the film of 4 March 2026: 12.0 mm at the toe and 12.0 mm at the heel. No millimetre of a plan on it can be relied on. Look at both lines and place what is off again.',
    );
  });
});

describe('a shoe that the film shows and the lines do not tell of', () => {
  const film = shodFilm();
  const seen =
    'The film shows something under the hoof that is 10.0 mm thick at the toe and 17.2 mm at the heel and raises the heel by 3.0°; ';
  const visit = (date: string, body: string) => `visit ${date}\n${body}\n`;
  const before = (body: string) => `hoof 1\n${visit('2026-02-04', body)}`;
  const now = (body: string) => visit('2026-03-04', `${body}${film}`);

  it.each([
    [
      'nothing is written',
      `hoof 1\n${now('')}`,
      'nothing that is written before it says what the foot wears. Write it above the film: shoe LF',
    ],
    [
      'it was taken off',
      before('  shoe LF 10 mm') + now('  shoe LF off\n'),
      'by what is written it was taken off on 4 March 2026. Write it above the film: shoe LF',
    ],
    [
      'a trim stands below its line',
      before('') + now('  shoe LF 10 mm wedge 3 deg\n  trim LF\n    work "edges"\n\n'),
      'by what is written the foot is bare, as the trim of 4 March 2026 stands below what was put on that day, and a trim ends what was worn. Was it put on after the trim? Then its line belongs below the trim.',
    ],
    [
      'a trim since ended it, and another trim followed',
      before('  shoe LF 10 mm') +
        visit('2026-02-24', '  trim LF\n    work "edges"') +
        now('  trim LF\n    work "edges"\n\n'),
      'by what is written the foot is bare since the trim of 24 February 2026, as a trim ends what was worn. Write it above the film: shoe LF',
    ],
    [
      'a trim raised the heel',
      before('  trim LF\n    heel up 3 deg') + now(''),
      'the trim of 4 February 2026 raised the heel, but no line says what the foot wears since. Write it above the film: shoe LF',
    ],
    [
      'there are boots alone',
      before('  boots LF 12 mm') + now(''),
      'by what is written it wears boots alone, and those are pulled off for a film. Write it above the film: shoe LF',
    ],
  ])('is told once where %s, and the foot is not called bare beside it', (_, text, why) => {
    const found = told(text, 'shoe/not-written');
    expect(found).toEqual([{ code: 'shoe/not-written', severity: 'info', message: seen + why }]);
    expect(told(text, 'shoe/disagrees', 'frame/no-bearing', 'landmark/off-ground')).toEqual([]);
    const sheet = filmSheets(inspect(text)).at(-1);
    expect(sheet?.rows.map(({ measure }) => measure)).toContain('shoe-wedge');
    expect(sheet?.said).not.toContain('The foot is bare.');
  });

  it('is mended by a line above the film', () => {
    const text = before('  shoe LF 10 mm') + now('  shoe LF off\n');
    const [fix] = inspect(text).findings.find(({ code }) => code === 'shoe/not-written')?.fixes ?? [];
    const [edit, ...more] = fix?.edits ?? [];
    expect([fix?.title, more]).toEqual(['Write shoe LF above the film', []]);
    const mended = text.slice(0, edit?.start) + (edit?.text ?? '') + text.slice(edit?.end);
    expect(mended).toContain('  shoe LF off\n  shoe LF\n  film LF lateral');
    expect(told(mended, 'shoe/not-written')).toEqual([]);
  });

  it('is none where the bearing plane lies on the ground, and where the shoe is written', () => {
    expect(told(caseText(shodFilm({}, { thickness: 1, wedge: 0.5 })), 'shoe/not-written')).toEqual([]);
    expect(told(caseText(`  shoe LF 10 mm\n${film}`), 'shoe/not-written')).toEqual([]);
  });
});

describe('contacts above the ground of a foot that no line calls shod', () => {
  const message = (more: string, shoe: Shoe) => {
    const [found, ...others] = told(caseText(`${more}${shodFilm({}, { ...shoe, more: [] })}`), 'landmark/off-ground');
    expect(others).toEqual([]);
    return found?.message;
  };

  it('may be those of a shod one, and what to write is said', () => {
    const way = 'Then write `shoe LF` above the film and place `bearing`, the plane between hoof and shoe.';
    expect(message('', { thickness: 10, wedge: 0 })).toContain(
      `Was it held up? Then no height of this film counts. Is it shod? ${way}`,
    );
    expect(message('  shoe LF 10 mm\n  shoe LF off\n', { thickness: 10, wedge: 3 })).toMatch(
      new RegExp(
        `^«heel.ground» lies 17\\.2 mm above the ground line\\. .* Or is the foot shod\\? ${way.replace('.', '\\.')}$`,
      ),
    );
  });

  it('are a slip where one of them alone is off', () => {
    expect(told(caseText(filmText({ 'toe.ground': [28, 6] })), 'landmark/off-ground')[0]?.message).not.toContain(
      'shod',
    );
  });
});

describe('a palmar angle that is flat but for the wedge under it', () => {
  /** 1.43° to the bearing plane, atan(2 / 80), and 5.43° to the ground on a wedge of 4°. */
  const flat: Places = { 'p3.wing': [-80, 18] };
  /** The same to the ground bare: 0.71°, atan(1 / 80). */
  const flatter: Places = { 'p3.wing': [-80, 17] };
  const onWedge = caseText(`  obel 0\n  shoe LF 10 mm\n${shodFilm(flat, { wedge: 4 })}`);
  const angles = (text: string) => told(text, 'range/palmar-angle').map(({ severity, message }) => [severity, message]);

  it('is told as that of the bare foot is, with what the wedge makes of it', () => {
    const bare = told(caseText(`  obel 0\n${filmText(flat)}`), 'range/palmar-angle');
    const [found, ...more] = angles(onWedge);
    expect(more).toEqual([]);
    expect(found?.[0]).toBe(bare[0]?.severity);
    expect(found?.[1]).toMatch(
      /^Palmar angle to the bearing plane, left fore: 1\.4 ± \d\.\d°, under 2° .* To the ground it is 5\.4°, of which 4\.0° are the wedge of what the foot wears\./,
    );
  });

  it('stands beside the one to the ground in the table, each with its state', () => {
    const rows = filmSheets(inspect(onWedge))[0]?.rows ?? [];
    const shown = rows
      .slice(0, 2)
      .map(({ measure, value, state, usualText }) => [measure, Number(value.toFixed(2)), state, usualText]);
    expect(shown).toEqual([
      ['palmar-angle', 5.43, 'within', '2° to 10°'],
      ['palmar-angle.bearing', 1.43, 'unsure', 'from 2°'],
    ]);
    const bare = filmSheets(inspect(caseText(filmText(flat))))[0]?.rows.map(({ measure }) => measure);
    expect(bare).not.toContain('palmar-angle.bearing');
  });

  it('is told together with the one to the ground where both are low, and with one that is high', () => {
    const low = angles(caseText(`  obel 0\n  shoe LF 10 mm\n${shodFilm(flatter, { wedge: 0 })}`));
    expect(low).toHaveLength(1);
    expect(low[0]?.[1]).toMatch(
      /^Palmar angle, left fore: out of its usual range\. To the ground 0\.7° \(usual from 2°.*\) and to the bearing plane 0\.7° \(from 2°.*\)\./,
    );
    const both = angles(caseText(`  obel 0\n  shoe LF 10 mm\n${shodFilm(flatter, { wedge: 12 })}`));
    expect(both).toHaveLength(1);
    expect(both[0]?.[1]).toMatch(
      /to the ground 12\.7° \((usual )?to 10°.*to the bearing plane 0\.7° \((usual )?from 2°/i,
    );
  });

  it('goes by a limit of the case, by the hind foot and by the kind of animal as the other one does', () => {
    const limits = 'limits\n  palmar-angle >= 1 deg because "agreed with the vet"\n';
    const text = `  obel 0\n  shoe LF 10 mm\n${shodFilm(flat, { wedge: 4 })}`;
    expect(angles(caseText(text, { limits }))).toEqual([]);
    expect(angles(caseText(text, { animal: 'animal donkey jenny' }))).toEqual([]);
    const negative: Places = { 'p3.wing': [-80, 12] };
    const hind = angles(caseText(`  obel 0\n  shoe LH 10 mm\n${shodFilm(negative, { wedge: 5 }, 'LH')}`));
    expect(hind).toHaveLength(1);
    expect(hind[0]?.[1]).toMatch(/^Plantar angle to the bearing plane, left hind: −2\.9 ± /);
  });

  it('is past once a newer film shows the foot bare or by its bearing plane, not by its ground alone', () => {
    const pastAfter = (later: string) =>
      inspect(`${onWedge}\nvisit 2026-04-01\n  obel 0\n${later}\n`)
        .findings.filter(({ code, message }) => code === 'range/palmar-angle' && message.includes('bearing plane'))
        .map(({ severity }) => severity);
    expect(pastAfter(`  shoe LF off\n${filmText()}`)).toEqual(['hint']);
    expect(pastAfter(shodFilm({}, { wedge: 4 }))).toEqual(['hint']);
    expect(pastAfter(shodFilm({}, { wedge: 4, more: [] }))).not.toEqual(['hint']);
  });

  it('is told by a shod film that has no ground', () => {
    const film = filmText(flatter, { ground: null, more: [bearing] });
    expect(angles(caseText(`  obel 0\n  shoe LF 10 mm\n${film}`))[0]?.[1]).toMatch(
      /^Palmar angle to the bearing plane, left fore: 0\.7 ± /,
    );
  });
});

describe('a flat shoe', () => {
  it('makes nothing of the palmar angle, and nothing is said of a wedge', () => {
    // atan(2 / 80) = 1.4° to either plane.
    const low: Places = { 'p3.tip': [0, 24], 'p3.wing': [-80, 26] };
    const said = (wedge: number): string =>
      told(caseText(`  shoe LF 10 mm\n${shodFilm(low, { wedge })}`))
        .map(({ message }) => message)
        .join('\n');
    expect(said(0)).toMatch(/Palmar angle.*1\.4/);
    expect(said(0)).not.toContain('the wedge of what the foot wears');
    expect(said(3)).toContain('the wedge of what the foot wears');
  });
});
