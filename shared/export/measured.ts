import type { Inspection } from '../findings/inspect.ts';
import type { Values } from '../measures/take.ts';
import { alarmsJson } from './alarms.ts';
import type { Setup } from '../record/schema.ts';
import { Wearing, type WornItem } from '../record/wearing.ts';
import { seenWords } from '../views/seen-words.ts';
import { wornOn } from '../views/worn-words.ts';
import { scaleOrigin } from '../views/scale-origin.ts';
import { grouped } from '../views/grouped.ts';
import type { MeasuredCut, MeasureJson, PrintedValues } from './json-shapes.ts';
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
  const wearing = new Wearing(study.record.visits);
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
        films: (films.get(visit) ?? []).map((film) => measuredFilm(film, wearing)),
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

function measuredFilm(studied: StudiedFilm, wearing: Wearing) {
  const { film, visit, readings } = studied;
  const scale = readings[0]?.taking.scale ?? null;
  const shod = wornOn(studied, wearing);
  const origin = scale === null ? null : scaleOrigin(studied);
  return {
    foot: film.foot,
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

function measuredCut(studied: StudiedCut, { series }: Study): MeasuredCut {
  const { cut, visit, prediction } = studied;
  const sides = sidesOf(studied, series)?.prediction;
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
    solecut: { ...(tip !== null && { tip }), ...(wing !== null && { wing }), ...(heel !== null && { heel }) },
    ...(prediction.wallLeft !== null && { wallleft: prediction.wallLeft }),
  };
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
  view: string;
  reader: string | null;
  measure: string;
  value: number;
  unit: string;
  sd: number;
  scale_from: string | null;
}

export function measuredRows(file: string, study: Study): MeasuredRow[] {
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
      })),
    );
  });
}
