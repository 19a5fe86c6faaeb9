import { scaleLinear, type ScaleLinear } from 'd3-scale';
import { marked } from '../../language/figures.ts';
import type { MeasureUnit } from '../../measures/unit.ts';
import { COURSE_RULES } from '../course/course-ink.ts';
import { fitted, widthInEm } from '../plate/lettering.ts';
import { group, type Box, type GroupNode, type Scene, type SceneNode } from '../scene.ts';
import { slantedLines } from '../slanted-lines.ts';
import { AGREEMENT_RULES } from './agreement-ink.ts';

/** A film that two readings were held against each other on. */
export interface DifferencePoint {
  readonly mean: number;
  readonly difference: number;
  /** `5 May 2026, left fore: 7.1°, difference −0.4°`. */
  readonly words: string;
}

/** A line of the plot with its interval. */
export interface DrawnEstimate {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** What stands at its end: what it is and its value, and below that the interval. */
  readonly words: string;
  readonly interval: string;
}

export interface DifferencePlotInput {
  /** CSS pixels. */
  readonly width: number;
  readonly unit: MeasureUnit;
  /** From left to right. */
  readonly points: readonly DifferencePoint[];
  readonly bias: DrawnEstimate;
  readonly lower: DrawnEstimate;
  readonly upper: DrawnEstimate;
  /** By how much the difference grows for each unit of the mean; null where that is not clear. */
  readonly growth: number | null;
  /** What lies along and what up: `Mean of the two`, `Ash less Rowan`. */
  readonly along: string;
  readonly up: string;
  readonly title: string;
  readonly description: string;
  /** For a drawing that stands alone: what stands above it. */
  readonly heading?: string;
}

export interface DifferencePlot {
  readonly scene: Scene;
  /** Where the points lie, pixels from the left and the top. */
  readonly stops: readonly { readonly x: number; readonly y: number }[];
  /** A ring about one of them, to be laid over the scene. */
  cursor(stop: number): Scene;
}

/** Size of the letters, CSS pixels. */
const EM = 13;
const SMALL = 0.88 * EM;
const NARROW = 620;
/** With few films an interval reaches far: no further than so many times what lies between the limits is shown of it. */
const REACH = 0.6;
/** Pixels that the words of two lines keep from each other. */
const WORDS = 2.55 * EM;

/**
 * Differences against means (Bland and Altman 1986): a ring a film, the bias and both limits as lines with their intervals hatched, and
 * the line of growth where that is clear.
 */
export function drawDifferences(input: DifferencePlotInput): DifferencePlot {
  const { width, points, bias, lower, upper, title, description, heading } = input;
  const isNarrow = width < NARROW;
  const head = heading === undefined ? 0 : 34;
  const margin = heading === undefined ? 0 : 24;
  const estimates = [upper, bias, lower];
  const wordsWidth = Math.min(
    0.42 * width,
    estimates.reduce(
      (most, { words, interval }) => Math.max(most, widthInEm(words) * EM, widthInEm(interval) * SMALL),
      0,
    ),
  );
  // On the page a line is kept for what the cursor reads.
  const top = head + (heading === undefined ? 3.6 : 1.9) * EM;
  const area = { left: 48, right: width - wordsWidth - 14, top, bottom: top + (isNarrow ? 210 : 270), head };
  const y = scaleLinear(upDomain(input), [area.bottom, area.top]);
  const x = scaleLinear(alongDomain(points), [area.left + 14, area.right - 14]);
  const view: Box = {
    x: -margin,
    y: -margin / 2,
    width: width + 2 * margin,
    height: area.bottom + 3.2 * EM + margin,
  };
  const scene = (layers: readonly GroupNode[]): Scene => ({
    view,
    title,
    description,
    layers,
    rules: COURSE_RULES + AGREEMENT_RULES,
    unit: 1,
    onPicture: false,
    ghost: false,
    labelBoxes: [],
    cutBoxes: [],
  });
  const stops = points.map(({ mean, difference }) => ({ x: x(mean), y: y(difference) }));
  return {
    scene: scene([
      ...(heading === undefined ? [] : [group(['heading'], [text(heading, 0, 18, { size: 1.25 * EM })])]),
      scales(input, x, y, area),
      limitLine(upper, y, area, 8),
      limitLine(lower, y, area, 20),
      biasBand(bias, y, area),
      ...growthLine(input, x, y, area),
      lineWords(estimates, y, area, wordsWidth),
      group(
        ['film-points'],
        stops.map((centre, at) => ({
          kind: 'circle',
          centre,
          radius: 3.6,
          weight: 1.4,
          classes: ['film-point'],
          title: points[at]?.words ?? '',
        })),
      ),
    ]),
    stops,
    cursor: (stop) => scene([cursor(stop, input, stops, area)]),
  };
}

