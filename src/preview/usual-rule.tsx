import { bandRule, RULE_LENGTH } from '../../shared/drawing/plate/band-rule.ts';
import { group } from '../../shared/drawing/scene.ts';
import { sceneToSvg } from '../../shared/drawing/svg.ts';
import type { MeasureRow } from '../../shared/views/film-sheet.ts';

const EM = 12;
const drawn = new Map<string, string>();

/** The same short rule as beside a label on the plate: the usual range hatched, a tick where the value stands. */
export function UsualRule({ row }: { readonly row: MeasureRow }) {
  if (!row.usual || row.unit === '1') return null;
  const key = [row.measure, row.value, row.sd, row.usual.low, row.usual.high, row.state].join('|');
  const svg = drawn.get(key) ?? draw(row);
  // A long afternoon of moving landmarks makes many of them.
  if (drawn.size > 500) drawn.clear();
  drawn.set(key, svg);
  // The words beside it say the same. Our own drawing: every text in it was escaped when it was made.
  return <span class="usual-rule" aria-hidden="true" dangerouslySetInnerHTML={{ __html: svg }} />;
}

function draw({ measure, words, text, value, unit, usual, state, sd }: MeasureRow): string {
  if (unit === '1') return '';
  const rule = bandRule(
    { measure, words, text, value, unit, band: usual, state, error: 1.96 * sd },
    { x: 0, y: 0 },
    EM,
  );
  return sceneToSvg({
    view: { x: -0.6 * EM, y: -0.6 * EM, width: (RULE_LENGTH + 1.2) * EM, height: 1.2 * EM },
    title: '',
    description: '',
    unit: 1,
    onPicture: false,
    ghost: false,
    labelBoxes: [],
    cutBoxes: [],
    layers: [group(['label', `state-${state}`], [rule])],
  });
}
