import { bandRule, RULE_LENGTH } from '../../shared/drawing/band-rule.ts';
import { group } from '../../shared/drawing/scene.ts';
import { sceneToSvg } from '../../shared/drawing/svg.ts';
import type { MeasureRow } from '../../shared/report/film-sheet.ts';
import { svgElement } from './element.ts';

const EM = 12;
const drawn = new Map<string, SVGElement>();

/** The same short rule as beside a label on the plate: the usual range hatched, a tick where the value stands. */
export function usualRule(row: MeasureRow): Node | null {
  if (!row.usual || row.unit === '1') return null;
  const key = [row.measure, row.words, row.value, row.sd, row.usual.low, row.usual.high, row.state].join('|');
  const known = drawn.get(key) ?? draw(row);
  if (!known) return null;
  // A long afternoon of moving landmarks makes many of them.
  if (drawn.size > 500) drawn.clear();
  drawn.set(key, known);
  return known.cloneNode(true);
}

function draw({ measure, words, text, value, unit, usual, state, sd }: MeasureRow): SVGElement | null {
  if (unit === '1') return null;
  const rule = bandRule(
    { measure, words, text, value, unit, band: usual, state, error: 1.96 * sd },
    { x: 0, y: 0 },
    EM,
  );
  const svg = svgElement(
    sceneToSvg({
      view: { x: -0.6 * EM, y: -0.6 * EM, width: (RULE_LENGTH + 1.2) * EM, height: 1.2 * EM },
      title: '',
      description: '',
      unit: 1,
      onPicture: false,
      ghost: false,
      labelBoxes: [],
      cutBoxes: [],
      layers: [group(['label', `state-${state}`], [rule])],
    }),
  );
  // The words beside it say the same.
  svg?.removeAttribute('aria-label');
  svg?.removeAttribute('role');
  svg?.setAttribute('aria-hidden', 'true');
  return svg;
}
