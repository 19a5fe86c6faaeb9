import { sayQuantity } from '../language/figures.ts';
import { sayChoice } from '../language/choice-words.ts';
import { spoken } from '../language/rows.ts';
import { wordList } from '../notation/word-list.ts';
import { t } from '../language/words.ts';
import { takenBefore } from '../trim/trim-series.ts';
import type { StudiedCut, StudiedFilm, StudiedReading } from '../trim/study.ts';
import { findingsWithin, type Inspection } from '../findings/inspect.ts';
import { grouped } from './grouped.ts';
import type { Finding } from '../findings/finding.ts';
import { inTextOrder } from '../findings/engine/text-order.ts';
import { cutFigures } from '../findings/limits/cut-limits.ts';
import { counts } from '../findings/limits/fitting-units.ts';
import { findMeasure } from '../measures/registry.ts';
import { LineMap } from '../notation/line-map.ts';
import type { FootName } from '../notation/choices.ts';
import { cutsOfReadings } from './cuts-of-readings.ts';
import { scaleOrigin } from './scale-origin.ts';
import type { Cut } from '../record/schema.ts';
import { staysOn, Wearing } from '../record/wearing.ts';
import { filmName } from './listed-films.ts';
import { setupWords } from './setup-words.ts';
import { shodWords, wornKindsWords } from '../findings/wording/shod-words.ts';
import {
  cutSheet,
  filmSheet,
  sidesSheet,
  type AboutFilm,
  type FilmSheet,
  type Note,
  type WrittenCut,
} from './whole-sheet.ts';
import { withPlainNames } from './plain-names.ts';
import { yardsticksOf } from './yardsticks.ts';

export type { XY } from '../geometry/vector.ts';
export type { MeasureRow } from './measure-rows.ts';
export type { AboutFilm, CutSheet, FilmSheet, Note, WrittenCut } from './whole-sheet.ts';

/** Which readings of which films a sheet is made of. */
export type WantedReading = (film: StudiedFilm, reading: StudiedReading) => boolean;

/** A sheet for each reading of each film, or of those that are wanted, in the order of the text. */
export function filmSheets({ study, findings, tree }: Inspection, wanted: WantedReading = () => true): FilmSheet[] {
  const map = new LineMap(tree.text);
  const wearing = new Wearing(study.record.visits);
  const cutsOf = cutsOfReadings(study);
  const tapesAt = new Map<StudiedFilm['visit'], Map<FootName, AboutFilm['tapes']>>();
  const tapesFor = (film: StudiedFilm): AboutFilm['tapes'] => {
    const byFoot = tapesAt.get(film.visit) ?? new Map<FootName, AboutFilm['tapes']>();
    tapesAt.set(film.visit, byFoot);
    const tapes = byFoot.get(film.film.foot) ?? tapesOf(film);
    byFoot.set(film.film.foot, tapes);
    return tapes;
  };
  return study.films.flatMap((film) => {
    const readings = film.readings.filter((reading) => wanted(film, reading));
    if (readings.length === 0) return [];
    const toldOf = findingsByReading(film, findings);
    return readings.map((reading) => {
      const about: AboutFilm = {
        ...aboutFilm(film, reading, map, wearing),
        tapes: tapesFor(film),
        notes: toldOf(reading).map((finding) => note(finding, map)),
        limits: cutFigures(film.film.foot, study, film.day),
      };
      const { along, across } = cutsOf(film, reading);
      return filmSheet(about, reading.input, reading.taking, {
        lines: linesOf(film, reading, map),
        yardsticks: yardsticksOf(study, film),
        cuts: [
          ...along.map((cut) =>
            cutSheet(writtenCut(cut, findings, map), about, { foot: cut.foot, values: cut.before }, cut.prediction),
          ),
          ...across.map(({ cut, sides }) =>
            sidesSheet(writtenCut(cut, findings, map), film.film.foot, reading.taking.frame, sides),
          ),
        ],
      });
    });
  });
}

/** With several readers in one film, a finding at another reader's lines is not this sheet's; a range is told of all. */
function findingsByReading(
  { film, visit, readings }: StudiedFilm,
  findings: readonly Finding[],
): (reading: StudiedReading) => readonly Finding[] {
  const told = findingsWithin(findings, visit.start + film.at.start, visit.start + film.at.end);
  if (readings.length === 1) return () => told;
  const readingAt = new Map(
    readings.flatMap((one) => one.reading.placings.map(({ at }) => [at.start + visit.start, one] as const)),
  );
  const byReading = grouped(told, ({ at, code }) =>
    code.startsWith('range/') ? null : (readingAt.get(at.start) ?? null),
  );
  const ofAll = byReading.get(null) ?? [];
  return (reading) => inTextOrder([...ofAll, ...(byReading.get(reading) ?? [])]);
}

