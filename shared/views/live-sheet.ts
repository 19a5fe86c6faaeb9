import { figures } from '../language/figures.ts';
import { bareFoot } from '../geometry/planes.ts';
import { takeMeasures, type Taking } from '../measures/take.ts';
import { predictAtOnce, valuesOf } from '../trim/predict.ts';
import { noSide, predictSides, valuesAfter } from '../trim/side-cut.ts';
import type { CutSize } from '../trim/stand.ts';
import { sizeWords } from './cut-outcome.ts';
import { cutSheet, filmSheet, sidesSheet, type CutSheet, type FilmSheet } from './whole-sheet.ts';
import type { Placement } from '../edits/placing-schema.ts';
import { placedInput } from '../edits/placed-input.ts';

/**
 * The sheet of a film with placements made on it that the text does not have yet. It is made as the server makes it, of the same
 * input, so that places, scale, measures with their states, cuts and what is missing are those that the text will have. Notes stay
 * as they were: they are told of a text; so is which of a film's readings a cut rests on.
 */
export function liveSheet(sheet: FilmSheet, placements: readonly Placement[]): FilmSheet {
  if (placements.length === 0) return sheet;
  const input = placedInput(sheet.input, placements);
  const taking = takeMeasures(() => input);
  // A marker that is placed is the scale from then on.
  const scaleWords = placements.some(({ kind }) => kind === 'marker') ? null : sheet.scaleWords;
  const live = filmSheet({ ...sheet, markerWords: markerWords(sheet, placements), scaleWords }, input, taking, {
    lines: Object.fromEntries(Object.entries(sheet.placed).map(([name, { line }]) => [name, line])),
    yardsticks: [...sheet.rows, ...sheet.unmeasured],
    cuts: [],
  });
  let cuts: readonly CutSheet[] | null = null;
  return {
    ...live,
    // A prediction takes longer than all the rest, and while a place is dragged nobody looks at one.
    get cuts() {
      return (cuts ??= sheet.cuts.map((cut) => cutOn(cut, sheet, taking)));
    },
  };
}

/** A plan or trim of a film with another size: what it would leave, and no finding, which the text will tell when it says so. */
export function triedCut(sheet: FilmSheet, cut: CutSheet, size: CutSize): CutSheet {
  const written = { ...cut, cut: sizeWords(size, cut.leave), size, notes: [] };
  return cutOn(
    written,
    sheet,
    takeMeasures(() => sheet.input),
  );
}

/** A cut laid on the foot as it stands, by a taking of its film. */
function cutOn(cut: CutSheet, sheet: FilmSheet, { frame, values }: Taking): CutSheet {
  const { taken, size, sides, sidesBefore } = cut;
  if (sides)
    return sidesSheet(cut, sheet.foot, frame, {
      size: sides,
      earlier: sidesBefore ?? noSide,
      before: frame ? valuesAfter(frame, sidesBefore ?? noSide) : values,
      prediction: frame && predictSides(frame, sides, sidesBefore ?? noSide),
    });
  const standing = frame && taken && { frame, ...taken };
  const before = standing && (standing.earlier.length === 0 ? values : valuesOf(standing));
  // Limits go by the foot without what it wears.
  const bare = frame && bareFoot(frame);
  const foot = bare && taken && { frame: bare, ...taken };
  return cutSheet(cut, sheet, { foot, values: before }, standing && predictAtOnce(standing, size));
}

/** As it will be written: a length that stands in the text stays as it is. */
function markerWords(sheet: FilmSheet, placements: readonly Placement[]): string | null {
  let words = sheet.markerWords;
  for (const placement of placements) {
    if (placement.kind !== 'marker') continue;
    if (!placement.ends) words = null;
    else if (placement.mm !== null) words = `${figures(placement.mm)} mm`;
  }
  return words;
}
