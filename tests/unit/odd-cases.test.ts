import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { openAlarms } from '../../shared/findings/open-alarms.ts';
import { courseOf } from '../../shared/course/course.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { stoodFlatter, sunk } from './moved-foot.ts';
import { caseText, filmText, soundFoot, type Places } from './plain-foot.ts';

const head = (lines: string): string => `hoof 1\n\ncase "X"\n  animal horse mare\n${lines}\n`;
const visit = (date: string, body: string): string => `visit ${date}\n${body}\n\n`;
const bad: Places = { 'p3.wing': [-80, 40], 'sole.tip': [0, 13], 'wall.top': [-18, 74] };
const told = (text: string) => inspect(text).findings.map(({ code, severity }) => `${severity} ${code}`);

describe('a case without a birth date', () => {
  it('counts as one of a grown animal', () => {
    const film = visit('2026-03-04', filmText(bad));
    expect(told(head('') + film)).toEqual(told(head('  foaled 2010-05\n') + film));
    expect(told(head('') + film).length).toBeGreaterThan(2);
  });
});

describe('an animal under 24 months on the day of the film', () => {
  const at = (foaled: string, day = '2026-03-04') =>
    told(head(`  foaled ${foaled}\n`) + visit(day, filmText(bad))).filter((one) => one.includes('range/'));

  // The bone low, and the palmar angle low too: what grown animals are told of.
  const young = ['warning range/palmar-angle', 'error range/sole-depth.tip', 'hint range/too-young'];

  it('is held against no length of grown animals, and the sole and the other angles are judged as ever', () => {
    expect(at('2025-04-01').sort()).toEqual([...young].sort());
    expect(at('2024-03-05').sort()).toEqual([...young].sort());
    expect(at('2024-03-04')).toContain('error range/very-low-in-capsule');
    expect(at('2024-03-04')).not.toContain('hint range/too-young');
    expect(at('2024-02-29', '2026-02-28').sort()).toEqual([...young].sort());
    expect(at('2024-02-29', '2026-03-01')).toContain('error range/very-low-in-capsule');
  });

  it('is told of a thin sole as a grown one is, at 10 and at 19 months', () => {
    for (const foaled of ['2025-05-01', '2024-08-01'])
      for (const mm of [4, 5]) {
        const text =
          head(`  foaled ${foaled}\n`) +
          visit('2026-03-04', `  obel 2\n  pulse LF bounding\n${filmText({ 'sole.tip': [0, 16 - mm] })}`);
        expect(told(text), `${foaled}, ${mm} mm`).toContain('error range/sole-depth.tip');
        expect(openAlarms(inspect(text).study).map(({ code }) => code)).toEqual(['range/sole-depth.tip']);
        expect(inspect(text).findings.find(({ code }) => code === 'range/too-young')?.message).toContain(
          'too young to be judged by adult figures',
        );
      }
  });

  it('has no lowest palmar angle, so that no plan is solved down to it', () => {
    const flat = (foaled: string) =>
      told(head(`  foaled ${foaled}\n`) + visit('2026-03-04', filmText({ 'p3.wing': [-80, 17] })));
    expect(flat('2020-04-01')).toContain('warning range/palmar-angle');
    expect(flat('2025-04-01')).not.toContain('warning range/palmar-angle');
  });

  it('is by the film’s own day, in findings and tables', () => {
    const text = head('  foaled 2024-03\n') + visit('2026-02-01', filmText(bad)) + visit('2026-04-01', filmText(bad));
    const [young, grown] = filmSheets(inspect(text));
    const state = (sheet: typeof young) => sheet?.rows.find(({ measure }) => measure === 'founder-distance')?.state;
    expect([state(young), state(grown)]).toEqual(['none', 'act']);
    const filmed = head('  foaled 2024-03\n') + visit('2026-04-01', filmText(bad, { more: ['taken 2026-02-20'] }));
    expect(told(filmed)).toContain('hint range/too-young');
    expect(told(filmed).filter((one) => one.includes('low-in-capsule'))).toEqual([]);
  });

  it('is held against what its own case agreed, and a cut into live sole stays an error', () => {
    const own =
      head('  foaled 2025-04-01\n') + 'limits\n  palmar-angle <= 12 deg\n\n' + visit('2026-03-04', filmText(bad));
    expect(told(own)).toContain('warning range/palmar-angle');
    const cut = head('  foaled 2025-04-01\n') + visit('2026-03-04', `${filmText()}\n\n  plan LF\n    toe down 6 mm`);
    expect(told(cut)).toContain('error trim/live-sole');
  });
});

