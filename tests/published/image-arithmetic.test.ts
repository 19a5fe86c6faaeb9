import { beforeAll, describe, expect, it } from 'vitest';
import { leastSquaresCircle, robustCircle } from '../../shared/picture/seek/circle-fit.ts';
import { correlation, correlations } from '../../shared/picture/seek/correlation.ts';
import { greyAt, greyPicture, type GreyPicture } from '../../shared/picture/seek/grey-picture.ts';
import { leastSquaresLine, robustLine } from '../../shared/picture/seek/line-fit.ts';
import { highestPeak } from '../../shared/picture/seek/peak.ts';
import { greyOfLevel, halved, pyramidOf } from '../../shared/picture/seek/pyramid.ts';
import { Dice } from '../property/dice.ts';
import { matrixOf, openCv, type Cv } from './by-opencv.ts';

let cv: Cv;
beforeAll(async () => {
  ({ cv } = await openCv());
});

/** Grain over soft hills, so that neighbours differ and are yet akin. */
function grainy(width: number, height: number, seed: number): GreyPicture {
  const dice = new Dice(seed);
  const greys = Float32Array.from({ length: width * height }, (_, i) => {
    const [x, y] = [i % width, Math.floor(i / width)];
    return 120 + 60 * Math.sin(x / 5) * Math.cos(y / 7) + dice.between(-20, 20);
  });
  return { width, height, greys };
}

