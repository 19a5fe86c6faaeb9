import type { PlateInput } from '../drawing/plate.ts';
import { landmarks } from '../notation/landmarks.ts';
import type { FilmSheet } from './film-sheet.ts';

/** Measures lettered on the plate, the most telling first; the table beside it has them all. */
const lettered = [
  'palmar-angle',
  'wall-angle',
  'bone-angle',
  'heel-angle',
  'coronet-angle',
  'founder-distance',
  'horn-lamellar.upper',
  'horn-lamellar.lower',
  'sole-depth.tip',
  'sole-depth.wing',
  'heel-surplus',
  'heel-height',
  'toe-length',
];

const landmarkWords: ReadonlyMap<string, string> = new Map(landmarks.map(({ word, doc }) => [word, doc]));

/** What is drawn of a film. `picture` is null where it is missing: the foot is then drawn alone. */
export function plateOf(sheet: FilmSheet, picture: PlateInput['picture'], highlight: string | null = null): PlateInput {
  return {
    foot: sheet.foot,
    view: sheet.view,
    placed: new Map(Object.entries(sheet.placed)),
    ground: sheet.ground,
    marker: sheet.marker,
    scale: sheet.scale,
    picture,
    highlight,
    landmarkWords,
    ...(sheet.markerWords !== null && { markerWords: sheet.markerWords }),
    labels: lettered.flatMap((name) => {
      const row = sheet.rows.find((one) => one.measure === name);
      if (!row || row.unit === '1') return [];
      return [
        {
          measure: row.measure,
          words: row.words,
          text: row.text,
          value: row.value,
          unit: row.unit,
          band: row.usual,
          state: row.state,
          error: 1.96 * row.sd,
        },
      ];
    }),
    sentence: 'Place p3.tip and p3.wing, the two ends of the bone’s solar margin.',
  };
}
