import { measuredCut } from '../export/measured.ts';
import type { MeasureName } from '../measures/names.ts';
import type { Cut, Placed, Visit } from '../record/schema.ts';
import { sidesOf } from '../trim/side-cut.ts';
import type { StudiedCut, Study } from '../trim/study.ts';
import type { NumberedPicture } from './film-rows.ts';
import type { SeriesView } from './series-view.ts';
import type { RowOf } from './tables.ts';

interface CutGround {
  readonly study: Study;
  readonly view: SeriesView;
  readonly numberOf: (visit: Placed<Visit>) => number;
  readonly pictures: readonly NumberedPicture[];
}

/** The plans and trims of a case and what each was predicted to do, in the order of the text; the numbers are those of the JSON. */
export function cutRows(ground: CutGround): {
  readonly cuts: readonly RowOf<'cuts'>[];
  readonly predictions: readonly RowOf<'predictions'>[];
} {
  const filmNumbers = new Map(ground.pictures.map(({ picture, number }) => [picture, number]));
  const cuts: RowOf<'cuts'>[] = [];
  const predictions: RowOf<'predictions'>[] = [];
  for (const [index, studied] of ground.study.cuts.entries()) {
    const number = index + 1;
    const told = measuredCut(studied, ground.study);
    const { film, day, visit, cut } = studied;
    cuts.push({
      case: ground.view.code,
      cut: number,
      visit: ground.numberOf(visit),
      foot: cut.foot,
      kind: cut.kind,
      ...amounts(cut),
      film: film ? (filmNumbers.get(film.film) ?? null) : null,
      film_age_days: film && film.day !== null && day !== null ? day - film.day : null,
      turn_deg: told.delta ?? null,
      turn_on_toe_deg: told.ontoe?.delta ?? null,
      sole_cut_tip_mm: told.solecut?.tip ?? null,
      sole_cut_wing_mm: told.solecut?.wing ?? null,
      sole_cut_heel_mm: told.solecut?.heel ?? null,
      wall_left_mm: told.wallleft ?? null,
      side_turn_deg: told.sides?.delta ?? null,
    });
    const stances = [
      ['heels', told.predicted, studied.before],
      ['toe', told.ontoe?.predicted, studied.before],
      ['front', told.sides?.predicted, told.sides ? beforeInFront(studied, ground.study) : null],
    ] as const;
    for (const [stance, predicted, before] of stances)
      for (const [measure, { value, unit, sd }] of Object.entries(predicted ?? {}))
        predictions.push({
          case: ground.view.code,
          cut: number,
          stance,
          measure,
          before: valueOf(before, measure),
          value,
          unit,
          sd,
        });
  }
  return { cuts, predictions };
}

const beforeInFront = (studied: StudiedCut, { series, trims }: Study): StudiedCut['before'] =>
  sidesOf(studied, series, trims)?.before ?? null;

const valueOf = (before: StudiedCut['before'], measure: string): number | null =>
  before?.get(measure as MeasureName)?.value ?? null;

const amounts = (cut: Cut) => ({
  heel_down_mm: cut.heelDown?.base ?? null,
  heel_from_mm: cut.heelFrom?.base ?? null,
  heel_up_deg: cut.heelUp?.base ?? null,
  toe_down_mm: cut.toeDown?.base ?? null,
  toe_back_mm: cut.toeBack?.base ?? null,
  inside_down_mm: cut.insideDown?.base ?? null,
  outside_down_mm: cut.outsideDown?.base ?? null,
  bevel: [...new Set(cut.dressed.flatMap(({ what, places }) => (what === 'bevel' ? places : [])))].join(' ') || null,
  leave: [...new Set(cut.leave)].join(' ') || null,
});
