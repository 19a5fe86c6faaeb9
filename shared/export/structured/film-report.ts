import { t, languageInUse } from '../../language/words.ts';
import { isOfShod, measuresIn, type Measure } from '../../measures/registry.ts';
import type { Value } from '../../measures/take.ts';
import type { ArchivedFilm } from '../../picture/archived-film.ts';
import { wordList } from '../../notation/word-list.ts';
import type { Reading } from '../../record/schema.ts';
import type { StudiedFilm, StudiedReading, Study } from '../../trim/study.ts';
import { nameOfLandmark } from '../../views/landmark-names.ts';
import { scaleOrigin } from '../../views/scale-origin.ts';
import { yardsticksOf, type Yardstick } from '../../views/yardsticks.ts';
import { codes, measureCode, own, siteOf, unitCodes, viewCode, type Code } from './codes.ts';
import type { ContentItem } from './content.ts';
import { program, type Uids } from './uids.ts';

/** What a report of a film is made of. */
export interface FilmReportInput {
  readonly study: Study;
  readonly film: StudiedFilm;
  /** What the film's own file refers to it by; null where it is no DICOM file. */
  readonly archived: ArchivedFilm | null;
  /** Whether it is to say who read the film, and to stand in the film's own study of its own patient. */
  readonly names: boolean;
  readonly uids: Uids;
  /** What is told against its numbers, a sentence each (`doubtsOf`). */
  readonly doubts?: readonly string[];
}

/** Day of a film, its own or else that of its visit. */
export const dateOf = ({ film, visit }: Pick<StudiedFilm, 'film' | 'visit'>): string | null =>
  film.taken ?? visit.is.date;

/**
 * The measures of one film as a Measurement Report (PS3.16 TID 1500), a group for each of its readings. Pure: what it says, before
 * it is DICOM. Null where nothing is measured on the film.
 */
export function filmReport(input: FilmReportInput): ContentItem | null {
  const { study, film, archived, names, uids } = input;
  const groups = film.readings.flatMap((reading, index) => readingGroup(input, reading, index) ?? []);
  if (groups.length === 0) return null;
  const readers = names ? [...new Set(film.readings.flatMap(({ reading }) => reading.reader ?? []))] : [];
  const species = speciesOf(study);
  return {
    type: 'CONTAINER',
    relation: null,
    name: codes.report,
    template: '1500',
    items: [
      modifier(codes.language, languageCode()),
      context(codes.observerType, codes.device),
      { type: 'UIDREF', relation: 'HAS OBS CONTEXT', name: codes.deviceUid, uid: uids.program },
      said('HAS OBS CONTEXT', codes.deviceName, program.name),
      said('HAS OBS CONTEXT', codes.deviceManufacturer, program.name),
      said('HAS OBS CONTEXT', codes.deviceModel, `${program.name} ${program.version}`),
      ...readers.flatMap((name): ContentItem[] => [
        context(codes.observerType, codes.person),
        { type: 'PNAME', relation: 'HAS OBS CONTEXT', name: codes.personName, text: name },
      ]),
      context(codes.subjectClass, codes.patient),
      ...(species ? [context(codes.subjectSpecies, species)] : []),
      modifier(codes.procedure, codes.imaging),
      ...(archived ? [library(archived)] : []),
      { type: 'CONTAINER', relation: 'CONTAINS', name: codes.measurements, items: groups },
    ],
  };
}

/** Of the patient too; null where the case does not say what the animal is. */
export function speciesOf({ record }: Pick<Study, 'record'>): Code | null {
  const kind = record.animal?.is.kind ?? null;
  if (kind === null) return null;
  return kind === 'horse' || kind === 'pony' ? codes.horse : codes.equid;
}

function languageCode(): Code {
  const value = languageInUse();
  return { value, scheme: 'RFC5646', meaning: new Intl.DisplayNames(['en'], { type: 'language' }).of(value) ?? value };
}

