import { footFrame, type Frame } from '../geometry/frame.ts';
import { predict } from '../trim/predict.ts';
import type { CutSize } from '../trim/stand.ts';
import { cutOutcome, sizeWords } from './cut-outcome.ts';
import type { CutSheet, FilmSheet, XY } from './film-sheet.ts';

/** A film's frame, rebuilt once and asked at each step of a slider. */
export class LiveCut {
  readonly #sheet: FilmSheet;
  readonly #frame: Frame | null;

  constructor(sheet: FilmSheet) {
    this.#sheet = sheet;
    this.#frame = frameOf(sheet);
  }

  /**
   * The same plan or trim with another cut: what it would leave, and no finding, which the text will tell when it says so.
   * Values are those that the text would give; deviations, which rest on each placing's own spread, are left out.
   */
  at(cut: CutSheet, size: CutSize): CutSheet {
    const { foot, placed, ground, rows } = this.#sheet;
    const frame = this.#frame;
    const outcome = cutOutcome(frame && predict(frame, size), size, foot, {
      frame,
      placed,
      ground,
      before: (name) => rows.find(({ measure }) => measure === name)?.value,
    });
    return {
      ...cut,
      cut: sizeWords(size, cut.leave),
      size,
      ...outcome,
      rows: outcome.rows.map((row) => ({ ...row, after: row.after.replace(/ ± .*$/, '') })),
      notes: [],
    };
  }
}

function frameOf({ view, placed, ground, scale }: FilmSheet): Frame | null {
  if (view !== 'lateral') return null;
  const spot = ({ x, y }: XY) => ({ x, y, sd: 0 });
  return footFrame(view, () => ({
    placed: Object.entries(placed).map(([name, place]) => ({ name, ...spot(place) })),
    ground: ground && [spot(ground[0]), spot(ground[1])],
    // Already divided by what the film magnifies.
    scale: scale === null ? null : { kind: 'pixel', mmPerPx: scale },
    magnify: 1,
  })).frame;
}