describe('light horses', () => {
  const thick = filmText({ 'wall.upper': [-2, 60], 'wall.lower': [26, 25] });
  const spoken = (lines: string, ...weights: readonly (readonly [string, number])[]) =>
    inspect(
      head(lines) + weights.map(([date, kg]) => visit(date, `  weight ${kg} kg`)).join('') + visit('2026-03-04', thick),
    ).findings.some(({ message }) => message.includes('above 2'));

  it('alone are held against 20 mm from wall to bone: not over 165 cm or 650 kg, by the newest weight up to the film', () => {
    expect(spoken('')).toBe(true);
    expect(spoken('  height 165 cm\n', ['2026-01-01', 650])).toBe(true);
    expect(spoken('  height 166 cm\n')).toBe(false);
    expect(spoken('', ['2026-01-01', 700])).toBe(false);
    expect(spoken('', ['2026-01-01', 700], ['2026-02-01', 600])).toBe(true);
    const later = inspect(head('') + visit('2026-03-04', thick) + visit('2026-04-01', '  weight 700 kg'));
    expect(later.findings.some(({ message }) => message.includes('above 2'))).toBe(true);
  });
});

describe('films of one day', () => {
  it('are no course: no change is told of them, and the later in the text speaks', () => {
    const text = visit('2026-03-04', `${filmText()}\n\n${filmText(sunk(6), { header: 'film LF lateral "b.png"' })}`);
    const { findings, study } = inspect(`hoof 1\n${text}`);
    expect(findings.filter(({ code }) => code.startsWith('course/'))).toEqual([]);
    expect(courseOf(study)[0]?.views[0]?.measures.flatMap(({ changes }) => changes)).toEqual([]);
  });
});

describe('a foot that was filmed once', () => {
  it('has values and no course', () => {
    const { study, findings } = inspect(`hoof 1\n${visit('2026-03-04', filmText(bad))}`);
    const [foot] = courseOf(study);
    expect(foot?.views[0]?.measures.length).toBeGreaterThan(20);
    expect(foot?.views[0]?.measures.every(({ changes, trend }) => changes.length === 0 && trend === null)).toBe(true);
    expect(findings.filter(({ code }) => code.startsWith('course/'))).toEqual([]);
  });
});

describe('visits that go backwards in time', () => {
  it('are an error, and are judged by their days', () => {
    const forwards = [visit('2026-03-04', filmText()), visit('2026-04-01', filmText(sunk(6)))];
    const sinks = (text: string) => told(`hoof 1\n${text}`).filter((one) => one.includes('course/sinking'));
    expect(sinks(forwards.join(''))).toEqual(['error course/sinking']);
    expect(sinks(forwards.toReversed().join(''))).toEqual(['error course/sinking']);
    expect(told(`hoof 1\n${forwards.toReversed().join('')}`)).toContain('error record/dates-backwards');
    const rising = [visit('2026-03-04', filmText(sunk(6))), visit('2026-04-01', filmText())];
    expect(sinks(rising.toReversed().join(''))).toEqual([]);
  });
});