/** TID 1600. */
const library = (film: ArchivedFilm): ContentItem => ({
  type: 'CONTAINER',
  relation: 'CONTAINS',
  name: codes.imageLibrary,
  items: [
    {
      type: 'CONTAINER',
      relation: 'CONTAINS',
      name: codes.imageGroup,
      items: [{ type: 'IMAGE', relation: 'CONTAINS', name: null, film }],
    },
  ],
});

/** TID 1501. Null where nothing is measured of the reading. */
function readingGroup(input: FilmReportInput, studied: StudiedReading, index: number): ContentItem | null {
  const { study, film: of, archived, names, uids } = input;
  const { film } = of;
  const { reading, taking } = studied;
  const held = new Map(yardsticksOf(study, of).map((one) => [one.measure, one]));
  const numbers = [
    ...[...taking.values.values()].map((value) => measured(value, held.get(value.measure.name), archived)),
    ...unscaled(studied, film.view).map(notMeasured),
  ];
  if (numbers.length === 0) return null;
  const reader = of.readings.length > 1 ? t('reader {0}', index + 1) : '';
  const tracked = [film.foot, film.view, dateOf(of) ?? t('no date'), reader].filter((part) => part !== '');
  const { foot, side } = siteOf[film.foot];
  return {
    type: 'CONTAINER',
    relation: 'CONTAINS',
    name: codes.group,
    items: [
      said('HAS OBS CONTEXT', codes.tracking, tracked.join(' ')),
      {
        type: 'UIDREF',
        relation: 'HAS OBS CONTEXT',
        name: codes.trackingUid,
        uid: uids.of(['film', film.foot, film.view, dateOf(of), index, placeOf(of, study)]),
      },
      { ...modifier(codes.findingSite, foot), items: [modifier(codes.laterality, side)] },
      said('HAS CONCEPT MOD', codes.algorithm, program.name),
      said('HAS CONCEPT MOD', codes.algorithmVersion, program.version),
      said('HAS CONCEPT MOD', codes.algorithmParameters, parametersOf(of, studied)),
      ...numbers,
      evaluation(own('view'), viewCode(film.view)),
      evaluation(own('scale-from'), scaleCode(of, studied)),
      evaluation(own('placing'), placingCode(reading)),
      ...[
        ...commentsOf(of, archived, names ? reading.reader : null),
        ...followedIn(reading),
        ...(input.doubts ?? []),
      ].map((words) => said('CONTAINS', codes.comment, words)),
    ],
  };
}

/** The how-manieth film of its foot, view and day it is: two of them are two things that are tracked. */
function placeOf(of: StudiedFilm, { films }: Study): number {
  const { foot, view } = of.film;
  const same = films.filter((one) => one.film.foot === foot && one.film.view === view && dateOf(one) === dateOf(of));
  return same.indexOf(of);
}

/** TID 300, with TID 310, 312 and 315. */
function measured(value: Value, held: Yardstick | undefined, archived: ArchivedFilm | null): ContentItem {
  const { measure } = value;
  const unit = unitCodes[value.unit];
  const { low = null, high = null } = held?.usual ?? {};
  const limit = (name: Code, at: number | null): ContentItem[] =>
    at === null ? [] : [{ type: 'NUM', relation: 'HAS PROPERTIES', name, value: at, unit }];
  const hasRange = low !== null || high !== null;
  return {
    type: 'NUM',
    relation: 'CONTAINS',
    name: measureCode(measure),
    value: value.value,
    unit,
    items: [
      ...(value.axis === 'short' ? [modifier(codes.method, own('shorter-axis'))] : []),
      ...(isOfBone(measure) ? [modifier(codes.findingSite, codes.pedalBone)] : []),
      said('INFERRED FROM', codes.equation, measure.formula),
      {
        type: 'NUM',
        relation: 'HAS PROPERTIES',
        name: codes.uncertainty,
        value: value.sd,
        unit,
        items: [modifier(codes.derivation, codes.standardDeviation)],
      },
      ...limit(codes.rangeLow, low),
      ...limit(codes.rangeHigh, high),
      ...(held && hasRange && held.usualText !== '' ? [property(codes.rangeWords, held.usualText)] : []),
      ...(held && hasRange && held.source !== '' ? [property(codes.rangeAuthority, held.source)] : []),
      ...(archived
        ? [{ type: 'IMAGE', relation: 'INFERRED FROM', name: codes.source, film: archived } satisfies ContentItem]
        : []),
    ],
  };
}