function aboutFilm(
  studied: StudiedFilm,
  reading: StudiedReading,
  map: LineMap,
  wearing: Wearing,
): Omit<AboutFilm, 'tapes' | 'notes' | 'limits'> {
  const { film } = studied;
  return {
    ...filmName(studied, reading, map),
    markerWords: film.scale?.kind === 'marker' ? sayQuantity(film.scale.length) : null,
    ...shodness(studied, wearing),
    scaleWords: reading.taking.scale === null ? null : (scaleOrigin(studied)?.words ?? null),
  };
}

function shodness(studied: StudiedFilm, wearing: Wearing): Pick<AboutFilm, 'isShod' | 'isBare' | 'worn' | 'said'> {
  const { worn: shod, bareBy, film } = studied;
  const worn = shod ? [t('On the foot: {0}.', shodWords(shod))] : [];
  return {
    // Where a trim raised the heel by a wedge, nobody knows what it wears.
    isBare: shod === null && wearing.isTold(film.foot) && bareBy?.by !== 'wedge',
    isShod: shod !== null && staysOn(shod),
    worn: shod && wornKindsWords(shod),
    said: [...worn, ...setupWords(film.setup)],
  };
}

function linesOf({ visit }: StudiedFilm, { reading }: StudiedReading, map: LineMap): Record<string, number> {
  return Object.fromEntries(reading.placings.map(({ name, at }) => [name, map.at(visit.start + at.start).line]));
}

/** What was taken by hand, of the same foot at the same visit; of two tapes the first that has the measure. */
function tapesOf({ film, visit }: StudiedFilm): Record<string, string> {
  const taken: Record<string, string> = {};
  for (const tape of visit.is.tapes) {
    if (tape.foot !== film.foot) continue;
    for (const { measure, quantity } of tape.values) {
      const known = findMeasure(measure);
      if (known && counts(known, quantity)) taken[known.name] ??= sayQuantity(quantity);
    }
  }
  return taken;
}

export function note(finding: Finding, map: LineMap): Note {
  return {
    severity: finding.severity,
    code: finding.code,
    // What is told of the writing speaks of the words that stand there.
    message: finding.code.startsWith('notation/') ? finding.message : withPlainNames(finding.message),
    ...(finding.accepted !== undefined && { accepted: finding.accepted }),
    line: map.at(finding.at.start).line,
  };
}

function writtenCut(studied: StudiedCut, findings: readonly Finding[], map: LineMap): WrittenCut {
  const { cut, visit, size, lost } = studied;
  const start = visit.start + cut.at.start;
  const end = visit.start + cut.at.end;
  return {
    kind: cut.kind,
    line: map.at(start).line,
    endLine: map.at(end).line,
    date: visit.is.date,
    cut: cutWords(studied),
    size,
    sides: null,
    sidesBefore: null,
    taken: lost ? null : takenBefore(cut, studied),
    leave: cut.leave,
    notes: findingsWithin(findings, start, end).map((finding) => note(finding, map)),
  };
}

export function cutWords({ cut }: Pick<StudiedCut, 'cut'>): string {
  // A trim that gives no millimetres says what was done in words.
  const said = cutParts(cut) || cut.work.map(({ text }) => text).join('; ');
  // Nobody knows what such a line takes off.
  if (cut.unreadAt) return said === '' ? t('not understood') : t('{0}, and a line that is not understood', said);
  return said || t('nothing cut');
}

/** What is done in the words of the notation; empty where a cut says it in its own words alone. */
export function cutParts(cut: Cut): string {
  const parts = [
    cut.heelDown &&
      (cut.heelFrom
        ? t(
            'heel down {0} {1} from {2} {3}',
            cut.heelDown.value,
            cut.heelDown.unit,
            cut.heelFrom.value,
            cut.heelFrom.unit,
          )
        : t('heel down {0} {1}', cut.heelDown.value, cut.heelDown.unit)),
    cut.toeDown && t('toe down {0} {1}', cut.toeDown.value, cut.toeDown.unit),
    cut.toeBack && t('toe back {0} {1}', cut.toeBack.value, cut.toeBack.unit),
    cut.heelUp && t('heel up {0} {1}', cut.heelUp.value, cut.heelUp.unit),
    cut.insideDown && t('inside down {0} {1}', cut.insideDown.value, cut.insideDown.unit),
    cut.outsideDown && t('outside down {0} {1}', cut.outsideDown.value, cut.outsideDown.unit),
    ...cut.dressed.map(dressedWords),
    cut.leave.length > 0 && t('leave {0}', wordList(cut.leave.map(sayChoice))),
  ];
  return parts.filter((part) => typeof part === 'string').join(', ');
}

const dressingWords = spoken({ bevel: 'bevel', quarters: 'quarters', bars: 'bars' });
const dressedPlaces = spoken({ toe: 'toe', inner: 'inner', outer: 'outer', heel: 'heel', all: 'all' });

function dressedWords({ what, places, amount, text }: Cut['dressed'][number]): string {
  const where = places.length > 0 ? ` ${wordList(places.map((place) => dressedPlaces[place]))}` : '';
  return `${dressingWords[what]}${where}${amount ? ` ${sayQuantity(amount)}` : ''}${text === null ? '' : ` (${text})`}`;
}
