import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import type { Finding } from '../../shared/findings/finding.ts';
import { Dice } from './dice.ts';
import { scaleOf } from './oracle/lateral.ts';
import { isHeight } from './oracle/ranges.ts';
import { randomFoot, toNotation, type RandomFoot } from './random-foot.ts';
import { absurdNumber, slipped } from './random-slips.ts';

/**
 * A line whose number is out of its range is as good as not there: what is told of the rest is told to the letter, places
 * included. The line is made a remark of the same length to compare.
 */

/** mm of each unit of height, and hands as inches after the point: common practice, no source. */
const millimetres: Readonly<Record<string, (image: string) => number>> = {
  cm: (image) => Number(image) * 10,
  mm: Number,
  in: (image) => Number(image) * 25.4,
  hh: (image) => {
    const [hands = '0', inches = '0'] = image.split('.');
    return (Number(hands) * 4 + Number(`${inches.charAt(0)}.${inches.slice(1) || '0'}`)) * 25.4;
  },
};

/** A height that no animal has, of any length and sign. */
const absurdHeight = fc
  .record({
    image: fc.oneof(
      fc.integer({ min: -5000, max: 60_000 }).map(String),
      fc.integer({ min: -50_000, max: 600_000 }).map((tenths) => (tenths / 10).toFixed(1)),
      fc.double({ min: -3, max: 3, noNaN: true }).map((value) => value.toFixed(6)),
      fc.stringMatching(/^-?\d{1,400}(?:\.\d{1,400})?$/),
    ),
    unit: fc.constantFrom('cm', 'mm', 'in', 'hh'),
  })
  .filter(({ image, unit }) => {
    const mm = millimetres[unit]?.(image) ?? NaN;
    // Clear of the bounds themselves, where the two ways of counting round apart.
    return image.length > 25 || !(isHeight(mm) || isHeight(mm * 1.000001) || isHeight(mm * 0.999999));
  })
  // Hands with four inches and more are told for themselves.
  .filter(({ image, unit }) => unit !== 'hh' || !/\.[4-9]/.test(image));

const remark = (line: string): string => `#${line.slice(1)}`;

function told(text: string): unknown[] {
  return inspect(text).findings.filter(({ code }) => code !== 'notation/number-range');
}

