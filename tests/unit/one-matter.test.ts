import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { readPast, withPast } from '../../shared/findings/engine/past.ts';
import { usualStudy } from '../../shared/trim/study.ts';
import { caseText, filmText, type FilmText, type Places } from './plain-foot.ts';

const thick: Places = { 'wall.upper': [-4, 58], 'wall.lower': [28, 27] };
const low: Places = { 'wall.top': [-18, 68], 'coronet.dorsal': [-25, 76] };
const ranges = (text: string) => inspect(text).findings.filter(({ code }) => code.startsWith('range/'));
const film = (places: Places, more: FilmText = {}): string => filmText(places, more);
const visits = (...bodies: readonly string[]): string =>
  bodies.map((body, index) => `visit 2026-0${index + 3}-04\n${body}\n`).join('\n');
const caseOf = (...bodies: readonly string[]): string =>
  `hoof 1\n\ncase "X"\n  animal horse mare\n\n${visits(...bodies)}`;

describe('measures of one matter', () => {
  it('are told in one finding, at the worst, each with its number', () => {
    const [finding, ...others] = ranges(caseText(film(thick))).filter(({ code }) => code === 'range/wall-to-bone');
    expect(others).toEqual([]);
    expect(finding).toMatchObject({ severity: 'warning', measure: 'horn-lamellar-share' });
    for (const part of ['% of the bone’s length', 'above', 'halfway down', 'below'])
      expect(finding?.message).toContain(part);
    expect(finding?.message).toContain('; below 4.1 mm wider than above.');
    const [sunk, ...more] = ranges(caseText(film(low)));
    expect(more).toEqual([]);
    expect(sunk).toMatchObject({ code: 'range/low-in-capsule', severity: 'warning', measure: 'founder-distance' });
    expect(sunk?.message).toMatch(/Founder distance 12\.0 mm .* and .* 20\.0 mm/);
  });

  it('of a layer that is as wide above as below do not speak of a wedge', () => {
    const even = ranges(caseText(film({ 'wall.upper': [-4, 58], 'wall.lower': [24, 23] })));
    expect(even.map(({ message }) => message).join()).not.toContain('wider below');
  });

  it('can be lived with together, or one of them by its name', () => {
    const accept = (about: string) =>
      ranges(caseText(film(thick, { more: [`accept ${about} because "so be it"`] })))
        .filter(({ code }) => code === 'range/wall-to-bone')
        .map(({ severity, measure, accepted }) => [severity, measure, accepted !== undefined]);
    expect(accept('range/wall-to-bone')).toEqual([['info', 'horn-lamellar-share', true]]);
    expect(accept('range/wall-to-bone horn-lamellar-share')).toEqual([
      ['info', 'horn-lamellar-share', true],
      ['info', 'horn-lamellar.upper', false],
    ]);
  });
});

