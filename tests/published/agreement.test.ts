import { describe, expect, it } from 'vitest';
import { blandAltman } from '../../shared/agreement/bland-altman.ts';
import { completeTable } from '../../shared/agreement/complete-table.ts';
import { fQuantile, tQuantile } from '../../shared/agreement/interval.ts';
import { absoluteAgreement, consistency, type Intraclass } from '../../shared/agreement/intraclass.ts';
import { meanSquares, type MeanSquares, type ReadingsTable } from '../../shared/agreement/mean-squares.ts';
import { scatterEllipse } from '../../shared/agreement/scatter-ellipse.ts';
import { spreadsOf, withinFilms } from '../../shared/agreement/spreads.ts';

/**
 * Agreement held against papers and against R. "By R" is R 4.2.2 with psych 2.2.9, function ICC without lme4, and R's own aov,
 * t.test, lm and qchisq, run on the same numbers when this was written. Figures of papers that were not open then are marked
 * 'from memory'; R gave the same ones.
 */
const squaresOf = (table: ReadingsTable): MeanSquares => meanSquares(table) as MeanSquares;
const parts = (one: Intraclass | null): number[] => [one?.value, one?.interval?.low, one?.interval?.high] as number[];
const near = (found: readonly number[], expected: readonly number[], digits: number): void => {
  expect(found).toHaveLength(expected.length);
  expected.forEach((value, place) => expect(found[place]).toBeCloseTo(value, digits));
};

/** Shrout and Fleiss 1979, Psychological Bulletin 86:420, table 1: six targets, four judges (from memory). */
const shroutFleiss = [
  [9, 2, 5, 8],
  [6, 1, 3, 2],
  [8, 4, 6, 8],
  [7, 1, 2, 6],
  [10, 5, 6, 9],
  [6, 2, 4, 7],
];

/** Ten films and three readers, invented; degrees. */
const tenFilms = [
  [4.1, 4.6, 3.8],
  [9.2, 9.9, 9.4],
  [12.3, 12.1, 11.6],
  [6.7, 7.5, 6.9],
  [2.2, 2.9, 2.6],
  [15.8, 16.1, 15.1],
  [8.4, 8.8, 8.9],
  [5.0, 5.9, 4.7],
  [11.1, 11.6, 10.6],
  [7.3, 7.2, 7.7],
];

describe('intraclass correlations', () => {
  it('are those of Shrout and Fleiss (1979): 0.29 and 0.71', () => {
    const squares = squaresOf(shroutFleiss);
    // Their table 2, from memory: BMS 11.24, JMS 32.49, EMS 1.02.
    near([squares.films, squares.readers, squares.rest], [11.24, 32.49, 1.02], 2);
    expect(absoluteAgreement(squares)?.value.toFixed(2)).toBe('0.29');
    expect(consistency(squares)?.value.toFixed(2)).toBe('0.71');
  });

  it('and their intervals are those that R makes of the same table', () => {
    const squares = squaresOf(shroutFleiss);
    near(parts(absoluteAgreement(squares)), [0.2897637795, 0.01878651337, 0.7610843696], 6);
    near(parts(consistency(squares)), [0.7148407148, 0.34246476503, 0.94585826], 6);
  });

  it('are those that R makes of ten films and three readers', () => {
    const squares = squaresOf(tenFilms);
    near([squares.films, squares.readers, squares.rest], [46.455555555556, 0.816333333333, 0.105222222222], 9);
    near(parts(absoluteAgreement(squares)), [0.988715709837, 0.952861018682, 0.99722192341], 6);
    near(parts(consistency(squares)), [0.993235617652, 0.980357245358, 0.998166485405], 6);
  });

  it('keep the bounds by the formulas of McGraw and Wong (1996), written in their own letters', () => {
    // Psychological Methods 1:30, table 7, case 2: degrees of freedom from a MSC + b MSE (from memory).
    const { n, k, films: msr, readers: msc, rest: mse } = squaresOf(tenFilms);
    const icc = (msr - mse) / (msr + (k - 1) * mse + (k / n) * (msc - mse));
    const a = (k * icc) / (n * (1 - icc));
    const b = 1 + (k * icc * (n - 1)) / (n * (1 - icc));
    const v = (a * msc + b * mse) ** 2 / ((a * msc) ** 2 / (k - 1) + (b * mse) ** 2 / ((n - 1) * (k - 1)));
    const f = fQuantile(n - 1, v);
    const low = (n * (msr - f * mse)) / (f * (k * msc + (k * n - k - n) * mse) + n * msr);
    expect(absoluteAgreement({ n, k, films: msr, readers: msc, rest: mse })?.interval?.low).toBeCloseTo(low, 9);
  });

  it('fall where a reader reads all films higher only where readers may be exchanged', () => {
    const higher = tenFilms.map(([a, b, c]) => [a, (b as number) + 5, c] as number[]);
    expect(absoluteAgreement(squaresOf(higher))?.value).toBeLessThan(0.8);
    expect(consistency(squaresOf(higher))?.value).toBeCloseTo(consistency(squaresOf(tenFilms))?.value as number, 9);
  });

  it('say nothing of equal values, and give no interval where nothing is left over', () => {
    expect(
      absoluteAgreement(
        squaresOf([
          [3.3, 3.3],
          [3.3, 3.3],
        ]),
      ),
    ).toBeNull();
    expect(
      consistency(
        squaresOf([
          [3.3, 3.3],
          [3.3, 3.3],
        ]),
      ),
    ).toBeNull();
    expect(
      consistency(
        squaresOf([
          [1, 2],
          [4, 5],
          [9, 10],
        ]),
      ),
    ).toEqual({ value: expect.closeTo(1, 9), interval: null });
    expect(meanSquares([[1, 2]])).toBeNull();
    expect(meanSquares([[1], [2]])).toBeNull();
  });

  it('take quantiles as tables print them', () => {
    // NIST/SEMATECH handbook, 1.3.6.7.2, upper 2.5 % of t, and 95 % tables of F at 2.5 %, from memory; R prints the same.
    near([tQuantile(16), tQuantile(1)], [2.12, 12.706], 3);
    near([fQuantile(5, 15), fQuantile(1, 1)], [3.5764, 647.789], 3);
  });
});