interface DifferenceArea {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  /** Above it stands the heading. */
  readonly head: number;
}

function upDomain({ points, bias, lower, upper }: DifferencePlotInput): [number, number] {
  const reach = REACH * (upper.value - lower.value);
  const all = [
    0,
    bias.value,
    ...points.map(({ difference }) => difference),
    Math.max(lower.low, lower.value - reach),
    Math.min(upper.high, upper.value + reach),
  ];
  return aired(all);
}

const alongDomain = (points: readonly DifferencePoint[]): [number, number] => aired(points.map(({ mean }) => mean));

/** The stretch of some values, with air; a single value has some about it too. */
function aired(values: readonly number[]): [number, number] {
  // Not by `Math.min(...)`: more films than a call takes arguments are possible.
  const low = values.reduce((least, one) => Math.min(least, one), Infinity);
  const high = values.reduce((most, one) => Math.max(most, one), -Infinity);
  if (!(high >= low)) return [0, 1];
  const air = high > low ? 0.05 * (high - low) : 0.5;
  return [low - air, high + air];
}

type Along = ScaleLinear<number, number>;

function scales({ unit, along, up }: DifferencePlotInput, x: Along, y: Along, area: DifferenceArea): GroupNode {
  const { left, right, top, bottom, head } = area;
  return group(
    ['scales'],
    [
      rule({ x: left, y: top }, { x: left, y: bottom }, 'scale'),
      rule({ x: left, y: bottom }, { x: right, y: bottom }, 'scale'),
      ...y
        .ticks(5)
        .flatMap((tick): SceneNode[] => [
          rule({ x: left - 4, y: y(tick) }, { x: left, y: y(tick) }, 'scale'),
          text(figures(tick, unit), left - 7, y(tick) + 0.33 * EM, { size: SMALL, anchor: 'end', classes: ['quiet'] }),
        ]),
      ...x
        .ticks(right - left > 380 ? 6 : 4)
        .flatMap((tick): SceneNode[] => [
          rule({ x: x(tick), y: bottom }, { x: x(tick), y: bottom + 4 }, 'scale'),
          text(figures(tick, unit), x(tick), bottom + 1.35 * EM, { size: SMALL, anchor: 'middle', classes: ['quiet'] }),
        ]),
      { kind: 'line', from: { x: left, y: y(0) }, to: { x: right, y: y(0) }, weight: 0.8, classes: ['zero'] },
      text(fitted(up, right / EM), 0, head + 1.15 * EM, { classes: ['words'] }),
      text(fitted(along, (right - left) / EM), (left + right) / 2, bottom + 2.75 * EM, {
        anchor: 'middle',
        classes: ['words'],
      }),
    ],
  );
}

/** The bias, with its interval hatched about it. */
function biasBand(
  { value, low, high }: DrawnEstimate,
  y: Along,
  { left, right, top, bottom }: DifferenceArea,
): GroupNode {
  const [from, to] = [Math.max(y(high), top), Math.min(y(low), bottom)];
  const hatching: SceneNode = {
    kind: 'path',
    segments: slantedLines(left, right, from, to),
    weight: 0.7,
    classes: ['hatching'],
  };
  const line: SceneNode = { kind: 'line', from: { x: left, y: y(value) }, to: { x: right, y: y(value) }, weight: 2 };
  return group(['bias-band'], to - from > 1 ? [hatching, line] : [line]);
}