describe('what is past', () => {
  it('is a hint; the newest film speaks', () => {
    const told = ranges(caseOf(film(low), film(low), film(low)));
    expect(told.map(({ severity, past }) => [severity, past])).toEqual([
      ['hint', true],
      ['hint', true],
      ['warning', undefined],
    ]);
  });

  it('speaks where no newer film has the measure, and on the other foot', () => {
    const without = film({ 'wall.top': undefined, 'coronet.dorsal': undefined });
    const other = film({}, { header: 'film RF lateral "y.png"' });
    for (const newer of [without, other])
      expect(ranges(caseOf(film(low), newer))).toMatchObject([{ severity: 'warning' }]);
    // Of the two conventions only one is past.
    const half = ranges(caseOf(film(low), film({ 'wall.top': [-18, 68], 'coronet.dorsal': undefined })));
    expect(half.map(({ measure, past }) => [measure, past])).toEqual([
      ['founder-distance', true],
      ['coronet-extensor', undefined],
      ['founder-distance', undefined],
    ]);
  });

  it('goes by days, not by the order of the text, and of one day by the text', () => {
    const backwards = `hoof 1\nvisit 2026-04-04\n${film(low)}\n\nvisit 2026-03-04\n${film(low)}\n`;
    expect(ranges(backwards).map(({ past }) => past)).toEqual([undefined, true]);
    const day = `hoof 1\nvisit 2026-04-04\n${film(low)}\n\n${film(low, { header: 'film LF lateral "again.png"' })}\n`;
    expect(ranges(day).map(({ past }) => past)).toEqual([true, undefined]);
    const taken = (date: string) => film(low, { more: [`taken ${date}`] });
    expect(ranges(caseOf(taken('2026-05-01'), taken('2026-02-01'))).map(({ past }) => past)).toEqual([undefined, true]);
  });

  it('is no photograph’s doing, nor is a photograph a film’s', () => {
    const photo = film({ 'coronet.heel': [-131, 50] }, { header: 'photo LF lateral "p.png"' });
    const flat = film({ 'coronet.heel': [-131, 50] });
    expect(ranges(caseOf(flat, photo)).map(({ past }) => past)).toEqual([undefined, undefined]);
    expect(ranges(caseOf(photo, flat)).map(({ past }) => past)).toEqual([undefined, undefined]);
  });

  it('is told as it is wanted, whatever level its code has', () => {
    const text = caseOf(film(low), film(low));
    const wishing = (past: 'hint' | 'as new' | 'off', levels = new Map()) =>
      inspect(text, { ...usualStudy, past, levels })
        .findings.filter(({ code }) => code === 'range/low-in-capsule')
        .map(({ severity }) => severity);
    expect(wishing('hint')).toEqual(['hint', 'warning']);
    expect(wishing('as new')).toEqual(['warning', 'warning']);
    expect(wishing('off')).toEqual(['warning']);
    expect(wishing('hint', new Map([['range/low-in-capsule', 'error']]))).toEqual(['hint', 'error']);
    expect([readPast('as-new'), readPast('as new'), readPast('off'), readPast('never'), readPast(1)]).toEqual([
      'as new',
      'as new',
      'off',
      null,
      null,
    ]);
    const findings = inspect(caseText(film(low))).findings;
    expect(withPast(findings, 'off')).toBe(findings);
  });

  it('never is an alarm that is open', () => {
    const text = caseOf(
      `  sign fever\n${film({})}`,
      film({ 'p3.extensor': [-37, 50] }),
      film({ 'p3.extensor': [-37, 50] }),
    );
    const open = inspect(text).findings.filter(({ severity }) => severity === 'error');
    expect(open.map(({ code, past }) => [code, past])).toEqual([
      ['visit/call-the-vet', undefined],
      ['course/sinking', undefined],
    ]);
  });

  it('is a cut only where its foot has a later film, plan or trim', () => {
    const cut = `${film({})}\n\n  trim LF\n    heel down 6 mm\n`;
    const told = (text: string) =>
      inspect(text)
        .findings.filter(({ code }) => code === 'trim/below-sole-plane')
        .map(({ severity }) => severity);
    const alone = told(caseOf(cut));
    expect(alone).toEqual(['error']);
    for (const later of [
      '  weight 500 kg',
      film({}, { header: 'film RF lateral "y.png"' }),
      film({}, { header: 'photo LF lateral "p.png"' }),
    ])
      expect(told(caseOf(cut, later))).toEqual(alone);
    const planned = cut.replace('trim LF', 'plan LF');
    for (const later of [film({}), '  plan LF\n    toe back 1 mm', '  trim LF\n    toe back 2 mm'])
      expect(told(caseOf(planned, later))).toEqual(['hint']);
    // What was cut that is alive stays so until a film shows what is left.
    expect(told(caseOf(cut, film({})))).toEqual(['hint']);
    for (const later of ['  plan LF\n    toe back 1 mm', '  trim LF\n    toe back 2 mm'])
      expect(told(caseOf(cut, later))).toEqual(alone);
    // What says no millimetres, or is broken, says nothing of the foot.
    for (const later of ['  trim LF\n    work "edges rounded"', '  trim LF\n    toe 4 mm', '  plan LF\n    leave toe'])
      expect(told(caseOf(cut, later)), later).toEqual(alone);
    // Within a day the order of the text counts: the trim was made after the film, and a film after the trim shows what it left.
    expect(told(caseOf(`${cut}\n${film({}, { header: 'film LF lateral "after.png"' })}`))).toEqual(['hint']);
  });
});