describe('photographs among films', () => {
  it('show the outside only: no film is compared with one', () => {
    const photo = filmText(sunk(6), { header: 'photo LF lateral "p.png"' });
    const text = `hoof 1\n${visit('2026-03-04', filmText())}${visit('2026-04-01', photo)}${visit('2026-05-01', filmText())}`;
    const { findings, study } = inspect(text);
    expect(findings.filter(({ code }) => code.startsWith('course/'))).toEqual([]);
    expect(courseOf(study)[0]?.views[0]?.films).toHaveLength(2);
  });
});

describe('readers that disagree', () => {
  const places = (changes: Places): string =>
    filmText(changes)
      .split('\n')
      .slice(3)
      .map((line) => `  ${line}`)
      .join('\n');
  const read = (...readers: readonly (readonly [string, Places])[]): string =>
    caseText(
      `  film LF lateral "x.png"\n    scale 0.1 mm/px\n    ground 0, 1000 .. 2000, 1000\n${readers
        .map(([name, changes]) => `    read "${name}"\n${places(changes)}`)
        .join('\n')}`,
    );
  const steep: Places = { 'p3.wing': [-80, 36] };
  const palmar = (text: string) => inspect(text).findings.filter(({ code }) => code === 'range/palmar-angle');

  it('are told once, with both values; where only one lies beyond, one level lower', () => {
    const [agree, ...more] = palmar(read(['Ash', steep], ['Rowan', { 'p3.wing': [-80, 35.5] }]));
    expect(more).toEqual([]);
    expect(agree).toMatchObject({ severity: 'warning' });
    expect(agree?.message).toContain('(reader Ash)');
    expect(agree?.message).toContain('The others read: Rowan 13.7°.');
    for (const readers of [
      [['Ash', steep] as const, ['Rowan', {}] as const],
      [['Rowan', {}] as const, ['Ash', steep] as const],
    ]) {
      const [disagree, ...others] = palmar(read(...readers));
      expect(others).toEqual([]);
      expect(disagree).toMatchObject({ severity: 'info' });
      expect(disagree?.message).toContain('The readers disagree: Rowan 5.0°.');
    }
  });
});

describe('readers that disagree of one matter', () => {
  it('stand with their own value beside each of its measures', () => {
    const read = (name: string, places: Places): string =>
      `    read "${name}"\n${filmText(places)
        .split('\n')
        .slice(3)
        .map((line) => `  ${line}`)
        .join('\n')}`;
    const thick: Places = { 'wall.upper': [-2, 60], 'wall.lower': [26, 25] };
    const text = caseText(
      `  film LF lateral "x.png"\n    scale 0.1 mm/px\n    ground 0, 1000 .. 2000, 1000\n${read('A. B.', {})}\n${read('C. D.', thick)}`,
    );
    const [found, ...others] = inspect(text).findings.filter(({ code }) => code === 'range/wall-to-bone');
    expect(others).toEqual([]);
    expect(found?.message).toMatch(
      /^Wall to bone, left fore \(reader C\. D\.\): thick\. Horn and lamellae [\d.]+ % of the bone’s length \(over 31 %; usual to 28 %; A\. B\.: [\d.]+ %\), above [\d.]+ mm \(to 20 mm; A\. B\.: [\d.]+ mm\)/,
    );
    expect(found?.message.match(/The readers disagree/g)).toHaveLength(1);
  });
});

describe('left and right exchanged', () => {
  it('says the same of the other foot: the two are not told apart by their shape, and a picture may face either way', () => {
    const text = (foot: string, mirrored: boolean): string => {
      const film = (places: Places) => {
        const lines = filmText(places, { header: `film ${foot} lateral "x.png"` });
        return mirrored ? lines.replace(/@ (-?[\d.]+), /g, (_, x: string) => `@ ${4000 - Number(x)}, `) : lines;
      };
      return `hoof 1\n${visit('2026-03-04', film(soundFoot))}${visit('2026-04-01', film({ ...sunk(6), 'sole.tip': [0, 6] }))}`;
    };
    const said = (one: string) =>
      inspect(one).findings.map(({ code, severity, value }) => [code, severity, value?.toFixed(6)]);
    expect(said(text('RF', false))).toEqual(said(text('LF', false)));
    expect(said(text('LF', true))).toEqual(said(text('LF', false)));
    expect(said(text('LF', false)).length).toBeGreaterThan(1);
  });
});

