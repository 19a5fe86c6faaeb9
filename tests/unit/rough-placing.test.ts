import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { usualStudy, type StudySettings } from '../../shared/trim/study.ts';
import { caseText, filmText } from './plain-foot.ts';

/** A spread of 50 px at 0.1 mm/px makes an error of a thin sole a warning: that is said. */
const thin = caseText(filmText({ 'sole.tip': [0, 11] }));
const rough = (text: string, settings: StudySettings = usualStudy) =>
  inspect(text, settings).findings.filter(({ code }) => code === 'landmark/rough');
const spreadAt = (spread: string): string => thin.replace('sole.tip @ 2000, 890', `sole.tip @ 2000, 890 +- ${spread}`);
const at = (text: string, one?: { at: { start: number; end: number } }): string =>
  text.slice(one?.at.start, one?.at.end);

describe('a placing that may be off by more than 3 mm', () => {
  it('is told where it makes a finding milder', () => {
    const severity = (text: string) =>
      inspect(text).findings.find(({ code }) => code === 'range/sole-depth.tip')?.severity;
    expect([severity(spreadAt('2')), severity(spreadAt('50'))]).toEqual(['error', 'warning']);
    expect(rough(spreadAt('2'))).toEqual([]);
    const [told, ...others] = rough(spreadAt('50'));
    expect(others).toEqual([]);
    expect(told).toMatchObject({ severity: 'info', value: 5, limit: 3 });
    expect(told?.message).toContain('may be off by 5.0 mm');
    expect(told?.message).toContain('told more mildly');
    expect(at(spreadAt('50'), told)).toBe('sole.tip @ 2000, 890 +- 50');
  });

  it.each([
    ['30', 0],
    ['31', 1],
  ])('begins beyond 3 mm: +- %s px', (spread, times) => {
    expect(rough(spreadAt(spread))).toHaveLength(times);
  });

  it('is told once a reading, at the roughest', () => {
    const text = spreadAt('50').replace('p3.tip @ 2000, 840', 'p3.tip @ 2000, 840 +- 80');
    expect(rough(text).map((one) => at(text, one))).toEqual(['p3.tip @ 2000, 840 +- 80']);
  });

  it('is told of a reader, at the reader', () => {
    const text = caseText(`${filmText()}\n    read "A" +- 40\n      p3.tip @ 2000, 840\n      p3.wing @ 1200, 770`);
    const [told, ...others] = rough(text);
    expect(others).toEqual([]);
    expect(told?.message).toContain('Every placing here (reader A) may be off by 4.0 mm');
    expect(at(text, told)).toContain('read "A" +- 40');
  });

  it('is told at the film where the setting says so', () => {
    const settings = { ...usualStudy, spread: { mm: 4, px: 5 } };
    expect(rough(thin, settings).map((one) => at(thin, one))).toEqual(['film']);
    expect(rough(thin, settings)[0]?.message).toContain('By the setting of the placings');
    expect(rough(thin, { ...usualStudy, spread: { mm: 3, px: 500 } })).toEqual([]);
  });
});