describe('against OpenCV', () => {
  it('normalised cross-correlation is its TM_CCOEFF_NORMED', () => {
    const [side, windowSide] = [13, 41];
    const window = grainy(windowSide, windowSide, 3);
    const patch = grainy(side, side, 4);
    // One place where the patch really is, lighter and with less contrast.
    for (let y = 0; y < side; y++)
      for (let x = 0; x < side; x++)
        window.greys[(y + 9) * windowSide + x + 17] = 40 + 0.5 * (patch.greys[y * side + x] ?? 0);
    const [image, template, result] = [matrixOf(cv, window), matrixOf(cv, patch), new cv.Mat()];
    cv.matchTemplate(image, template, result, cv.TM_CCOEFF_NORMED);
    const ours = correlations(patch.greys, side, window.greys, windowSide);
    expect(ours).toHaveLength(result.data32F.length);
    const worst = Math.max(...ours.map((value, i) => Math.abs(value - (result.data32F[i] ?? Number.NaN))));
    expect(worst).toBeLessThan(1e-4);
    const peak = highestPeak(ours, windowSide - side + 1);
    expect([Math.round(peak.x), Math.round(peak.y)]).toEqual([17, 9]);
    expect(peak.height).toBeGreaterThan(0.999);
    for (const mat of [image, template, result]) mat.delete();
  });

  it('one row of numbers correlates as it says', () => {
    const [a, b] = [grainy(30, 1, 5).greys, grainy(30, 1, 6).greys];
    const [image, template, result] = [
      matrixOf(cv, { width: 30, height: 1, greys: a }),
      matrixOf(cv, { width: 30, height: 1, greys: b }),
      new cv.Mat(),
    ];
    cv.matchTemplate(image, template, result, cv.TM_CCOEFF_NORMED);
    expect(correlation(a, b)).toBeCloseTo(result.data32F[0] ?? Number.NaN, 5);
    for (const mat of [image, template, result]) mat.delete();
  });

  it('greys between pixels are those of its remap with INTER_LINEAR, at the rim too', () => {
    const picture = grainy(23, 17, 7);
    const dice = new Dice(8);
    const places = Array.from({ length: 60 }, () => [dice.between(-2, 24), dice.between(-2, 18)] as const);
    const source = matrixOf(cv, picture);
    const result = new cv.Mat();
    const row = (of: 0 | 1) =>
      matrixOf(cv, { width: places.length, height: 1, greys: Float32Array.from(places, (place) => place[of]) });
    const [mapX, mapY] = [row(0), row(1)];
    cv.remap(source, result, mapX, mapY, cv.INTER_LINEAR, cv.BORDER_REPLICATE, new cv.Scalar());
    // It rounds a place to a 32nd of a pixel: with up to 40 greys from pixel to pixel that is 2 greys at the most.
    const off = places.map(([x, y], i) => Math.abs(greyAt(picture, x, y) - (result.data32F[i] ?? Number.NaN)));
    expect(Math.max(...off)).toBeLessThan(2);
    expect(off.reduce((sum, one) => sum + one, 0) / off.length).toBeLessThan(0.4);
    for (const mat of [source, result, mapX, mapY]) mat.delete();
  });

  it('a halved picture is its resize with INTER_AREA', () => {
    const picture = grainy(36, 22, 9);
    const source = matrixOf(cv, picture);
    const result = new cv.Mat();
    cv.resize(source, result, new cv.Size(18, 11), 0, 0, cv.INTER_AREA);
    const ours = halved(picture);
    expect([ours.width, ours.height]).toEqual([18, 11]);
    const worst = Math.max(...ours.greys.map((value, i) => Math.abs(value - (result.data32F[i] ?? Number.NaN))));
    expect(worst).toBeLessThan(1e-3);
    for (const mat of [source, result]) mat.delete();
  });

  it('colours weigh as in its COLOR_RGB2GRAY', () => {
    const data = Uint8Array.from([255, 0, 0, 0, 255, 0, 0, 0, 255, 10, 200, 90]);
    const source = cv.matFromArray(1, 4, cv.CV_8UC3, [...data]);
    const result = new cv.Mat();
    cv.cvtColor(source, result, cv.COLOR_RGB2GRAY);
    const ours = greyPicture({ width: 4, height: 1, channels: 3, data });
    expect([...ours.greys].map(Math.round)).toEqual([...result.data]);
    for (const mat of [source, result]) mat.delete();
  });

  it('a line through places is its fitLine, where across is across', () => {
    const dice = new Dice(11);
    const along = Array.from({ length: 40 }, (_, i) => i - 19.5);
    const across = along.map((x) => 0.01 * x + 2 + dice.between(-0.2, 0.2));
    const fit = leastSquaresLine(along, across);
    const source = cv.matFromArray(
      40,
      2,
      cv.CV_32F,
      along.flatMap((x, i) => [x, across[i] ?? 0]),
    );
    const result = new cv.Mat();
    cv.fitLine(source, result, cv.DIST_L2, 0, 0.001, 0.001);
    const [vx = 1, vy = 0, x = 0, y = 0] = result.data32F;
    // It takes distances square to the line, we take them across the place: the same but for the slope's square.
    expect(fit?.slope).toBeCloseTo(vy / vx, 4);
    expect((fit?.offset ?? 0) + (fit?.slope ?? 0) * x).toBeCloseTo(y, 3);
    for (const mat of [source, result]) mat.delete();
  });
});

describe('greys of a smaller picture lie where those of the picture lie', () => {
  it('on a slope, whose grey says the place', () => {
    const width = 64;
    const slope: GreyPicture = {
      width,
      height: width,
      greys: Float32Array.from({ length: width * width }, (_, i) => (i % width) + 3 * Math.floor(i / width)),
    };
    const pyramid = pyramidOf(slope, 3);
    expect(pyramid).toHaveLength(3);
    // Worked by hand: a plane averaged over a square is the plane at the square's middle, so every level says x + 3 y.
    for (const level of [0, 1, 2]) expect(greyOfLevel(pyramid, level, 20.3, 31.8)).toBeCloseTo(20.3 + 3 * 31.8, 3);
  });
});

