import { describe, expect, it } from 'vitest';
import { usualGrowOut } from '../../shared/course/grow-out.ts';
import { dayNumber } from '../../shared/notation/dates.ts';
import { bands } from '../../shared/reference/bands.ts';
import { growthValues, usualGrowth } from '../../shared/reference/growth.ts';
import { values } from '../../shared/reference/values.ts';
import { caseText, filmText, soundFoot, type Places } from '../unit/plain-foot.ts';
import { readFilm } from './readings.ts';

// What limits rest on, each beside its source. Figures as the sources print them; 'quoted' where another text tells them.

describe('no limit that is told as an error', () => {
  it('is from memory, or common practice', () => {
    const errors = bands.flatMap(({ thresholds: cuts }) => cuts.filter(({ severity }) => severity === 'error'));
    expect(errors.length).toBeGreaterThan(0);
    for (const { source, strength } of errors) expect(strength, source).toMatch(/^(?:read|quoted)$/);
  });
});

describe('sole depth of ten sound horses (Iran J Vet Surg, article 79374, abstract)', () => {
  // 1.15 ± 0.45 cm before a trim, 0.86 ± 0.33 cm after it.
  it.each([
    ['before', 11.5, 4.5],
    ['after', 8.6, 3.3],
  ])('%s a trim: %d ± %d mm', (when, mean, sd) => {
    const rows = values.filter(
      ({ measure, source, population }) =>
        measure === 'sole-depth.tip' && source === 'darehShori' && population.words.includes(when),
    );
    expect(rows).toMatchObject([{ n: 10, mean, sd, strength: 'read' }]);
  });

  it('and is no more than information in the mean of them, sound as they were', () => {
    for (const depth of [11.5, 8.6]) {
      const told = readFilm(caseText(`  obel 0\n${filmText({ 'sole.tip': [0, 16 - depth] })}`)).ranges(
        'sole-depth.tip',
      );
      for (const { severity } of told) expect(severity).toMatch(/^(?:info|hint)$/);
    }
  });

  it('and in two thirds of sound feet, right after a trim and whatever is written of lameness', () => {
    // Two thirds of a normal population lie above the mean less 0.43 standard deviations.
    const told = readFilm(caseText(filmText({ 'sole.tip': [0, 16 - (8.6 - 0.43 * 3.3)] }))).ranges('sole-depth.tip');
    expect(told.map(({ severity }) => severity)).toEqual(['info']);
  });
});

describe('heels flatter than the toe (225 horses, shape of the hoof capsule in hindlimbs, abstract)', () => {
  const mean = (measure: string, feet: string): number =>
    values.find((row) => row.measure === measure && row.source === 'hindFeet' && row.population.feet === feet)?.mean ??
    NaN;

  it('is by more than 5 degrees in the mean of fore and hind feet, so that no limit is drawn there', () => {
    // 51.8 and 40.1 degrees in front, 50.9 and 36.4 behind.
    expect(mean('wall-angle', 'fore') - mean('heel-angle', 'fore')).toBeCloseTo(11.7, 9);
    expect(mean('wall-angle', 'hind') - mean('heel-angle', 'hind')).toBeCloseTo(14.5, 9);
    expect(bands.filter(({ measure }) => measure === 'toe-heel-difference')).toEqual([]);
  });
});

