import type { LandmarkName } from '../../shared/notation/landmarks.ts';
import { describe, expect, it } from 'vitest';
import { slope } from '../../shared/geometry/point.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { measures } from '../../shared/measures/registry.ts';
import { caseText, filmText, type Places } from './plain-foot.ts';

function predicted(cut: string, places: Places = {}) {
  const { study } = inspect(caseText(`${filmText(places)}\n\n  trim LF\n    ${cut}`));
  const [studied] = study.cuts;
  if (!studied?.prediction || !studied.reading) throw new Error('the cut is not predicted');
  return { prediction: studied.prediction, before: studied.reading.taking.values };
}

describe('a predicted trim', () => {
  it('of nothing is what was measured, to the last bit, and cuts no sole', () => {
    const { prediction, before } = predicted('why "looked only"', {
      'sole.tip': [0, -0.5],
      'heel.ground': [-110, 0.4],
    });
    expect(prediction.delta).toBe(0);
    for (const [name, value] of before) expect(prediction.values.get(name)?.value, name).toBeCloseTo(value.value, 9);
    expect(prediction.soleCut).toEqual({ tip: 0, wing: 0, heel: 0 });
  });

  it('level from heel to toe lowers the sole depth by nothing where no sole is reached', () => {
    const { prediction, before } = predicted('heel down 0.5 mm\n    toe down 0.5 mm');
    expect(prediction.delta).toBeCloseTo(0, 9);
    expect(prediction.values.get('sole-depth.tip')?.value).toBeCloseTo(before.get('sole-depth.tip')?.value ?? NaN, 9);
    expect(prediction.values.get('heel-height')?.value).toBeCloseTo((before.get('heel-height')?.value ?? NaN) - 0.5, 9);
  });

  it('cuts sole by as much as the new line passes above it, and measures what is left to the line', () => {
    // Level cut of 3 mm: the line lies at 3 mm, the sole below the tip at 1 mm, the tip at 16 mm.
    const { prediction } = predicted('heel down 3 mm\n    toe down 3 mm');
    expect(prediction.soleCut.tip).toBeCloseTo(2, 9);
    expect(prediction.soleCut.wing).toBe(0);
    expect(prediction.values.get('sole-depth.tip')?.value).toBeCloseTo(13, 9);
  });

  it('brings toe and breakover back and takes wall by the sine of its angle', () => {
    const { prediction, before } = predicted('toe back 4 mm');
    const angle = ((before.get('wall-angle')?.value ?? NaN) * Math.PI) / 180;
    expect(prediction.delta).toBeCloseTo(0, 9);
    expect(prediction.values.get('breakover-reach')?.value).toBeCloseTo(22, 9);
    expect(prediction.values.get('bearing-length')?.value).toBeCloseTo(134, 9);
    expect(prediction.wallLeft).toBeCloseTo((before.get('horn-lamellar.lower')?.value ?? NaN) - 4 * Math.sin(angle), 9);
  });

  it('keeps the bones above the coffin joint at their angle to the ground', () => {
    const { prediction, before } = predicted('heel down 6 mm');
    for (const name of ['middle-angle', 'axis-angle'] as const)
      expect(prediction.values.get(name)?.value).toBeCloseTo(before.get(name)?.value ?? NaN, 9);
  });

  it('that leaves nothing to stand on is not predicted', () => {
    expect(
      inspect(caseText(`${filmText({ 'heel.ground': [-20, 0] })}\n  trim LF\n    toe back 50 mm`)).findings.map(
        ({ code }) => code,
      ),
    ).toContain('trim/not-predicted');
  });

  it('is predicted on the newest lateral film of its foot that is not later than its visit', () => {
    const film = (path: string, date: string, wing: number) =>
      filmText({ 'p3.wing': [-80, wing] }, { header: `film LF lateral "${path}"`, more: [`taken ${date}`] });
    const text = `hoof 1\nvisit 2026-03-04\n${film('a', '2026-03-01', 20)}\n${film('b', '2026-03-02', 24)}\n${filmText({}, { header: 'photo LF lateral "c"' })}\nvisit 2026-03-05\n  plan LF\n    heel down 1 mm\nvisit 2026-03-06\n${film('d', '2026-03-06', 30)}\n`;
    expect(inspect(text).study.cuts.map((cut) => cut.film?.film.path.text)).toEqual(['b']);
  });
});

describe('the sheet of a frame', () => {
  it('does not grow with what is asked of it', () => {
    const { study } = inspect(caseText(`${filmText()}\n  trim LF\n    heel down 3 mm`));
    const frame = study.films[0]?.readings[0]?.taking.frame;
    if (!frame) throw new Error('no frame');
    const size = () => frame.graph.scratch(() => frame.graph.constant(0).index);
    const before = size();
    for (const measure of measures) frame.graph.scratch(() => measure.of(frame));
    expect(size()).toBe(before);
  });
});

describe('sheets that share their columns', () => {
  const reading = (wing: number) =>
    inspect(caseText(filmText({ 'p3.wing': [-80, wing] }))).study.films[0]?.readings[0] ?? null;
  const sdOf = (name: LandmarkName, one: ReturnType<typeof reading>): number =>
    one?.taking.frame?.graph.deviation(one.taking.frame.at(name)?.y ?? one.taking.frame.graph.constant(0)) ?? NaN;

  it('do not get into each other’s way, by turns and one within another', () => {
    const [one, other] = [reading(20), reading(30)];
    const [mine, theirs] = [one?.taking.frame, other?.taking.frame];
    const [from, to] = [mine?.at('p3.tip'), mine?.at('p3.wing')];
    if (!mine || !theirs || !from || !to) throw new Error('no frame');
    const alone = mine.graph.scratch(() => mine.graph.deviation(slope(from, to)));
    expect(alone).toBeCloseTo(one?.taking.values.get('palmar-angle')?.sd ?? NaN, 12);
    const before = sdOf('sole.tip', other);
    const within = mine.graph.scratch(() => {
      const angle = slope(from, to);
      const meanwhile = sdOf('sole.tip', other);
      expect(meanwhile).toBe(before);
      expect(theirs.graph.scratch(() => mine.graph.deviation(angle))).toBe(alone);
      return mine.graph.deviation(angle);
    });
    expect(within).toBe(alone);
  });
});

describe('how sure a predicted cut is', () => {
  it('is told for the live sole and the wall that is left', () => {
    const { prediction } = predicted('heel down 3 mm\n    toe down 3 mm\n    toe back 4 mm');
    // The line lies 3 mm up whatever is placed; the depth is as sure as the height of the sole below the tip.
    expect(prediction.soleCut.tip).toBeGreaterThan(1.5);
    expect(prediction.soleCutSd.tip).toBeGreaterThan(0.4);
    expect(prediction.soleCutSd.tip).toBeLessThan(1);
    expect(prediction.soleCutSd.wing).toBe(0);
    expect(prediction.wallLeftSd).toBeGreaterThan(0.3);
  });
});
