import type { XY } from '../../geometry/vector.ts';
import type { PlateLabel } from './plate-label.ts';
import { group, type GroupNode, type SceneNode, type PathSegment } from '../scene.ts';

/** In text sizes. */
export const RULE_LENGTH = 6;

const BAND_HEIGHT = 0.46;

/** The stretch of numbers the rule shows: the band in the middle, and the value too unless it is far away. */
function extent(low: number | null, high: number | null, value: number): [number, number] {
  if (low !== null && high !== null) {
    const width = Math.max(high - low, Math.abs(low) * 0.02, 1e-6);
    const near = Math.min(Math.max(value, low - 1.6 * width), high + 1.6 * width);
    return [Math.min(low - 0.6 * width, near - 0.15 * width), Math.max(high + 0.6 * width, near + 0.15 * width)];
  }
  const limit = low ?? high ?? 0;
  const away = Math.abs(value - limit);
  const width = Math.max(Math.min(away, Math.abs(limit) * 3 + 1), Math.abs(limit) * 0.35, 1e-6);
  return [limit - 1.25 * width, limit + 1.25 * width];
}

/** A value and what a cut makes of it stand on one rule. */
function shownNumbers({ band, value, after }: PlateLabel): [number, number] {
  const { low, high } = band ?? { low: null, high: null };
  const [start, end] = extent(low, high, value);
  if (!after) return [start, end];
  const [earlier, later] = extent(low, high, after.value);
  return [Math.min(start, earlier), Math.max(end, later)];
}

/** A short rule: the reference band hatched, a tick where the value stands, an arrow where it stands off the rule, an open ring where a cut brings it. */
export function bandRule(label: PlateLabel, at: XY, em: number): GroupNode {
  const { low, high } = label.band ?? { low: null, high: null };
  const [start, end] = shownNumbers(label);
  const place = (value: number): number =>
    at.x + Math.min(Math.max((value - start) / (end - start), 0), 1) * RULE_LENGTH * em;
  const half = (BAND_HEIGHT / 2) * em;
  const from = low === null ? at.x : place(low);
  const to = high === null ? at.x + RULE_LENGTH * em : place(high);
  const hatch: PathSegment[] = [];
  const gap = 0.2 * em;
  for (let x = from - half * 2 + gap; x < to; x += gap) {
    // Slanted lines, each cut at the band's two ends.
    const a = Math.max(x, from);
    const b = Math.min(x + 2 * half, to);
    if (b <= a) continue;
    hatch.push(['M', a, at.y + half - (a - x)], ['L', b, at.y + half - (b - x)]);
  }
  const marks: SceneNode[] = [
    {
      kind: 'line',
      from: at,
      to: { x: at.x + RULE_LENGTH * em, y: at.y },
      weight: 0.04 * em,
      classes: ['rule'],
    },
  ];
  if (hatch.length > 0) marks.push({ kind: 'path', segments: hatch, weight: 0.045 * em, classes: ['band'] });
  for (const limit of [low, high]) {
    if (limit === null) continue;
    const x = place(limit);
    marks.push({
      kind: 'line',
      from: { x, y: at.y - half },
      to: { x, y: at.y + half },
      weight: 0.055 * em,
      classes: ['band'],
    });
  }
  const x = place(label.value);
  if (label.error !== undefined && label.error > 0) {
    marks.push({
      kind: 'line',
      from: { x: place(label.value - label.error), y: at.y },
      to: { x: place(label.value + label.error), y: at.y },
      weight: 0.13 * em,
      classes: ['error'],
    });
  }
  if (label.value < start || label.value > end) {
    const way = label.value < start ? -1 : 1;
    marks.push({
      kind: 'path',
      segments: [
        ['M', x - way * 0.45 * em, at.y - 0.32 * em],
        ['L', x, at.y],
        ['L', x - way * 0.45 * em, at.y + 0.32 * em],
      ],
      weight: 0.11 * em,
      classes: ['tick'],
    });
  } else {
    marks.push({
      kind: 'line',
      from: { x, y: at.y - 0.48 * em },
      to: { x, y: at.y + 0.48 * em },
      weight: 0.13 * em,
      classes: ['tick'],
    });
  }
  if (label.after && label.after.value >= start && label.after.value <= end) {
    const centre = { x: place(label.after.value), y: at.y };
    marks.push({ kind: 'circle', centre, radius: 0.27 * em, weight: 0.1 * em, classes: ['becomes'] });
  }
  return group(['band-rule'], marks);
}
