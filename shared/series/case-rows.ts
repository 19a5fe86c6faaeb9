import type { Inspection } from '../findings/inspect.ts';
import { inOrderOfDays } from '../course/order-of-days.ts';
import type { Placed, Visit } from '../record/schema.ts';
import { unreadLines } from '../views/unread-lines.ts';
import { CaseDates } from './case-dates.ts';
import { cutRows } from './cut-rows.ts';
import { filmRow, numberedPictures, readingRows } from './film-rows.ts';
import { leavingText } from './leaving-texts.ts';
import { leaves, lets, type SeriesView } from './series-view.ts';
import type { RowOf, TableName } from './tables.ts';
import { saidTexts, type SaidText } from './texts.ts';
import { laboratoryRows, tapeRows, visitRows } from './visit-rows.ts';

/** The rows of one case in every table. */
export type CaseRows = { readonly [T in TableName]: readonly RowOf<T>[] };

/**
 * One inspected case as rows of a series: the one way from a case to the tables. Pure. What was not asked for is null, and what the
 * case says in words is in `texts` only where it leaves.
 */
export function caseRows(inspection: Inspection, view: SeriesView): CaseRows {
  const { study } = inspection;
  const { record } = study;
  const dates = new CaseDates(record);
  const inOrder = inOrderOfDays(record.visits);
  const numbers = new Map(inOrder.map((visit, index) => [visit.start, index + 1]));
  const numberOf = ({ start }: Placed<Visit>): number => numbers.get(start) ?? 0;
  const pictures = numberedPictures(study);
  const ground = { study, dates, view, numberOf, pictures };
  const read = pictures.map((picture) => readingRows(picture, ground));
  const said = saidTexts(inspection);
  return {
    cases: [caseRow(inspection, dates, view)],
    visits: visitRows(inOrder, dates, view),
    films: pictures.map((picture) => filmRow(picture, ground)),
    readings: read.flatMap(({ readings }) => readings),
    landmarks: read.flatMap(({ landmarks }) => landmarks),
    measures: read.flatMap(({ measures }) => measures),
    ...cutRows(ground),
    tape: tapeRows(record.visits, numberOf, view),
    laboratory: laboratoryRows(record.visits, numberOf, view),
    removed: removedRows(said, view),
    texts: textRows(said, inspection, view, numbers),
  };
}

function caseRow(inspection: Inspection, dates: CaseDates, view: SeriesView): RowOf<'cases'> {
  const { animal, visits } = inspection.study.record;
  const is = animal?.is ?? null;
  const withDates = lets(view, 'dates') && view.shift === null;
  return {
    case: view.code,
    sharing: view.sharing,
    kind: is?.kind ?? null,
    sex: is?.sex ?? null,
    height_cm: is?.height ? is.height.base / 10 : null,
    onset_months: dates.onsetMonths,
    visits: visits.length,
    days: dates.since(dates.last),
    lines_not_read: unreadLines(inspection).length,
    name: (lets(view, 'names') && is?.name) || null,
    microchip: lets(view, 'numbers') ? (is?.microchip ?? null) : null,
    ueln: lets(view, 'numbers') ? (is?.ueln ?? null) : null,
    foaled: withDates ? (is?.foaled ?? null) : null,
    onset: withDates ? (is?.onset?.date ?? null) : null,
  };
}

function removedRows(said: readonly SaidText[], view: SeriesView): RowOf<'removed'>[] {
  const counts = new Map<SaidText['kind'], number>();
  for (const one of said) if (!leaves(one, view)) counts.set(one.kind, (counts.get(one.kind) ?? 0) + 1);
  return [...counts].map(([kind, count]) => ({ case: view.code, kind, count }));
}

function textRows(
  said: readonly SaidText[],
  { study: { record } }: Inspection,
  view: SeriesView,
  visits: ReadonlyMap<number, number>,
): RowOf<'texts'>[] {
  const leaving = said.filter((one) => (one.kind === 'text' || one.kind === 'person') && leaves(one, view));
  if (leaving.length === 0) return [];
  const asLeaving = leavingText(record, view);
  return leaving
    .map(({ word, text, block, feet }) => ({
      visit: visits.get(block) ?? null,
      word,
      feet: feet.join(' ') || null,
      words: asLeaving(text),
    }))
    .filter(({ words }) => words !== '')
    .map((row, index) => ({ case: view.code, text: index + 1, ...row }));
}
