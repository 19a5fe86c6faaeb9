import { t } from '../../shared/language/words.ts';
import type { Hover } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { findCode } from '../../shared/findings/catalogue.ts';
import type { Inspection } from '../../shared/findings/inspect.ts';
import { findMeasure } from '../../shared/measures/registry.ts';
import { findLandmark } from '../../shared/notation/landmarks.ts';
import type { Span } from '../../shared/notation/tree.ts';
import { findRow, footDoc, isFoot } from '../../shared/notation/vocabulary.ts';
import { FilmSeries } from '../../shared/trim/film-series.ts';
import type { ClientAbilities } from '../serving/client-abilities.ts';
import { alarmsOf, type AlarmNote } from '../../shared/views/alarms.ts';
import { describeCode } from './describe/code.ts';
import { describeCut } from './describe/cut.ts';
import { describeFilm } from './describe/film.ts';
import { describeFollowed } from './describe/followed.ts';
import { describeLandmark } from './describe/landmark.ts';
import { markup } from './describe/markup.ts';
import { paragraphs, plain } from './describe/markdown.ts';
import { findHandMeasure } from '../../shared/measures/by-hand.ts';
import { describeName } from './completion/measure-names.ts';
import { describeMeasure } from './describe/measure.ts';
import { describeUnit } from './describe/unit.ts';
import { describeRow } from './describe/word.ts';
import { rangeOf } from '../text/ranges.ts';
import { argumentOf, filmAt, footOf, readingAt, spotAt, type Spot } from '../text/spot.ts';

/** `keepsBack`: a lesson, of which nothing is told that rests on values. */
export function hover(
  document: TextDocument,
  whole: Inspection,
  offset: number,
  { docs, hoverFormat, keepsBack }: Pick<ClientAbilities, 'docs' | 'hoverFormat'> & { readonly keepsBack?: boolean },
): Hover | null {
  const inspection = keepsBack ? withoutValues(whole) : whole;
  const spot = spotAt(inspection, offset);
  const alarms = (): readonly AlarmNote[] => alarmsOf(whole, keepsBack);
  const found = spot && (spot.isHead ? onHead(spot, inspection, alarms) : onArgument(spot, inspection, docs));
  const about = aboutFindings(inspection, offset);
  if (!spot || !found) return about === '' ? null : { contents: markup(about, hoverFormat) };
  return {
    contents: markup(about === '' ? found.says : `${found.says}\n\n---\n\n${about}`, hoverFormat),
    range: rangeOf(document, found.at, spot.placed.start),
  };
}

/** The text and what it says of the animal, and no film or cut. */
function withoutValues({ study, ...rest }: Inspection): Inspection {
  return { ...rest, study: { ...study, films: [], cuts: [], series: new FilmSeries([]) } };
}

/** What lies behind the findings at this place: why it matters in the foot, and who decides. */
function aboutFindings({ findings }: Inspection, offset: number): string {
  const here = findings.filter(({ at }) => at.start <= offset && offset <= at.end);
  const codes = [...new Set(here.map(({ code }) => code))].filter((code) =>
    /^(?:trim|course|visit|range)\//.test(code),
  );
  return codes
    .flatMap((code) => {
      const row = findCode(code);
      return row ? [`**${row.title}.** ${row.about}`] : [];
    })
    .join('\n\n');
}

interface HoverText {
  readonly says: string;
  readonly at: Span;
}

function onHead(spot: Spot, inspection: Inspection, alarms: () => readonly AlarmNote[]): HoverText | null {
  const { statement, item } = spot;
  const { word, kind, row } = statement;
  if (kind === 'placing') return onLandmark(word, spot, inspection, item);
  if (kind === 'taped' || kind === 'limit') return onMeasure(word, spot, inspection, item);
  const film = word === 'film' || word === 'photo' ? onFilm(spot, inspection, item) : null;
  if (film) return film;
  const known = row ?? findRow(word);
  if (known && word === 'plan') {
    const open = alarms().map(({ message, line }) => t('**{0}** (line {1})', plain(message), line + 1));
    const { study } = inspection;
    const cut = study.cuts.find(
      ({ visit, cut: { head } }) =>
        visit.start === spot.placed.start && head.start <= spot.offset && spot.offset <= head.end,
    );
    return { says: paragraphs(...open, ...(cut ? [describeCut(cut, study)] : []), describeRow(known)), at: item };
  }
  if (known) return { says: describeRow(known), at: item };
  // A word that the open block does not know may still be a landmark or a measure that strayed there.
  return onLandmark(word, spot, inspection, item) ?? onMeasure(word, spot, inspection, item);
}

function onArgument(spot: Spot, inspection: Inspection, docs: string | null): HoverText | null {
  const { statement, item, offset } = spot;
  const argument = argumentOf(statement, item);
  if (item.kind === 'number' && item.unit && offset >= item.unit.start) {
    const unit = describeUnit(item.unit.image, argument?.take === 'quantity' ? argument.dimension : null);
    if (unit) return { says: unit, at: item.unit };
  }
  if (item.kind === 'word' && isFoot(item.image))
    return { says: `**${item.image}** · ${footDoc[item.image]}`, at: item };
  if (item.kind === 'word' && argument?.take === 'finding') {
    const row = findCode(item.image);
    if (row) return { says: describeCode(row, docs), at: item };
  }
  if (item.kind === 'word' && argument?.take === 'measure') return onMeasure(item.image, spot, inspection, item);
  if (statement.kind === 'placing')
    return argument?.name === 'followed'
      ? { says: describeFollowed(spot, inspection), at: item }
      : onLandmark(statement.word, spot, inspection, item);
  if (statement.kind === 'taped' || statement.kind === 'limit')
    return onMeasure(statement.word, spot, inspection, item);
  if (statement.word === 'film' || statement.word === 'photo') return onFilm(spot, inspection, item);
  return statement.row && { says: describeRow(statement.row), at: item };
}

function onLandmark(word: string, spot: Spot, { study }: Inspection, at: Span): HoverText | null {
  const landmark = findLandmark(word);
  const film = filmAt(study, spot);
  return landmark ? { says: describeLandmark(landmark, { film, reading: film && readingAt(film, spot) }), at } : null;
}

function onMeasure(word: string, spot: Spot, { study }: Inspection, at: Span): HoverText | null {
  const measure = findMeasure(word);
  const byHand = findHandMeasure(word);
  if (byHand) return { says: describeName(byHand), at };
  return measure
    ? { says: describeMeasure(measure, { study, film: filmAt(study, spot), foot: footOf(spot) }), at }
    : null;
}

function onFilm(spot: Spot, inspection: Inspection, at: Span): HoverText | null {
  const film = filmAt(inspection.study, spot);
  return film ? { says: describeFilm(film, inspection), at } : null;
}
