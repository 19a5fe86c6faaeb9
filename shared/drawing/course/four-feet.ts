import { t } from '../../language/words.ts';
import { widthInEm } from '../plate/lettering.ts';
import { group, type GroupNode, type Scene, type SceneNode } from '../scene.ts';
import { COURSE_RULES } from './course-ink.ts';
import { rowMarks } from './row-marks.ts';
import { seriesOf, type StaveRow, type StaveTrim } from './stave-input.ts';
import { timeLine, timeLineHeight } from './time-line.ts';
import { timeScale } from './time-scale.ts';
import { valueDomain, valueScale, valueTicks } from './value-scale.ts';

/** One measure of one foot; `row` is null where the foot has no film with it. */
export interface FootPanel {
  readonly foot: 'LF' | 'RF' | 'LH' | 'RH';
  /** `Left fore`. */
  readonly words: string;
  readonly row: StaveRow | null;
  readonly trims: readonly StaveTrim[];
}

export interface FourFeetInput {
  /** CSS pixels. */
  readonly width: number;
  readonly panels: readonly FootPanel[];
  readonly title: string;
  readonly description: string;
}

const EM = 12;
const ROW = 52;
const GUTTER = 26;
const SCALE_WIDTH = 40;

/** The same measure on each foot, on one scale of time and one of values, as the animal stands: fore above hind, left beside right. */
export function drawFourFeet({ width, panels, title, description }: FourFeetInput): Scene {
  const rows = panels.flatMap(({ row }) => row ?? []);
  const days = [
    ...rows.flatMap((row) => seriesOf(row).flatMap(({ points }) => points.map(({ day }) => day))),
    ...panels.flatMap(({ trims }) => trims.map(({ day }) => day)),
  ];
  const half = (width - GUTTER) / 2;
  const pitch = 1.7 * EM + ROW + 8 + timeLineHeight(EM) + 10;
  const isFore = (foot: FootPanel['foot']): boolean => foot.endsWith('F');
  const levels = [true, false].filter((fore) => panels.some(({ foot, row }) => row && isFore(foot) === fore));
  const drawn = panels
    .filter(({ foot }) => levels.includes(isFore(foot)))
    .map((panel): GroupNode => {
      const x = panel.foot.startsWith('L') ? 0 : half + GUTTER;
      const y = levels.indexOf(isFore(panel.foot)) * pitch;
      const left = x + SCALE_WIDTH;
      const right = x + half;
      const top = y + 1.7 * EM;
      const bottom = top + ROW;
      const nodes: SceneNode[] = [
        {
          kind: 'text',
          at: { x, y: y + EM },
          size: EM,
          anchor: 'start',
          runs: [{ text: panel.words }],
          classes: ['words'],
        },
      ];
      const { row } = panel;
      const said = row?.points.at(-1)?.text ?? t('nothing yet');
      if (widthInEm(`${panel.words}  ${said}`) * EM <= half)
        nodes.push({
          kind: 'text',
          at: { x: right, y: y + EM },
          size: EM,
          anchor: 'end',
          runs: [{ text: said }],
          classes: row ? ['reading'] : ['quiet'],
        });
      if (row) {
        const time = timeScale(
          days.toSorted((a, b) => a - b),
          { left, right, em: EM, ahead: rows.some((one) => seriesOf(one).some(({ trend }) => trend !== null)) },
        );
        const scale = valueScale(valueDomain(rows, time.horizon), top, bottom);
        nodes.push(
          { kind: 'line', from: { x: left, y: top }, to: { x: left, y: bottom }, weight: 0.8, classes: ['scale'] },
          ...valueTicks(row, scale, 1.05 * EM).flatMap(({ value, text, isLimit }): SceneNode[] => [
            {
              kind: 'line',
              from: { x: left - 4, y: scale(value) },
              to: { x: left, y: scale(value) },
              weight: 0.8,
              classes: ['scale'],
            },
            {
              kind: 'text',
              at: { x: left - 7, y: scale(value) + 0.33 * EM },
              size: 0.88 * EM,
              anchor: 'end',
              runs: [{ text }],
              classes: isLimit ? ['limit-figure'] : ['quiet'],
            },
          ]),
          ...rowMarks(row, { left, right, top, bottom, em: EM, time, scale }),
          timeLine(time, panel.trims, { left, right, y: bottom + 6, em: EM }),
        );
      }
      return group(['foot-panel'], nodes, { part: panel.foot });
    });
  const view = { x: 0, y: 0, width, height: Math.max(levels.length, 1) * pitch };
  return {
    view,
    title,
    description,
    unit: 1,
    onPicture: false,
    ghost: false,
    layers: drawn,
    rules: COURSE_RULES,
    labelBoxes: [],
    cutBoxes: [],
  };
}