describe('what one day did to a foot', () => {
  const told = (text: string, code: string) =>
    inspect(text)
      .findings.filter((one) => one.code === code)
      .map(({ severity }) => severity);
  const trim = (lines: string): string => `\n  trim LF\n    ${lines}\n`;

  it('is made past by no other block of that day, only by a later one', () => {
    const turned = `${film({})}\n${trim('heel down 14 mm')}${trim('toe back 1 mm')}`;
    expect(told(caseOf(turned), 'trim/turn-per-visit')[0]).toBe('warning');
    expect(told(caseOf(turned, trim('toe back 1 mm')), 'trim/turn-per-visit')[0]).toBe('hint');
    const back = `${film({})}\n${trim('toe back 30 mm')}${trim('heel down 1 mm')}`;
    expect(told(caseOf(back), 'trim/wall-left')[0]).toBe('error');
    // What was taken of the wall stays until a film shows it.
    expect(told(caseOf(back, trim('heel down 1 mm')), 'trim/wall-left')[0]).toBe('error');
  });

  it('by hand is past once a tape of a later day has taken the foot again', () => {
    const byHand = `  tape LF\n    heel-surplus 6 mm\n${trim('heel down 13 mm')}`;
    expect(told(caseOf(byHand), 'trim/by-hand')).toEqual(['warning']);
    expect(told(caseOf(byHand, trim('toe back 1 mm')), 'trim/by-hand')).toEqual(['warning']);
    const taped = `  tape LF\n    heel-surplus 2 mm\n${trim('heel down 1 mm')}`;
    expect(told(caseOf(byHand, taped), 'trim/by-hand')).toEqual(['hint']);
  });
});

describe('plans of one visit', () => {
  const live = (text: string) =>
    inspect(text)
      .findings.filter(({ code }) => code === 'trim/live-sole')
      .map(({ severity }) => severity);
  const deep = '  plan LF\n    heel down 40 mm\n';

  it('both speak, whatever is planned beside them', () => {
    expect(live(caseOf(`${film({})}\n\n${deep}\n  plan LF\n    heel down 1 mm\n`))).toEqual(['error']);
    expect(live(caseOf(`${film({})}\n\n${deep}\n${deep}`))).toEqual(['error', 'error']);
    expect(live(caseOf(`${film({})}\n\n${deep.replace('plan', 'trim')}\n  plan LF\n    toe back 1 mm\n`))).toEqual([
      'error',
    ]);
  });

  it('are past once the trim is done, but not by a trim without numbers', () => {
    expect(live(caseOf(`${film({})}\n\n${deep}\n  trim LF\n    heel down 1 mm\n`))).toEqual(['hint']);
    expect(live(caseOf(`${film({})}\n\n${deep}\n  trim LF\n    work "rounded the edges"\n`))).toEqual(['error']);
    expect(live(caseOf(`${film({})}\n\n${deep}`, '  plan LF\n    heel down 1 mm'))).toEqual(['hint']);
  });
});

describe('a value beyond its limit within the error', () => {
  it('is told one level lower, and says so', () => {
    const founder = (distance: number) => ranges(caseText(film({ 'wall.top': [-18, 56 + distance] })))[0];
    expect(founder(18)).toMatchObject({ severity: 'error', limit: 15 });
    // Within the error of 15 mm and clearly over 8.
    expect(founder(15.5)).toMatchObject({ severity: 'warning', limit: 8 });
    expect(founder(8.5)).toMatchObject({ severity: 'info', limit: 8 });
    expect(founder(8.5)?.message).toContain('So near the line that the placing alone may be it.');
    expect(founder(12)?.message).not.toContain('So near the line');
  });
});

