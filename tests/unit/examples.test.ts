import type { MeasureName } from '../../shared/measures/names.ts';
import type { LandmarkName } from '../../shared/notation/landmarks.ts';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { codes } from '../../shared/findings/catalogue.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { filmInput } from '../../shared/measures/film-input.ts';
import { courseSheet } from '../../shared/views/course-sheet.ts';
import { takeMeasures } from '../../shared/measures/take.ts';
import type { Film } from '../../shared/record/schema.ts';

interface TrueFilm {
  file: string;
  mmPerPx: number;
  marker: { mm: number; from: [number, number]; to: [number, number] };
  ground: { from: [number, number]; to: [number, number] };
  landmarks: Record<string, [number, number]>;
}

const at = new URL('../../examples/', import.meta.url);
const read = (name: string): string => readFileSync(new URL(name, at), 'utf8');
const truth = (JSON.parse(read('drawn/truth.json')) as { films: TrueFilm[] }).films;
const study = (name: string) => inspect(read(name)).study;

/** The film with every place as it was drawn, which no eye and no mouse can do. */
function trueFilm(film: Film, drawn: TrueFilm): Film {
  const point = ([x, y]: [number, number]) => ({ x, y });
  const where = { start: 0, end: 0 };
  return {
    ...film,
    scale: { kind: 'pixel', mmPerPx: drawn.mmPerPx, at: where },
    ground: { from: point(drawn.ground.from), to: point(drawn.ground.to), at: where },
    readings: [
      {
        reader: null,
        spread: null,
        at: where,
        placings: Object.entries(drawn.landmarks).map(([name, place]) => ({
          name: name as LandmarkName,
          ...point(place),
          spread: null,
          at: where,
        })),
      },
    ],
  };
}

const films = ['bramble.hoof', 'juniper.hoof', 'larch.hoof', 'sorrel.hoof', 'teasel.hoof', 'thistle.hoof'].flatMap(
  (name) => study(name).films.map((film) => ({ name, film, path: film.film.path.text })),
);

describe('the films of the examples', () => {
  it('are all drawn ones, and each drawn one is used', () => {
    expect(new Set(films.map(({ path }) => path))).toEqual(new Set(truth.map(({ file }) => file)));
  });

  it.each(films)('$path measures what was drawn, within the rounding to half pixels', ({ film, path }) => {
    const drawn = truth.find(({ file }) => file === path) as TrueFilm;
    const whole = trueFilm(film.film, drawn);
    const expected = takeMeasures(() => filmInput(whole, whole.readings[0] as Film['readings'][number])).values;
    const found = film.readings[0]?.taking.values;
    expect(found?.size).toBe(expected.size);
    expect(expected.size).toBeGreaterThanOrEqual(30);
    // Half a pixel is 0.09 to 0.18 mm here and a placing is taken to be good to 0.5 mm: rounding lies well inside one sd.
    for (const [name, { value, sd }] of expected)
      expect(Math.abs((found?.get(name)?.value ?? NaN) - value), `${name} of ${path}`).toBeLessThan(0.6 * sd);
  });
});

describe('the sound foot', () => {
  // Common practice, no source: what the trade looks for in a normal fore foot.
  it.each(study('bramble.hoof').films.map((film) => [film.film.foot, film] as const))(
    '%s keeps to the constants of the trade',
    (_foot, film) => {
      const value = (name: MeasureName): number => film.readings[0]?.taking.values.get(name)?.value ?? NaN;
      expect(value('coronet-navicular')).toBeGreaterThan(0);
      expect(value('coronet-navicular')).toBeLessThan(8);
      expect(Math.abs(value('hoof-pastern-deviation'))).toBeLessThan(3);
      expect(value('palmar-angle')).toBeGreaterThan(2);
      expect(value('palmar-angle')).toBeLessThan(8);
      expect(Math.abs(value('horn-lamellar.upper') - value('horn-lamellar.lower'))).toBeLessThan(2);
      expect(value('toe-share')).toBeGreaterThan(50);
      expect(value('toe-share')).toBeLessThan(60);
    },
  );

  it('has no finding graver than a note', () => {
    expect(
      inspect(read('bramble.hoof')).findings.filter(({ severity }) => severity === 'error' || severity === 'warning'),
    ).toEqual([]);
  });
});