describe('spreads', () => {
  it('are the roots of the variances that the mean squares are made of', () => {
    // By hand from the table of Shrout and Fleiss: (32.4861 - 1.0194) / 6 = 5.2444, (11.2417 - 1.0194) / 4 = 2.5556.
    const { films, readers, rest, sem, semSameReader, smallestChange } = spreadsOf(squaresOf(shroutFleiss));
    near([films ** 2, readers ** 2, rest ** 2], [2.5556, 5.2444, 1.0194], 4);
    near([sem ** 2, semSameReader ** 2], [6.2639, 1.0194], 4);
    // 1.96 √2 SEM: de Vet et al. 2006, Journal of Clinical Epidemiology 59:1033 (from memory).
    expect(smallestChange).toBeCloseTo(1.96 * Math.SQRT2 * Math.sqrt(6.26389), 3);
  });

  it('within films of two, three and four readings are those of R, with the interval by chi-square', () => {
    const found = withinFilms([[4.1, 4.6, 3.8], [9.2, 9.9], [12.3, 12.1, 11.6, 12], [7]]);
    expect(found).toMatchObject({ df: 6, films: 3, readings: 9 });
    near(
      [found?.sd, found?.interval?.low, found?.interval?.high] as number[],
      [0.372305131728, 0.239910972625, 0.819840514208],
      6,
    );
  });
});

describe('Bland and Altman', () => {
  /** Lancet 1986, i:307, table I, first readings: Wright and mini Wright peak flow meters, 17 people, l/min (from memory). */
  const wright = [494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427];
  const mini = [512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451];
  const found = blandAltman(wright.map((value, person) => [value, mini[person] as number]));

  it('have the bias, the standard deviation and the standard errors that they print', () => {
    // -2.1 and 38.8; standard error of the bias 9.4, its interval -22.0 to 17.8; of a limit 16.3.
    near([found?.bias.value, found?.sd, found?.bias.se] as number[], [-2.1, 38.8, 9.4], 1);
    near([found?.bias.interval.low, found?.bias.interval.high] as number[], [-22, 17.8], 1);
    // They round 2.92 s²/n up to 3 s²/n, and here n is small: 16.4.
    expect(found?.lower.se).toBeGreaterThan(16.25);
    expect(found?.lower.se).toBeLessThan(16.45);
    // With 2 in place of 1.96 they have -79.7 and 75.5.
    expect((found?.lower.value ?? 0) - 0.04 * (found?.sd ?? 0)).toBeCloseTo(-79.65, 1);
    expect((found?.upper.value ?? 0) + 0.04 * (found?.sd ?? 0)).toBeCloseTo(75.41, 1);
    // By hand: 73.862 ± 2.1199 · 16.393.
    near([found?.upper.interval.low, found?.upper.interval.high].map(Number), [39.11, 108.61], 1);
  });

  it('find no proportional bias there, with the slope and interval of R', () => {
    near(
      [found?.slope?.value, found?.slope?.interval.low, found?.slope?.interval.high] as number[],
      [0.0286874451525, -0.159320063684, 0.216694953989],
      6,
    );
    expect(found?.isProportional).toBe(false);
  });

  it('agree with R on the first two of three readers', () => {
    const two = blandAltman(tenFilms.map(([a, b]) => [a as number, b as number]));
    near(
      [two?.bias.value, two?.sd, two?.bias.interval.low, two?.bias.interval.high] as number[],
      [-0.45, 0.365908306668, -0.711755034127, -0.188244965873],
      6,
    );
    near(
      [two?.slope?.value, two?.slope?.se, two?.slope?.interval.low, two?.slope?.interval.high] as number[],
      [0.0416622489967, 0.0288138365182, -0.0247825771655, 0.108107075159],
      6,
    );
  });

  it('see a reader whose scale is longer', () => {
    const scaled = blandAltman(tenFilms.map(([a, b]) => [1.2 * (a as number), b as number]));
    expect(scaled?.isProportional).toBe(true);
    expect(scaled?.slope?.value).toBeGreaterThan(0.15);
  });

  it('want two films, and three for a slope', () => {
    expect(blandAltman([[1, 2]])).toBeNull();
    expect(
      blandAltman([
        [1, 2],
        [3, 5],
      ]),
    ).toMatchObject({ films: 2, slope: null, isProportional: false });
  });
});

