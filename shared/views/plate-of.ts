import { shownDate } from '../language/dates.ts';
import { fixed } from '../language/figures.ts';
import { t } from '../language/words.ts';
import type { MeasureName } from '../measures/names.ts';
import type { PlateInput } from '../drawing/plate/plate.ts';
import { landmarks } from '../notation/landmarks.ts';
import { say } from '../findings/wording/wording.ts';
import type { CutSheet, FilmSheet } from './film-sheet.ts';

/** Measures lettered on the plate, the most telling first; the table beside it has them all. */
const lettered: readonly MeasureName[] = [
  'palmar-angle',
  'sole-depth.tip',
  'capsular-rotation',
  'heel-surplus',
  'founder-distance',
  'coronet-navicular',
  'phalangeal-rotation',
  'horn-lamellar.lower',
  'wall-angle',
  'horn-lamellar.upper',
  'sole-depth.wing',
  'heel-height',
  'toe-length',
  'coronet-angle',
  'heel-angle',
  'bone-angle',
  'p3-tilt',
  'joint-tilt',
  'sole-depth.medial',
  'sole-depth.lateral',
  'wall-angle.medial',
  'wall-angle.lateral',
  'coronet-tilt',
  'ground-width',
  'sole-length',
  'sole-width',
  'heel-width',
  'frog-width',
  'frog-length',
];

/** More would leave the film too small beside them. */
const MOST = 13;

const landmarkWords = (): ReadonlyMap<string, string> => new Map(landmarks.map(({ word, name }) => [word, name]));

export interface PlateWishes {
  readonly highlight?: string | null;
  /** The plan or trim that is laid over the foot. */
  readonly cut?: CutSheet | null;
}

/** What is drawn of a film. `picture` is null where it is missing: the foot is then drawn alone. */
export function plateOf(
  sheet: FilmSheet,
  picture: PlateInput['picture'],
  { highlight = null, cut = null }: PlateWishes = {},
): PlateInput {
  return {
    foot: sheet.foot,
    view: sheet.view,
    placed: new Map(Object.entries(sheet.placed)),
    ground: sheet.ground,
    bearing: sheet.bearing,
    worn: wornWords(sheet),
    marker: sheet.marker,
    scale: sheet.scale,
    picture,
    highlight,
    landmarkWords: landmarkWords(),
    cut: cut && cutOnPlate(cut),
    ...(sheet.markerWords !== null && { markerWords: sheet.markerWords }),
    labels: lettered
      .filter((name) => sheet.rows.some(({ measure, unit }) => measure === name && unit !== '1'))
      .slice(0, MOST)
      .flatMap((name) => {
        const row = sheet.rows.find((one) => one.measure === name);
        if (!row || row.unit === '1') return [];
        const predicted = cut?.after ? cut.predicted[name] : undefined;
        const after = predicted && isOther(predicted.value, row.value) ? predicted : undefined;
        return [
          {
            measure: row.measure,
            words: row.words,
            // Two numbers side by side need the room that the error takes otherwise.
            text: after ? say(row.value, row.unit) : row.text,
            value: row.value,
            unit: row.unit,
            band: row.usual,
            state: row.state,
            error: 1.96 * row.sd,
            ...(row.source !== '' && { source: row.source }),
            ...(after && { after }),
          },
        ];
      }),
    sentence: t('Place the tip and the wing of the pedal bone, the two ends of its lower edge.'),
  };
}

/** The same drawing without a word or a figure in it. */
export function unlettered(input: PlateInput): PlateInput {
  const { cut } = input;
  const bare = cut && { ...cut, turnWords: '', slivers: cut.slivers.map((sliver) => ({ ...sliver, text: '' })) };
  return { ...input, labels: [], worn: null, cut: bare ?? null };
}

/** `shoe, 10.0 to 17.2 mm`, from toe to heel; what is under a hoof of which nothing is told is called a shoe too. */
function wornWords({ worn, bearing, rows }: FilmSheet): string | null {
  if (!bearing) return null;
  const [toe, heel] = (['toe', 'heel'] as const).map((end) => {
    const row = rows.find(({ measure }) => measure === `shoe-thickness.${end}`);
    return row ? say(row.value, 'mm') : '';
  });
  const thick = !toe || !heel ? '' : toe === heel ? `, ${toe}` : t(', {0} to {1}', toe.replace(' mm', ''), heel);
  return `${worn ?? t('shoe')}${thick}`;
}

/** A change that the rounded numbers do not show is none to letter. */
function isOther(after: number, before: number): boolean {
  return fixed(after, 1) !== fixed(before, 1);
}

export function cutTitle({ kind, date, cut }: CutSheet): string {
  if (date === null) return kind === 'plan' ? t('Plan: {0}', cut) : t('Trim: {0}', cut);
  return kind === 'plan' ? t('Plan of {0}: {1}', shownDate(date), cut) : t('Trim of {0}: {1}', shownDate(date), cut);
}

/** As it is drawn over a plate; null where nothing can be drawn of it. */
export function cutOnPlate(cut: CutSheet): PlateInput['cut'] {
  if (!cut.after) return null;
  const turn = fixed(Math.abs(cut.delta ?? 0), 1);
  return {
    words: cutTitle(cut),
    ground: cut.after.ground,
    ...(cut.after.bend && { bend: cut.after.bend }),
    slivers: cut.after.slivers,
    turned: new Map(Object.entries(cut.after.turned)),
    turnWords: !/[1-9]/.test(turn)
      ? ''
      : cut.deltaOnToe === null
        ? t('turns {0}°', turn)
        : t('turns {0}° on its heels', turn),
  };
}