describe('growth in mm a day', () => {
  // Kolstrung 2012, Josseck 1995, Reilly 1998 (both groups) and a textbook, abstracts and page; turned into days here.
  it.each([
    ['kolstrung', 2.1 / 7],
    ['josseck', 7 / 28],
    ['reilly', 30.69 / 153],
    ['reilly', 35.34 / 153],
  ])('%s: %d', (source, rate) => {
    const rates = growthValues.filter((row) => row.source === source).map(({ mmPerDay }) => mmPerDay as number);
    expect(Math.min(...rates.map((one) => Math.abs(one - rate)))).toBeLessThan(0.005);
    expect(rate).toBeGreaterThanOrEqual(usualGrowth.slow - 0.005);
    expect(rate).toBeLessThanOrEqual(usualGrowth.fast);
  });

  it('is 6 to 10 mm a month in the textbook (The Veterinary Care of the Horse, p. 196)', () => {
    expect(usualGrowth.slow).toBeCloseTo(6 / 30, 2);
    expect(usualGrowth.fast).toBeCloseTo(10 / 30, 2);
  });

  it('renews a toe of 85 to 90 mm in the 11 to 13 months of Lungwitz, in the middle of the range', () => {
    const months = (toe: number): number => {
      const day = dayNumber('2026-01-01') as number;
      const { date } = usualGrowOut(0, day, toe);
      return ((dayNumber(date ?? '') ?? NaN) - day) / 30.44;
    };
    expect(months(85)).toBeGreaterThan(11);
    expect(months(90)).toBeLessThan(13);
  });
});

describe('in line outside, not inside', () => {
  // Phalangeal rotation of ten apparently healthy horses: 3.30 ± 2.95 and 3.40 ± 2.66 degrees (Iran J Vet Surg, abstract).
  it('says what sound feet have', () => {
    const rows = values.filter(({ measure, source }) => measure === 'phalangeal-rotation' && source === 'darehShori');
    expect(rows.map(({ mean, sd }) => [mean, sd])).toEqual([
      [3.3, 2.95],
      [3.4, 2.66],
    ]);
  });

  // Five sound horses, the limb put forward and back: hoof-pastern and coffin joint angles follow the stance, the bone's own angle
  // does not (Vet Radiol Ultrasound 2016, doi 10.1111/vru.12443).
  it('the limb put forward changes the angles to the pastern, not those of bone and wall', () => {
    const put = (degrees: number): Places => {
      const [cx, cy] = soundFoot['coffin.centre'] as readonly [number, number];
      const [sine, cosine] = [Math.sin((degrees * Math.PI) / 180), Math.cos((degrees * Math.PI) / 180)];
      return Object.fromEntries(
        ['pastern.centre', 'fetlock.centre'].map((name) => {
          const [x, y] = soundFoot[name] as readonly [number, number];
          return [name, [cx + (x - cx) * cosine - (y - cy) * sine, cy + (x - cx) * sine + (y - cy) * cosine]] as const;
        }),
      );
    };
    const [upright, forward] = [readFilm(caseText(filmText())), readFilm(caseText(filmText(put(6))))];
    for (const name of ['hoof-pastern-deviation', 'phalangeal-rotation'])
      expect(Math.abs(forward.value(name) - upright.value(name)), name).toBeCloseTo(6, 9);
    for (const name of ['palmar-angle', 'bone-angle', 'capsular-rotation', 'wall-angle'])
      expect(forward.value(name), name).toBeCloseTo(upright.value(name), 9);
  });
});

describe('donkeys', () => {
  // A teaching text with The Donkey Sanctuary says that the extensor process may lie below the upper limit of the hoof, not how far.
  it('have no limit of how low the bone lies, and no value of a horse beside it', () => {
    const low = filmText({ 'wall.top': [-18, 76], 'coronet.dorsal': [-25, 84] });
    const donkey = readFilm(caseText(low, { animal: 'animal donkey jenny\n  height 108 cm' }));
    expect(donkey.ranges('low-in-capsule')).toEqual([]);
    expect(donkey.ranges('very-low-in-capsule')).toEqual([]);
    expect(readFilm(caseText(low)).ranges('very-low-in-capsule')).toHaveLength(1);
  });

  // Wall 11 to 14 mm over a cortex of 33 to 35 mm in normal feet (vetmansoura.com): 31 to 42 %, far above a horse's.
  it('are not held against a horse’s share of wall to bone', () => {
    const rows = values.filter(({ source }) => source === 'mansoura');
    const [wall, cortex] = rows;
    expect(((wall?.low ?? 0) / (cortex?.high ?? 0)) * 100).toBeGreaterThan(31);
    expect(bands.filter(({ measure, animals }) => measure.includes('lamellar') && animals !== 'horses')).toEqual([]);
  });
});