describe('a lifted foot', () => {
  it('whose contacts are off the ground line is told; in the capsule nothing has moved', () => {
    const lifted: Places = stoodFlatter(-12);
    const text = `hoof 1\n${visit('2026-03-04', filmText())}${visit('2026-04-01', filmText(lifted))}`;
    const codes = told(text);
    expect(codes.some((one) => one.includes('landmark/off-ground'))).toBe(true);
    expect(codes.filter((one) => one.includes('course/sinking'))).toEqual([]);
  });
});

describe('a foot that was held up', () => {
  const off = (mm: number, heel = mm): Places =>
    Object.fromEntries(
      Object.entries(soundFoot).map(([name, [x, y]]) => [name, [x, y + (name === 'heel.ground' ? heel : mm)] as const]),
    );
  const said = (places: Places) =>
    inspect(caseText(filmText(places))).findings.filter(({ code }) => code === 'landmark/off-ground');

  it('with both contacts off alike is told as such, and not as a slip of one point', () => {
    const [found, ...more] = said(off(12));
    expect(more).toEqual([]);
    expect(found?.message).toMatch(
      /^The foot does not stand on the ground line: toe and heel lie 12\.0 mm above the ground line\. Was it held up\? Then no height of this film counts\./,
    );
    expect(found?.value).toBeCloseTo(12, 6);
    expect(said(off(-12))[0]?.message).toMatch(/^Toe and heel lie 12\.0 mm below the ground line: it is no line/);
    expect(said(off(12, 10))[0]?.message).toContain('Was it held up?');
  });

  it('is not one with one contact off alone', () => {
    const [found] = said({ 'toe.ground': [28, 5] });
    expect(found?.message).toMatch(/^«toe\.ground» lies 5\.0 mm above the ground line\. It should stand on it\. Look/);
    expect(said(off(4, 12))[0]?.message).not.toContain('held up');
  });
});

describe('a grade of lameness that the scale does not have', () => {
  const film = visit('2026-03-04', `  obel 5\n${filmText({ 'sole.tip': [0, 13] })}`);

  it('is an error, counts as no grade, and still calls the vet', () => {
    const text = head('') + film;
    const { findings, study } = inspect(text);
    expect(findings.map(({ code }) => code)).toContain('notation/number-range');
    expect(study.record.visits[0]?.is.obel).toBeNull();
    const call = findings.find(({ code }) => code === 'visit/call-the-vet');
    expect(call).toMatchObject({ severity: 'error', value: 5 });
    expect(text.slice(call?.at.start, call?.at.end)).toBe('5');
    expect(call?.message).toContain('Obel grade 5 (as written; the grades are 0 to 4)');
    // What a grave lameness makes of other findings holds too.
    expect(findings.find(({ code }) => code === 'range/sole-depth.tip')?.severity).toBe('error');
  });

  it('is closed as any other, and a small slip calls nobody', () => {
    const seen = inspect(head('') + film + visit('2026-03-05', '  vet seen 2026-03-05 "came at once"'));
    expect(seen.findings.find(({ code }) => code === 'visit/call-the-vet')?.severity).toBe('hint');
    for (const grade of ['-1', '1.5', 'two', '0.5', 'sound'])
      expect(
        told(head('') + visit('2026-03-04', `  obel ${grade}`)).filter((one) => one.includes('call-the-vet')),
      ).toEqual([]);
  });

  it('wants the vet before a trim', () => {
    expect(told(head('') + visit('2026-03-04', '  obel 5\n  plan LF\n    heel down 1 mm'))).toContain(
      'warning trim/no-vet',
    );
  });
});
