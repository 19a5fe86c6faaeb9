import { stateOf } from '../findings/limits/limits.ts';
import { spreadInPixels } from '../geometry/foot-input.ts';
import type { XY } from '../geometry/vector.ts';
import type { LandmarkName } from '../notation/landmarks.ts';
import { dayNumber } from '../notation/dates.ts';
import { dayOf } from '../course/order-of-days.ts';
import type { Film, ListedPicture, Placed, Setup, Visit } from '../record/schema.ts';
import type { StudiedFilm, StudiedReading, Study } from '../trim/study.ts';
import { scaleOrigin } from '../views/scale-origin.ts';
import { yardsticksOf } from '../views/yardsticks.ts';
import type { CaseDates } from './case-dates.ts';
import { dateFor, lets, type SeriesView } from './series-view.ts';
import type { RowOf } from './tables.ts';

/** A picture of a case with its number. */
export interface NumberedPicture {
  readonly number: number;
  readonly visit: Placed<Visit>;
  readonly picture: Film | ListedPicture;
  /** Null where its view is not measured. */
  readonly studied: StudiedFilm | null;
}

/** Every film and photo of a case, in the order of the text. */
export function numberedPictures({ record, films }: Study): readonly NumberedPicture[] {
  const studied = new Map(films.map((film) => [film.film, film]));
  return record.visits
    .flatMap((visit) =>
      [...visit.is.films, ...visit.is.pictures]
        .toSorted((a, b) => a.line - b.line)
        .map((picture) => ({ visit, picture, studied: studied.get(picture as Film) ?? null })),
    )
    .map((one, index) => ({ number: index + 1, ...one }));
}

interface FilmGround {
  readonly study: Study;
  readonly dates: CaseDates;
  readonly view: SeriesView;
  readonly numberOf: (visit: Placed<Visit>) => number;
}

export function filmRow(
  { number, visit, picture, studied }: NumberedPicture,
  { dates, view, numberOf }: FilmGround,
): RowOf<'films'> {
  const day = picture.taken === null ? dayOf(visit) : dayNumber(picture.taken);
  const film = studied?.film ?? null;
  const scale = studied?.readings[0]?.taking.scale ?? null;
  const worn = studied?.worn ?? null;
  return {
    case: view.code,
    film: number,
    visit: numberOf(visit),
    day: dates.since(day),
    taken: dateFor(day, view),
    foot: picture.foot,
    kind: picture.kind,
    view: picture.view,
    mm_per_px: scale,
    scale_from: scale === null || !studied ? null : (scaleOrigin(studied)?.from ?? null),
    magnify: film?.magnify?.value ?? null,
    ground: film !== null && film.ground !== null,
    bearing: film !== null && film.bearing !== null,
    worn: worn?.items.map(({ kind }) => kind).join(' ') || null,
    worn_mm: worn?.thickness ?? null,
    worn_wedge_deg: worn?.wedge ?? null,
    ...setupCells(picture.setup),
    picture: (lets(view, 'pictures') && picture.path.text) || null,
  };
}

const setupCells = (setup: Setup | null) => ({
  paste: setup ? setup.paste !== null : null,
  block_mm: setup?.block?.base ?? null,
  focus_mm: setup?.focus?.base ?? null,
});

/** What one film gives for the tables of readings, landmarks and measures. */
export function readingRows(
  { number, studied }: NumberedPicture,
  { study, view }: FilmGround,
): {
  readonly readings: readonly RowOf<'readings'>[];
  readonly landmarks: readonly RowOf<'landmarks'>[];
  readonly measures: readonly RowOf<'measures'>[];
} {
  const rows = {
    readings: [] as RowOf<'readings'>[],
    landmarks: [] as RowOf<'landmarks'>[],
    measures: [] as RowOf<'measures'>[],
  };
  if (!studied) return rows;
  for (const [index, one] of studied.readings.entries()) {
    const { reading, taking } = one;
    const key = { case: view.code, film: number, reading: index + 1 };
    rows.readings.push({
      ...key,
      // An empty name is none.
      reader: view.readerCode(reading.reader || null),
      reader_name: (lets(view, 'readers') && reading.reader) || null,
      spread_px: reading.spread,
      landmarks: reading.placings.length,
      framed: taking.frame !== null,
    });
    rows.landmarks.push(...placed(one).map((landmark) => ({ ...key, ...landmark })));
    rows.measures.push(...measured(studied, one, study).map((value) => ({ ...key, ...value })));
  }
  return rows;
}

function placed({ input, taking }: StudiedReading): Omit<RowOf<'landmarks'>, 'case' | 'film' | 'reading'>[] {
  const { scale, frame } = taking;
  const usual = spreadInPixels(input, scale);
  const inFoot = new Map<LandmarkName, XY>();
  if (frame && scale !== null)
    frame.graph.scratch(() => {
      for (const { name } of input.landmarks) {
        const point = frame.at(name);
        if (point) inFoot.set(name, { x: point.x.value, y: point.y.value });
      }
    });
  // In the frame the wing is the middle of both wings.
  const [middle, other] = [inFoot.get('p3.wing'), inFoot.get('p3.wing.other')];
  if (middle && other) inFoot.set('p3.wing', { x: 2 * middle.x - other.x, y: 2 * middle.y - other.y });
  return input.landmarks.map(({ name, x, y, spread, followed }) => ({
    landmark: name,
    x_px: x,
    y_px: y,
    x_mm: inFoot.get(name)?.x ?? null,
    y_mm: inFoot.get(name)?.y ?? null,
    spread_px: spread ?? usual,
    spread_mm: scale === null ? null : (spread ?? usual) * scale,
    followed: followed === true,
  }));
}

function measured(
  film: StudiedFilm,
  { taking }: StudiedReading,
  study: Study,
): Omit<RowOf<'measures'>, 'case' | 'film' | 'reading'>[] {
  const yardsticks = new Map(yardsticksOf(study, film).map((one) => [one.measure, one]));
  return [...taking.values].map(([name, value]) => {
    const yardstick = yardsticks.get(name);
    const usual = yardstick?.usual ?? null;
    return {
      measure: name,
      value: value.value,
      unit: value.unit,
      sd: value.sd,
      low: usual?.low ?? null,
      high: usual?.high ?? null,
      inside: yardstick && usual ? stateOf(value, yardstick) === 'within' : null,
      axis: value.axis ?? null,
    };
  });
}