describe('least squares', () => {
  // NIST/ITL Statistical Reference Datasets, linear regression, Norris: data and certified values.
  const norris: readonly (readonly [number, number])[] = [
    [0.1, 0.2], [338.8, 337.4], [118.1, 118.2], [888, 884.6], [9.2, 10.1], [228.1, 226.5], [668.5, 666.3],
    [998.5, 996.3], [449.1, 448.6], [778.9, 777], [559.2, 558.2], [0.3, 0.4], [0.1, 0.6], [778.1, 775.5],
    [668.8, 666.9], [339.3, 338], [448.9, 447.5], [10.8, 11.6], [557.7, 556], [228.3, 228.1], [998, 995.8],
    [888.8, 887.6], [119.6, 120.2], [0.3, 0.3], [0.6, 0.3], [557.6, 556.8], [339.3, 339.1], [888, 887.2],
    [998.5, 999], [778.9, 779], [10.2, 11.1], [117.6, 118.3], [228.9, 229.2], [668.4, 669.1], [449.2, 448.9],
    [0.2, 0.5],
  ]; // prettier-ignore
  const x = norris.map(([, along]) => along);
  const y = norris.map(([across]) => across);

  it('of a line has the certified values, deviations included', () => {
    const fit = leastSquaresLine(x, y);
    expect(fit?.offset).toBeCloseTo(-0.262323073774029, 9);
    expect(fit?.slope).toBeCloseTo(1.00211681802045, 11);
    expect(fit?.offsetSd).toBeCloseTo(0.232818234301152, 9);
    expect(fit?.slopeSd).toBeCloseTo(0.429796848199937e-3, 11);
    expect(fit?.residualSd).toBeCloseTo(0.884796396144373, 9);
  });

  it('of most places, whatever a third of them do, is that of the others alone', () => {
    const spoilt = y.map((value, i) => (i % 3 === 0 ? value + 40 + i : value));
    const sound = (values: readonly number[]): number[] => values.filter((_, i) => i % 3 !== 0);
    const alone = leastSquaresLine(sound(x), sound(y));
    const fit = robustLine(x, spoilt);
    expect(fit?.count).toBe(24);
    expect(fit?.slope).toBeCloseTo(alone?.slope ?? Number.NaN, 9);
    expect(fit?.offset).toBeCloseTo(alone?.offset ?? Number.NaN, 9);
  });

  it('has none where all places lie at one place along, or are too few', () => {
    expect(leastSquaresLine([1, 1, 1], [1, 2, 3])).toBeNull();
    expect(leastSquaresLine([1, 2], [1, 2])).toBeNull();
    expect(robustLine([2, 2, 2, 2, 2, 2, 2], [1, 2, 3, 4, 5, 6, 7])).toBeNull();
  });

  // Gander, Golub and Strebel, Least-squares fitting of circles and ellipses, BIT 34 (1994): six points and their best circle.
  const six = [[1, 7], [2, 6], [5, 8], [7, 7], [9, 5], [3, 7]].map(([px = 0, py = 0]) => ({ x: px, y: py })); // prettier-ignore

  it('of a circle has the published centre and radius', () => {
    const fit = leastSquaresCircle(six, { x: 5.3794, y: 7.2532, radius: 3.037 });
    expect(fit?.centre.x).toBeCloseTo(4.7398, 3);
    expect(fit?.centre.y).toBeCloseTo(2.9835, 3);
    expect(fit?.radius).toBeCloseTo(4.7142, 3);
  });

  it('of a circle is not led astray by a few places', () => {
    const places = Array.from({ length: 30 }, (_, i) => {
      const angle = (i / 30) * 2.4;
      const far = i % 6 === 0 ? 23 : 20;
      return { x: 7 + far * Math.cos(angle), y: -3 + far * Math.sin(angle) };
    });
    const fit = robustCircle(places, { x: 6, y: -2, radius: 21 });
    expect(fit?.count).toBe(25);
    expect(fit?.centre.x).toBeCloseTo(7, 6);
    expect(fit?.centre.y).toBeCloseTo(-3, 6);
    expect(fit?.radius).toBeCloseTo(20, 6);
  });

  it('of places on a line has no circle', () => {
    const straight = Array.from({ length: 12 }, (_, i) => ({ x: i, y: 2 * i }));
    expect(robustCircle(straight, { x: 1e9, y: -5e8, radius: Number.NaN })).toBeNull();
  });
});