describe('the rotated foot', () => {
  const series = (name: MeasureName) =>
    study('juniper.hoof').films.map((film) => film.readings[0]?.taking.values.get(name)?.value ?? NaN);
  const falls = (values: number[]) =>
    values.every((value, index) => index === 0 || value < (values[index - 1] as number));

  it('comes down over four films, and its sole and new wall grow', () => {
    expect(series('palmar-angle')).toHaveLength(4);
    for (const name of ['palmar-angle', 'capsular-rotation', 'heel-surplus', 'founder-distance'] as const)
      expect(falls(series(name)), name).toBe(true);
    for (const name of ['sole-depth.tip', 'grown-out', 'coronet-angle'] as const)
      expect(falls(series(name).map((value) => -value)), name).toBe(true);
  });

  it('is trimmed in steps that no rule of the trim speaks against', () => {
    const { findings, study: juniper } = inspect(read('juniper.hoof'));
    expect(juniper.cuts.length).toBeGreaterThanOrEqual(4);
    expect(juniper.cuts.every((cut) => cut.prediction !== null)).toBe(true);
    expect(findings.filter(({ code, severity }) => code.startsWith('trim/') && severity !== 'hint')).toEqual([]);
    // Each trim but the last is held against the film that came after it.
    expect(findings.filter(({ code }) => code === 'trim/outcome')).toHaveLength(3);
  });

  it('says no more than a practitioner would say aloud', () => {
    const { findings } = inspect(read('juniper.hoof'));
    expect(
      findings.filter(({ severity }) => severity === 'error' || severity === 'warning').length,
    ).toBeLessThanOrEqual(10);
    // The course goes well: of the newest film only the layer before the bone is still told.
    expect(
      findings.filter(({ severity }) => severity !== 'hint').map(({ code, severity }) => `${severity} ${code}`),
    ).toEqual(['info film/other-foot', 'warning range/wall-to-bone']);
  });

  it('is told as such at the first visit', () => {
    const text = read('juniper.hoof');
    const cut = inspect(text.slice(0, text.indexOf('visit 2026-04-01'))).findings;
    const first = cut.filter(({ severity }) => severity !== 'hint').map(({ code }) => code);
    expect(cut.filter(({ past }) => past).map(({ code }) => code)).toEqual([]);
    expect(cut.find(({ code }) => code === 'alignment/outside-only')?.message).toBe(
      'Left fore: seen from outside, wall and pastern are in line within 2°. Inside, the bone is 9° off the wall, on heels 16 mm above the live sole plane. To take toe or raise heels to straighten the outside would hide this. This counts only if the cannon stood upright on the film.',
    );
    for (const code of [
      'range/palmar-angle',
      'range/capsular-rotation',
      'range/sole-depth.tip',
      'range/low-in-capsule',
      'range/wall-to-bone',
      'range/coronet-angle',
      'alignment/outside-only',
    ])
      expect(first).toContain(code);
  });
});

describe('the foot that only the trim turned', () => {
  const { findings, study: sorrel } = inspect(read('sorrel.hoof'));
  const series = (name: MeasureName) =>
    sorrel.films.map((film) => film.readings[0]?.taking.values.get(name)?.value ?? NaN) as [number, number, number];

  it('stands flatter after each trim, and nothing moves in the capsule', () => {
    const [first, , last] = series('palmar-angle');
    expect(first - last).toBeCloseTo(6.9, 0);
    const [was, , is] = series('founder-distance');
    expect(is - was).toBeGreaterThan(2);
    for (const name of [
      'founder-distance.level',
      'coronet-extensor.level',
      'capsular-rotation',
      'horn-lamellar.middle',
    ] as const) {
      const values = series(name);
      expect(Math.max(...values) - Math.min(...values), name).toBeLessThan(0.5);
    }
  });

  it('gives nothing to be alarmed about, and the hint that it stands flatter', () => {
    expect(findings.filter(({ severity }) => severity !== 'hint')).toEqual([]);
    const [hint, ...others] = findings.filter(({ code }) => code.startsWith('course/'));
    expect(others).toEqual([]);
    expect(hint?.code).toBe('course/stands-flatter');
    expect(hint?.message).toMatch(
      /^Left fore: founder distance is 2\.\d mm more than on 14 April 2026, as the foot stands 7° flatter;/,
    );
  });
});

describe('the bone that creeps', () => {
  const text = read('teasel.hoof');
  /** The case as it was known after so many of its visits. */
  const after = (visits: number) =>
    inspect(
      text
        .split(/(?=^visit )/m)
        .slice(0, visits + 1)
        .join(''),
    ).findings.filter(({ code }) => code === 'course/sinking');

  it('is told nothing of by three films, a word of caution by four, and an error by five', () => {
    expect([1, 2, 3, 4, 5].map((visits) => after(visits).map(({ severity }) => severity))).toEqual([
      [],
      [],
      [],
      ['warning'],
      ['error'],
    ]);
    expect(after(4)[0]?.message).toContain('tell the vet, and have it filmed again soon');
    expect(after(5)[0]?.message).toMatch(/no single step was more than the error\. Call the vet today\.$/);
  });

  it('shows nothing from one film to the next', () => {
    const [foot] = courseSheet(inspect(text)).feet;
    for (const name of ['founder-distance.level', 'sole-depth.tip']) {
      const row = foot?.rows.find(({ measure }) => measure === name);
      expect(
        row?.changes.map(({ clear }) => clear),
        name,
      ).toEqual([false, false, false, false]);
      expect(row?.overall?.clear, name).toBe(true);
    }
    expect(foot?.sinking?.told).toBe(true);
  });

  it('is closed by the vet who has seen her, as the file itself says', () => {
    const closed = inspect(
      `${text}\nvisit 2026-06-12\n  vet seen 2026-06-11 "in the barn, two more films next week"\n`,
    );
    const [told, ...others] = closed.findings.filter(({ code }) => code === 'course/sinking');
    expect(others).toEqual([]);
    expect(told).toMatchObject({ severity: 'hint' });
    expect(told?.message).toContain('Seen by the vet on 11 June 2026');
  });
});

describe('the file full of mistakes', () => {
  it('shows most of what a slip of the hand can be, each at its own line', () => {
    const found = new Set(inspect(read('mistakes.hoof')).findings.map(({ code }) => code));
    const slips = codes.map(({ code }) => code).filter((code) => /^(?:notation|record|measure)\//.test(code));
    const shown = slips.filter((code) => found.has(code));
    expect(shown.length).toBeGreaterThanOrEqual(16);
    const told = inspect(read('mistakes.hoof')).findings.map(({ code, severity }) => `${severity} ${code}`);
    for (const one of [
      'error trim/below-sole-plane',
      'error trim/live-sole',
      'warning trim/palmar-angle',
      'error trim/sole-depth',
      'warning limits/loosened',
      'error visit/call-the-vet',
    ])
      expect(told).toContain(one);
  });

  it('still measures the films in it', () => {
    expect(study('mistakes.hoof').films.map((film) => film.readings[0]?.taking.values.has('palmar-angle'))).toEqual([
      true,
      true,
    ]);
  });
});
