import { tapesOfVisit } from '../course/taped-series.ts';
import type { Inspection } from '../findings/inspect.ts';
import type { Values } from '../measures/take.ts';
import { alarmsJson } from './alarms.ts';
import type { Setup } from '../record/schema.ts';
import type { WornItem } from '../record/wearing.ts';
import { seenWords } from '../views/seen-words.ts';
import { scaleOrigin } from '../views/scale-origin.ts';
import { grouped } from '../views/grouped.ts';
import type { MeasuredCut, MeasureJson, PrintedValues } from './json-shapes.ts';
import { takenAtHeels } from '../trim/heels.ts';
import type { Prediction } from '../trim/predict.ts';
import { sidesOf } from '../trim/side-cut.ts';
import type { Study, StudiedCut, StudiedFilm } from '../trim/study.ts';

/** The measures of a case as the JSON and the rows that other programs read; lines count from 1, numbers are not rounded. */

export function measuredCase(
  file: string,
  inspection: Pick<Inspection, 'study' | 'tree'>,
): MeasureJson['cases'][number] {
  const { study } = inspection;
  const films = grouped(study.films, ({ visit }) => visit);
  const cuts = grouped(study.cuts, ({ visit }) => visit);
  const cutsOf = (visit: Study['record']['visits'][number], kind: 'plan' | 'trim') =>
    (cuts.get(visit) ?? []).filter(({ cut }) => cut.kind === kind).map((cut) => measuredCut(cut, study));
  return {
    file,
    case: study.record.animal?.is.name ?? null,
    alarms: alarmsJson(inspection),
    visits: study.record.visits.map((visit) => {
      const seen = [...seenWords(visit.is)];
      return {
        date: visit.is.date,
        line: visit.line + 1,
        films: (films.get(visit) ?? []).map(measuredFilm),
        ...(tapesIn(visit).length > 0 && { tapes: tapesIn(visit) }),
        ...(seen.length > 0 && { seen }),
        ...(visit.is.pictures.length > 0 && {
          pictures: visit.is.pictures.map(({ foot, view, line, path }) => ({
            foot,
            view,
            line: visit.line + line + 1,
            picture: path.text,
          })),
        }),
        plans: cutsOf(visit, 'plan'),
        trims: cutsOf(visit, 'trim'),
      };
    }),
  };
}

/** What a hand took; its deviation is the one that is taken of a hand. */
function tapesIn(visit: Study['record']['visits'][number]) {
  return tapesOfVisit(visit).map(({ foot, line, values }) => ({
    foot,
    line: visit.line + line + 1,
    measures: Object.fromEntries(
      values.map(({ measure: { name, unit }, value, sd }) => [name, { value, unit, sd }] as const),
    ),
  }));
}

function measuredFilm(studied: StudiedFilm) {
  const { film, visit, readings, worn: shod } = studied;
  const scale = readings[0]?.taking.scale ?? null;
  const origin = scale === null ? null : scaleOrigin(studied);
  return {
    foot: film.foot,
    ...(film.kind === 'photo' && { kind: film.kind }),
    view: film.view,
    line: visit.line + film.line + 1,
    scale,
    ...(origin && { scaleFrom: origin.from, ...(origin.words !== null && { scaleWords: origin.words }) }),
    ...(film.setup && { setup: setupJson(film.setup) }),
    ...(shod && { worn: shod.items.map(wornJson) }),
    readings: readings.map(({ reading, taking }) => ({
      reader: reading.reader,
      measures: measuredValues(taking.values),
    })),
  };
}

function setupJson({ paste, block, focus, beam, standing }: Setup) {
  return {
    ...(paste !== null && { paste }),
    ...(block && { block: block.base }),
    ...(focus && { focus: focus.base }),
    ...(beam && { beam }),
    ...(standing !== null && { standing }),
  };
}

function wornJson({ kind, thickness, wedge, text }: WornItem) {
  return {
    kind,
    ...(thickness && { thickness: thickness.base }),
    ...(wedge && { wedge: wedge.base }),
    ...(text !== null && { text }),
  };
}

export function measuredCut(studied: StudiedCut, { series, trims }: Study): MeasuredCut {
  const { cut, visit, prediction } = studied;
  const sides = sidesOf(studied, series, trims)?.prediction;
  const place = {
    foot: cut.foot,
    line: visit.line + cut.line + 1,
    ...(sides && { sides: { delta: sides.delta, predicted: measuredValues(sides.values) } }),
  };
  if (!prediction) return place;
  const { tip, wing, heel } = prediction.soleCut;
  return {
    ...place,
    predicted: measuredValues(prediction.values),
    delta: prediction.delta,
    ...(prediction.onToe && { ontoe: onToeJson(prediction.onToe) }),
    solecut: { ...(tip !== null && { tip }), ...(wing !== null && { wing }), ...(heel !== null && { heel }) },
    ...(prediction.wallLeft !== null && { wallleft: prediction.wallLeft }),
    ...heelsLeft(studied),
  };
}

export const onToeJson = ({ delta, values }: Prediction) => ({ delta, predicted: measuredValues(values) });

function heelsLeft({ bare, foot, size }: StudiedCut): Pick<MeasuredCut, 'heelsleft'> {
  const surplus = bare?.before.get('heel-surplus');
  const taken = foot ? takenAtHeels(foot, size) : [];
  if (!surplus || !taken.some(({ fromSide }) => fromSide > 0)) return {};
  return { heelsleft: Object.fromEntries(taken.map(({ side, taken: mm }) => [side, surplus.value - mm])) };
}

export function measuredValues(values: Values): PrintedValues {
  return Object.fromEntries(
    [...values].map(([name, { value, unit, sd, axis }]) => [name, { value, unit, sd, ...(axis && { axis }) }]),
  );
}

export interface MeasuredRow {
  file: string;
  case: string | null;
  visit: string | null;
  line: number;
  foot: string;
  /** Null by hand. */
  view: string | null;
  reader: string | null;
  measure: string;
  value: number;
  unit: string;
  sd: number;
  scale_from: string | null;
  source: 'film' | 'photo' | 'hand';
}

export function measuredRows(file: string, study: Study): MeasuredRow[] {
  return [...picturedRows(file, study), ...tapedRows(file, study)];
}

function tapedRows(file: string, { record }: Study): MeasuredRow[] {
  return record.visits.flatMap((visit) =>
    tapesOfVisit(visit).flatMap(({ foot, line, values }) =>
      values.map(({ measure: { name, unit }, value, sd }) => ({
        file,
        case: record.animal?.is.name ?? null,
        visit: visit.is.date,
        line: visit.line + line + 1,
        foot,
        view: null,
        reader: null,
        measure: name,
        value,
        unit,
        sd,
        scale_from: null,
        source: 'hand' as const,
      })),
    ),
  );
}

function picturedRows(file: string, study: Study): MeasuredRow[] {
  return study.films.flatMap((studied) => {
    const { film, visit, readings } = studied;
    return readings.flatMap(({ reading, taking }) =>
      [...taking.values].map(([name, { value, unit, sd }]) => ({
        file,
        case: study.record.animal?.is.name ?? null,
        visit: visit.is.date,
        line: visit.line + film.line + 1,
        foot: film.foot,
        view: film.view,
        reader: reading.reader,
        measure: name,
        value,
        unit,
        sd,
        scale_from: taking.scale === null ? null : (scaleOrigin(studied)?.from ?? null),
        source: film.kind,
      })),
    );
  });
}