describe('what was not read by all', () => {
  const film = (values: Record<string, number>): ReadonlyMap<string, number> => new Map(Object.entries(values));

  it('is left out where the others have more without it', () => {
    // By hand: three readers share two films (6 readings), Ash and Rowan four (8).
    const found = completeTable([
      film({ Ash: 1, Rowan: 2, Elm: 3 }),
      film({ Ash: 4, Rowan: 5, Elm: 6 }),
      film({ Ash: 7, Rowan: 8 }),
      film({ Ash: 9, Rowan: 10 }),
      film({ Ash: 11 }),
    ]);
    expect(found).toEqual({
      readers: ['Ash', 'Rowan'],
      table: [
        [1, 2],
        [4, 5],
        [7, 8],
        [9, 10],
      ],
    });
  });

  it('takes the third reader where that gives more', () => {
    // Three readers on three films are nine readings, two on four eight.
    const three = { Ash: 1, Rowan: 2, Elm: 3 };
    const found = completeTable([film(three), film(three), film(three), film({ Ash: 1, Rowan: 2 })]);
    expect(found?.readers).toEqual(['Ash', 'Rowan', 'Elm']);
    expect(found?.table).toHaveLength(3);
  });

  it('is nothing where no two readers share two films', () => {
    expect(completeTable([film({ Ash: 1, Rowan: 2 }), film({ Ash: 1, Elm: 2 })])).toBeNull();
    expect(completeTable([])).toBeNull();
  });

  it('is found among more readers than can be tried together', () => {
    const all = Object.fromEntries(Array.from({ length: 30 }, (_, place) => [`r${place}`, place]));
    expect(completeTable([film(all), film(all)])?.readers).toHaveLength(30);
  });
});

describe('the scatter of a landmark', () => {
  it('is the ellipse of a covariance worked by hand', () => {
    // Along 30°: two films, each with places at ±4 along and ±1 across about its middle, and the middle itself left out.
    const along = { x: Math.cos(Math.PI / 6), y: Math.sin(Math.PI / 6) };
    const at = (long: number, short: number, x: number, y: number) => ({
      x: x + long * along.x - short * along.y,
      y: y + long * along.y + short * along.x,
    });
    const places = (x: number, y: number) => [at(4, 0, x, y), at(-4, 0, x, y), at(0, 1, x, y), at(0, -1, x, y)];
    const found = scatterEllipse([places(0, 0), places(70, -20)]);
    // Sum of squares along 2 · 32, across 2 · 2; 8 placings less 2 films.
    expect(found?.long).toBeCloseTo(Math.sqrt(64 / 6), 9);
    expect(found?.short).toBeCloseTo(Math.sqrt(4 / 6), 9);
    expect(found?.angle).toBeCloseTo(30, 9);
    expect(found).toMatchObject({ placings: 8, films: 2, df: 6 });
  });

  it('has no direction where it is the same all round, says 90 and not -90, and wants three placings', () => {
    const square = [
      { x: 1, y: 0 },
      { x: -1, y: 0 },
      { x: 0, y: 1 },
      { x: 0, y: -1 },
    ];
    expect(scatterEllipse([square])?.angle).toBeNull();
    expect(
      scatterEllipse([
        [
          { x: 0, y: 0 },
          { x: 0, y: 3 },
          { x: 0, y: 5 },
        ],
      ]),
    ).toMatchObject({ angle: 90, short: 0 });
    expect(
      scatterEllipse([
        [
          { x: 0, y: 0 },
          { x: 1, y: 1 },
        ],
        [{ x: 2, y: 2 }],
      ]),
    ).toBeNull();
  });
});
