import type { Location } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Inspection } from '../../shared/findings/inspect.ts';
import type { Measure } from '../../shared/measures/registry.ts';
import { dayNumber } from '../../shared/notation/dates.ts';
import type { Span } from '../../shared/notation/tree.ts';
import { feet } from '../../shared/notation/choices.ts';
import type { StudiedCut, StudiedFilm, Study } from '../../shared/trim/study.ts';
import { measureIn, mentionsAt } from './mentions.ts';
import { rangeOf } from '../text/ranges.ts';
import { filmAt, footOf, spotAt, type Spot } from '../text/spot.ts';

/** What a line rests on: the film of a cut, the plan of a trim, the landmark of a measure, where a reader first reads. */
export function definition(document: TextDocument, inspection: Inspection, offset: number): Location[] {
  return places(inspection, offset).map((span) => ({ uri: document.uri, range: rangeOf(document, span) }));
}

function places(inspection: Inspection, offset: number): Span[] {
  const spot = spotAt(inspection, offset);
  if (!spot) return [];
  const { study } = inspection;
  if (spot.groups.some(({ row }) => row.word === 'plan' || row.word === 'trim')) return baseOfCut(spot, study);
  const measure = measureIn(spot);
  if (measure?.start === spot.item.start)
    return filmsFor(measure.measure, spot, study).map((film) => firstLandmark(film, measure.measure));
  const found = mentionsAt(inspection, offset);
  return found?.kind === 'reader' ? found.mentions.filter(({ declares }) => declares) : [];
}

/** From the words that are predicted: the header and what is taken off. A trim's header leads to what was planned, if anything was. */
function baseOfCut({ groups, placed, statement }: Spot, { cuts }: Study): Span[] {
  if (statement.kind !== 'header' && statement.word !== 'heel' && statement.word !== 'toe') return [];
  const index = cuts.findIndex(
    ({ visit, cut: { at } }) => visit.start === placed.start && at.start === groups[0]?.start,
  );
  const cut = cuts[index];
  if (!cut) return [];
  const plan = statement.kind === 'header' && cut.cut.kind === 'trim' ? planOf(cut, cuts.slice(0, index)) : undefined;
  if (plan) return [{ start: plan.visit.start + plan.cut.head.start, end: plan.visit.start + plan.cut.head.end }];
  return cut.film ? [headOf(cut.film)] : [];
}

/** The last plan for the foot that stands before the trim; steps of one plan may take several visits. */
function planOf({ cut: { foot } }: StudiedCut, before: readonly StudiedCut[]): StudiedCut | undefined {
  return before.findLast(({ cut }) => cut.kind === 'plan' && cut.foot === foot);
}

/** A limit speaks of every foot, so it leads to the newest film of each. */
function filmsFor(measure: Measure, spot: Spot, study: Study): StudiedFilm[] {
  const own = filmAt(study, spot);
  if (own) return [own];
  const foot = footOf(spot);
  if (foot === null)
    return spot.statement.kind === 'limit'
      ? feet.flatMap((one) => study.series.upTo(one, measure.view, Infinity) ?? [])
      : [];
  const day = visitDay(spot, study);
  const taken = day === null ? null : study.series.upTo(foot, measure.view, day);
  return taken ? [taken] : [];
}

function visitDay({ placed }: Spot, { record }: Study): number | null {
  const date = record.visits.find(({ start }) => start === placed.start)?.is.date;
  return date ? dayNumber(date) : null;
}

/** Where none of them is placed, the film itself says so best. */
function firstLandmark(film: StudiedFilm, { needs }: Measure): Span {
  for (const name of needs)
    for (const { reading } of film.readings) {
      const placing = reading.placings.find((one) => one.name === name);
      if (placing) return inFile(film, { start: placing.at.start, end: placing.at.start + placing.name.length });
    }
  return headOf(film);
}

const headOf = (film: StudiedFilm): Span => inFile(film, film.film.head);

const inFile = ({ visit }: StudiedFilm, { start, end }: Span): Span => ({
  start: visit.start + start,
  end: visit.start + end,
});