/** Lengths whose landmarks stand on a film without a scale. */
function unscaled({ reading, taking }: StudiedReading, view: StudiedFilm['film']['view']): Measure[] {
  if (taking.scale !== null) return [];
  const placed = new Set<string>(reading.placings.map(({ name }) => name));
  return measuresIn(view).filter(
    (measure) => measure.kind === 'length' && !isOfShod(measure) && measure.needs.every((need) => placed.has(need)),
  );
}

const notMeasured = (measure: Measure): ContentItem => ({
  type: 'NUM',
  relation: 'CONTAINS',
  name: measureCode(measure),
  unit: unitCodes[measure.unit],
  lack: codes.notAttempted,
});

/** Whether it rests on a place of the pedal bone. */
const isOfBone = ({ needs }: Measure): boolean => needs.some((need) => need.startsWith('p3.'));

function scaleCode(of: StudiedFilm, { taking }: StudiedReading): Code {
  const origin = taking.scale === null ? null : scaleOrigin(of);
  switch (origin?.from) {
    case 'marker':
      return own('scale-marker');
    case 'number':
      return own('scale-number');
    case 'file':
      return own(of.stored && 'overstates' in of.stored && of.stored.overstates ? 'scale-detector' : 'scale-file');
    case 'bone':
      return own('scale-bone');
    case 'bone of the other foot':
      return own('scale-bone-pair');
    default:
      return own('scale-none');
  }
}

/** How the landmarks of a reading came to stand there. */
function placingCode({ placings }: Reading): Code {
  const followed = placings.filter((placing) => placing.followed);
  if (followed.length === 0) return own('by-a-person');
  return own(followed.length === placings.length ? 'followed' : 'some-followed');
}

function followedIn({ placings }: Reading): string[] {
  const names = placings.flatMap(({ name, followed }) => (followed ? nameOfLandmark(name) : []));
  return names.length === 0
    ? []
    : [t('Proposed from the film before and confirmed by a person: {0}.', wordList(names, 'and'))];
}

function parametersOf({ film }: StudiedFilm, { taking }: StudiedReading): string {
  return [
    taking.scale === null ? t('no scale') : t('{0} mm a pixel', taking.scale.toFixed(4)),
    film.magnify ? t('taken {0} times too large', film.magnify.value) : '',
  ]
    .filter((part) => part !== '')
    .join('; ');
}

function commentsOf(of: StudiedFilm, archived: ArchivedFilm | null, reader: string | null): string[] {
  return [
    t(
      'Computed from landmarks that were placed on the film. Decision support only: diagnosis, radiographs and pain belong to the vet.',
    ),
    scaleOrigin(of)?.words ?? '',
    of.readings.every(({ taking }) => taking.scale !== null)
      ? ''
      : t('The film has no scale, so no length is measured.'),
    archived
      ? ''
      : t(
          'This report refers to no image: the film’s file is no DICOM file, does not state its UIDs, or could not be read.',
        ),
    reader === null ? '' : t('Read by {0}.', reader),
  ].filter((words) => words !== '');
}

const said = (
  relation: 'CONTAINS' | 'HAS OBS CONTEXT' | 'HAS CONCEPT MOD' | 'INFERRED FROM' | 'HAS PROPERTIES',
  name: Code,
  words: string,
): ContentItem => ({ type: 'TEXT', relation, name, text: words });

const property = (name: Code, words: string): ContentItem => said('HAS PROPERTIES', name, words);
const context = (name: Code, code: Code): ContentItem => ({ type: 'CODE', relation: 'HAS OBS CONTEXT', name, code });
const modifier = (name: Code, code: Code): ContentItem => ({ type: 'CODE', relation: 'HAS CONCEPT MOD', name, code });
const evaluation = (name: Code, code: Code): ContentItem => ({ type: 'CODE', relation: 'CONTAINS', name, code });