/** A limit, dashed, with its interval as an upright near the end, as far as the plot reaches. */
function limitLine(
  { value, low, high }: DrawnEstimate,
  y: Along,
  { left, right, top, bottom }: DifferenceArea,
  at: number,
): GroupNode {
  const x = right - at;
  const ends = [
    { y: y(high), reaches: y(high) >= top },
    { y: y(low), reaches: y(low) <= bottom },
  ].map((end) => ({ ...end, y: Math.min(Math.max(end.y, top), bottom) }));
  const [from, to] = ends;
  return group(
    ['limit-band'],
    [
      { kind: 'line', from: { x: left, y: y(value) }, to: { x: right, y: y(value) }, weight: 1.3, dash: [5, 4] },
      ...(from && to
        ? [{ kind: 'line', from: { x, y: from.y }, to: { x, y: to.y }, weight: 1.1 } satisfies SceneNode]
        : []),
      // An end that lies off the plot has no bar across it.
      ...ends
        .filter(({ reaches }) => reaches)
        .map((end): SceneNode => ({
          kind: 'line',
          from: { x: x - 4, y: end.y },
          to: { x: x + 4, y: end.y },
          weight: 1.1,
        })),
    ],
  );
}

/** Least squares go through the middle of the films. */
function growthLine(
  { growth, points, bias }: DifferencePlotInput,
  x: Along,
  y: Along,
  { top, bottom }: DifferenceArea,
): GroupNode[] {
  if (growth === null || points.length === 0) return [];
  const middle = points.reduce((sum, { mean }) => sum + mean, 0) / points.length;
  const ends = [points[0]?.mean ?? middle, points.at(-1)?.mean ?? middle].map((mean) => ({
    x: x(mean),
    y: Math.min(Math.max(y(bias.value + growth * (mean - middle)), top), bottom),
  }));
  const [from, to] = ends;
  return from && to ? [group(['growth'], [{ kind: 'line', from, to, weight: 1.8, dash: [8, 4] }])] : [];
}

/** At the right end of each line what it is; moved apart where two lie close. */
function lineWords(
  estimates: readonly DrawnEstimate[],
  y: Along,
  { right, top, bottom }: DifferenceArea,
  width: number,
): GroupNode {
  const places = estimates.map(({ value }) => y(value));
  // The bias keeps its place; what stands above and below it gives way.
  const [first = 0, middle = 0, last = 0] = places;
  const at = [Math.min(first, middle - WORDS), middle, Math.max(last, middle + WORDS)].map((one) =>
    Math.min(Math.max(one, top), bottom + EM),
  );
  return group(
    ['line-words'],
    estimates.flatMap(({ words, interval }, index): SceneNode[] => {
      const line = at[index] ?? 0;
      return [
        text(fitted(words, width / EM + 0.2), right + 10, line + 0.1 * EM, { classes: index === 1 ? ['reading'] : [] }),
        text(fitted(interval, width / SMALL + 0.2), right + 10, line + 1.25 * EM, { size: SMALL, classes: ['quiet'] }),
      ];
    }),
  );
}

function cursor(
  stop: number,
  { points, width }: DifferencePlotInput,
  stops: DifferencePlot['stops'],
  { top }: DifferenceArea,
): GroupNode {
  const [centre, point] = [stops[stop], points[stop]];
  if (!centre || !point) return group(['cursor'], []);
  return group(
    ['cursor'],
    [
      { kind: 'circle', centre, radius: 7, weight: 1.4, classes: ['cursor-ring'] },
      text(fitted(point.words, (width - 4) / EM), 0, top - 0.9 * EM, { classes: ['reading'] }),
    ],
  );
}

const rule = (from: DifferencePlot['stops'][number], to: DifferencePlot['stops'][number], name: string): SceneNode => ({
  kind: 'line',
  from,
  to,
  weight: 0.8,
  classes: [name],
});

function text(
  words: string,
  x: number,
  y: number,
  {
    size = EM,
    anchor = 'start',
    classes = [],
  }: { size?: number; anchor?: 'start' | 'middle' | 'end'; classes?: readonly string[] },
): SceneNode {
  return { kind: 'text', at: { x, y }, size, anchor, runs: [{ text: words }], classes };
}

function figures(value: number, unit: MeasureUnit): string {
  const rounded = marked(String(Math.round(value * 1000) / 1000)).replace('-', '\u2212');
  return unit === 'deg' ? `${rounded}°` : unit === '1' ? rounded : `${rounded} ${unit}`;
}