describe('a line whose number is out of its range', () => {
  it('as the height of a random animal changes nothing that is told', () => {
    let loosened = 0;
    fc.assert(
      fc.property(fc.nat(), absurdHeight, (seed, { image, unit }) => {
        const text = toNotation(randomFoot(seed));
        const line = `  height ${image} ${unit}`;
        const withLine = text.replace('  animal horse\n', `  animal horse\n${line}\n`);
        const { findings, study } = inspect(withLine);
        expect(study.animal.heightMm).toBeNull();
        const ranges = findings.filter(({ code }) => code === 'notation/number-range');
        expect(ranges.map(({ at }) => withLine.slice(at.start, at.end))).toEqual([image]);
        expect(told(withLine)).toEqual(told(withLine.replace(line, remark(line))));
        loosened += findings.some(({ code }) => code.startsWith('range/')) ? 1 : 0;
      }),
      { numRuns: 300 },
    );
    // Enough of them had something to tell that a small animal would have got away with.
    expect(loosened).toBeGreaterThan(60);
  });

  it('among those of a film, a plan or a trim changes nothing that is told', () => {
    fc.assert(
      fc.property(fc.nat(), (seed) => {
        const foot = slipped(randomFoot(seed));
        const text = toNotation(foot);
        const broken = inspect(text).findings.filter(({ code }) => code === 'notation/number-range');
        const lines = text.split('\n');
        let start = 0;
        const without = lines.map((line) => {
          const within = broken.some(({ at }) => at.start >= start && at.start < start + line.length);
          start += line.length + 1;
          return within ? remark(line) : line;
        });
        expect(ofTheRest(text)).toEqual(ofTheRest(without.join('\n')));
      }),
      { numRuns: 300 },
    );
  });

  it('or whose scale makes an impossible foot changes nothing but that it is told', () => {
    let thin = 0;
    fc.assert(
      fc.property(fc.nat(), fc.constantFrom(4, 8, 0.15, 0.08), (seed, times) => {
        const { scale, ...film } = thinSoled(seed).film;
        const sound = scaleOf({ ...film, ...(scale && { scale }) }) ?? NaN;
        const mmPerPx = Math.min(5, Math.max(0.005, sound * times * (film.magnify ?? 1)));
        const line = `scale ${mmPerPx.toFixed(6)} mm/px`;
        const foot = { ...thinSoled(seed), film: { ...film, scale: { form: 'stated', mmPerPx } } };
        const text = toNotation(foot as RandomFoot).replace(/scale .* mm\/px/, line);
        const { findings, study } = inspect(text);
        expect(study.films[0]?.readings[0]?.taking.scale).toBeNull();
        expect(findings.filter(({ code }) => code === 'scale/foot-size')).toMatchObject([
          { severity: 'error', at: { start: text.indexOf(line), end: text.indexOf(line) + line.length } },
        ]);
        expect(besideScale(text)).toEqual(besideScale(text.replace(line, remark(line))));
        thin += inspect(text.replace(line, `scale ${sound.toFixed(5)} mm/px`)).findings.some(isThinSole) ? 1 : 0;
      }),
      { numRuns: 200 },
    );
    // Of these the wrong scale would have silenced some.
    expect(thin).toBeGreaterThan(100);
  });

  it('is told in a sentence without a number that is none', () => {
    fc.assert(
      fc.property(fc.nat(), (seed) => {
        const dice = new Dice(seed);
        const text = toNotation(slipped(randomFoot(seed)))
          .replace('weight 512 kg', `weight ${absurdNumber(dice)} kg`)
          .replace('2026-03-04', dice.pick(['2026-03-04', '0026-03-04', '9999-12-31']));
        for (const { message } of inspect(text).findings) expect(message).not.toMatch(/NaN|Infinity|undefined|\d{30}/);
      }),
      { numRuns: 300 },
    );
  });
});

const isThinSole = ({ code, severity }: Finding): boolean => code === 'range/sole-depth.tip' && severity === 'error';

/** A foot with the sole close under the tip of the bone, about 3 mm. */
function thinSoled(seed: number): RandomFoot {
  const foot = randomFoot(seed, { complete: true });
  const mmPerPx = scaleOf(foot.film) ?? NaN;
  const tip = foot.film.landmarks.find(({ name }) => name === 'p3.tip');
  const sole = foot.film.landmarks.find(({ name }) => name === 'sole.tip');
  if (!tip || !sole) throw new Error('a complete foot has its sole');
  const share = 3 / mmPerPx / Math.hypot(sole.x - tip.x, sole.y - tip.y);
  const between = (from: number, to: number): number => Math.round(100 * (from + share * (to - from))) / 100;
  const thin = { ...sole, x: between(tip.x, sole.x), y: between(tip.y, sole.y) };
  const landmarks = foot.film.landmarks.map((one) => (one === sole ? thin : one));
  return { ...foot, film: { ...foot.film, landmarks } };
}

/** What is told but of the scale itself; a film without one is told of in other words. */
function besideScale(text: string): unknown[] {
  return inspect(text)
    .findings.filter(({ code }) => code !== 'scale/foot-size' && code !== 'frame/no-scale')
    .map(({ message, ...finding }) => ({
      ...finding,
      message: message.replace('a scale that is right', 'a scale'),
    }));
}

/**
 * What the readable lines give: without what is wrong with the writing of the others, and without the ends of places, as the
 * last line of a block may be one that became a remark.
 */
function ofTheRest(text: string): unknown[] {
  return inspect(text)
    .findings.filter(({ code }) => !code.startsWith('notation/'))
    .map(({ code, message, value, limit, at }) => ({ code, message, value, limit, start: at.start }));
}
