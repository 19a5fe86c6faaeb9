import { takeMeasures } from '../measures/take.ts';
import type { Film } from '../record/schema.ts';
import { missingIn, rowsOf, type FilmSheet, type XY } from './film-sheet.ts';
import { tenth, type Placement } from './place-on-film.ts';
import type { Yardstick } from './yardsticks.ts';

const nowhere = { start: 0, end: 0 };

/**
 * The sheet of a film with placements made on it that the text does not have yet: places, scale, measures with their
 * states, and what is missing are those that the server will tell of the text, since they come from the same arithmetic on the
 * same rounded places. Notes and cuts stay as they were: they are told of a text.
 */
export function liveSheet(
  sheet: FilmSheet,
  yardsticks: readonly Yardstick[],
  placements: readonly Placement[],
): FilmSheet {
  if (placements.length === 0) return sheet;
  const moved = applied(sheet, placements);
  const { basis } = moved;
  const { spread } = basis;
  const { placed, ground, marker } = moved;
  const magnify = basis.magnify === 1 ? null : { value: basis.magnify, at: nowhere };
  const film: Pick<Film, 'view' | 'scale' | 'magnify' | 'ground'> = {
    view: sheet.view,
    scale: scaleOf(moved),
    magnify,
    ground: ground && { from: ground[0], to: ground[1], at: nowhere },
  };
  const placings = Object.entries(placed).map(([name, { x, y }]) => ({
    name,
    x,
    y,
    spread: spread.own[name] ?? null,
    at: nowhere,
  }));
  const taking = takeMeasures(
    { ...noFilm, ...film },
    { reader: sheet.reader, spread: spread.reader, placings, at: nowhere },
    { mm: spread.mm, px: spread.px },
  );
  return {
    ...moved,
    marker: film.scale?.kind === 'marker' ? marker : null,
    scale: taking.scale,
    rows: rowsOf(taking.values, { view: sheet.view, yardsticks, placed, tapes: basis.tapes }),
    missing: missingIn(sheet.view, placed),
  };
}

/** What no measure looks at. */
const noFilm: Film = {
  kind: 'film',
  foot: 'LF',
  view: 'lateral',
  path: { text: '', at: nowhere },
  taken: null,
  scale: null,
  magnify: null,
  ground: null,
  readings: [],
  expects: [],
  prose: [],
  head: nowhere,
  at: nowhere,
  line: 0,
};

function scaleOf({ basis: { scale }, marker }: FilmSheet): Film['scale'] {
  if (scale?.kind === 'pixel') return { kind: 'pixel', mmPerPx: scale.mmPerPx, at: nowhere };
  if (scale?.kind !== 'marker' || !marker) return null;
  const [from, to] = marker;
  return {
    kind: 'marker',
    length: { value: scale.mm, unit: 'mm', base: scale.mm, at: nowhere },
    marker: { from, to, at: nowhere },
    at: nowhere,
  };
}

function applied(sheet: FilmSheet, placements: readonly Placement[]): FilmSheet {
  let { ground, marker, markerWords, basis } = sheet;
  const placed = { ...sheet.placed };
  const own = { ...basis.spread.own };
  for (const placement of placements)
    switch (placement.kind) {
      case 'landmark': {
        const { name, at } = placement;
        if (at) placed[name] = { ...tenth(at), line: placed[name]?.line ?? sheet.line };
        else {
          delete placed[name];
          delete own[name];
        }
        break;
      }
      case 'ground':
        ground = twoPlaces(placement.ends);
        break;
      case 'marker': {
        const { mm } = placement;
        const known = basis.scale?.kind === 'marker' ? basis.scale.mm : 100;
        marker = twoPlaces(placement.ends);
        if (mm !== null || basis.scale?.kind !== 'marker') markerWords = `${mm ?? 100} mm`;
        if (!marker) markerWords = null;
        basis = { ...basis, scale: marker && { kind: 'marker', mm: mm ?? known } };
        break;
      }
    }
  return { ...sheet, placed, ground, marker, markerWords, basis: { ...basis, spread: { ...basis.spread, own } } };
}

/** Two ends at one place are no line, as in a text. */
function twoPlaces(ends: readonly [XY, XY] | null): readonly [XY, XY] | null {
  if (!ends) return null;
  const [from, to] = [tenth(ends[0]), tenth(ends[1])];
  return from.x === to.x && from.y === to.y ? null : [from, to];
}