describe('a sole', () => {
  const depth = (mm: number): string => film({ 'sole.tip': [0, 16 - mm] });
  const sole = (text: string) =>
    inspect(text)
      .findings.filter(({ code, past }) => code === 'range/sole-depth.tip' && !past)
      .map(({ severity }) => severity);

  it.each([
    [13, 'obel 0', []],
    [10, 'obel 0', ['info']],
    [10, 'obel 3', ['info']],
    [4, 'obel 0', ['warning']],
    [4, 'obel 1', ['warning']],
    [4, 'obel 2', ['error']],
    [4, 'weight 500 kg', ['error']],
    [6.5, 'obel 2', ['warning']],
  ] as const)('of %d mm with «%s»: %j', (mm, line, severities) => {
    expect(sole(caseOf(`  ${line}\n${depth(mm)}`))).toEqual(severities);
  });

  it('that has clearly become thinner is a warning under 12 mm, an error under 7', () => {
    const then = (from: number, to: number) => sole(caseOf(`  obel 0\n${depth(from)}`, depth(to)));
    expect(then(15, 9.5)).toEqual(['warning']);
    expect(then(10.2, 9.5)).toEqual(['info']);
    expect(then(15, 4)).toEqual(['error']);
    // Slowly: no step is clear, the whole is.
    expect(sole(caseOf(`  obel 0\n${depth(12.4)}`, depth(11.3), depth(10.2), depth(9.2)))).toEqual(['warning']);
    // On the mend: what it lost before is past.
    expect(sole(caseOf(`  obel 0\n${depth(15)}`, depth(7.5), depth(10.5)))).toEqual(['info']);
  });

  it('has limits that no height makes smaller', () => {
    const small = `hoof 1\n\ncase "X"\n  animal pony mare\n  height 90 cm\n\nvisit 2026-03-04\n  obel 0\n${depth(10)}\n`;
    const [told] = ranges(small).filter(({ code }) => code === 'range/sole-depth.tip');
    expect(told).toMatchObject({ severity: 'info', limit: 12 });
    expect(told?.message).not.toContain('scaled');
  });
});

describe('what is said of a thin sole', () => {
  const depth = (mm: number, line: string, animal = 'animal horse mare'): string =>
    `hoof 1\n\ncase "X"\n  ${animal}\n\nvisit 2026-03-04\n  ${line}\n${film({ 'sole.tip': [0, 16 - mm] })}\n`;
  const sole = (...of: Parameters<typeof depth>) =>
    ranges(depth(...of)).find(({ code }) => code === 'range/sole-depth.tip');

  it.each(['obel 2', 'obel 3', 'obel 4', 'weight 500 kg', 'obel 3.5', 'obel 0'])(
    'under 7 mm names that line, and to protect the foot: %s',
    (line) => {
      for (const mm of [4, 6.5]) {
        const found = sole(mm, line);
        expect(found).toMatchObject({ limit: 7 });
        expect(found?.message).toMatch(/, under 7 mm .*Protect the foot, and take none of the sole\./);
        expect(found?.message).not.toContain('12 mm');
      }
    },
  );

  it('names what made it graver', () => {
    expect(sole(6.5, 'obel 2')).toMatchObject({ severity: 'warning' });
    expect(sole(6.5, 'obel 2')?.message).toContain('The animal is lame (Obel 2).');
    expect(sole(4, 'obel 3.5')).toMatchObject({ severity: 'error' });
    expect(sole(4, 'obel 3.5')?.message).toContain('The animal is lame (Obel 4).');
    expect(sole(4, 'weight 500 kg')?.message).toContain('No lameness is written');
    expect(sole(4, 'obel 0')?.message).not.toContain('lame');
  });

  it('never says that no lameness is written where a line of it stands', () => {
    const found = sole(4, 'obel sound');
    expect(found).toMatchObject({ severity: 'error' });
    expect(found?.message).not.toContain('No lameness is written');
    expect(found?.message).toContain('Its grade of lameness cannot be read: write obel and 0, 1, 2, 3 or 4.');
  });

  it('between 7 and 12 mm is short, and says whose figures they are', () => {
    const plain =
      'Sound horses have 11.5 ± 4.5 mm before and 8.6 ± 3.3 mm after a trim; 15 mm is widely taught. Leave the sole under and in front of the tip alone.';
    expect(sole(9.5, 'obel 2')?.message).toMatch(/^Sole depth at the tip, left fore: 9\.5 ± 0\.\d mm\. /);
    expect(sole(9.5, 'obel 2')?.message.endsWith(plain)).toBe(true);
    expect(sole(9.5, 'obel 0', 'animal donkey jenny')?.message).toContain(
      `${plain} No figures of donkeys could be read; these are horses’.`,
    );
  });

  it('keeps a line of one’s own, and says the other beside it', () => {
    const own = depth(5, 'obel 0').replace('\nvisit', '\nlimits\n  sole-depth.tip >= 14 mm\n\nvisit');
    const [found] = ranges(own).filter(({ code }) => code === 'range/sole-depth.tip');
    expect(found).toMatchObject({ severity: 'warning', limit: 14 });
    expect(found?.message).toContain('Under 7 mm: protect the foot');
  });
});
