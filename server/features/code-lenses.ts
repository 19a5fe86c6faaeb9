import { shownDate } from '../../shared/language/dates.ts';
import { counted, t } from '../../shared/language/words.ts';
import { cutKinds, pictureKinds } from '../../shared/notation/choices.ts';
import type { CodeLens } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { accusationOf, isLength } from '../../shared/course/bones-of.ts';
import { changeOfValue } from '../../shared/course/error-of-films.ts';
import { valuesOfFilm } from '../../shared/course/value-of-film.ts';
import type { Inspection } from '../../shared/findings/inspect.ts';
import { list, sayChange, wordsFor } from '../../shared/findings/wording/wording.ts';
import { alarmsOf, alarmsOpen } from '../../shared/views/alarms.ts';
import type { Placed, Visit } from '../../shared/record/schema.ts';
import type { StudiedFilm, Study } from '../../shared/trim/study.ts';
import type { ClientAbilities } from '../serving/client-abilities.ts';
import { headersOf } from '../text/every-statement.ts';
import { rangeOf } from '../text/ranges.ts';

/** What stands over a line of the text. */
interface Lens {
  /** Offset of the first word of the line. */
  readonly at: number;
  readonly says: string;
  /** What pressing it does; the line goes along. Without one there is nothing to be pressed. */
  readonly command?: string | null;
  /** After the line. */
  readonly rest?: readonly unknown[];
}

/**
 * Over a case, a visit and a film, what they hold or how the foot has changed; where the client has commands for it, pressing shows
 * that in the preview, and what comes next (placing, a plan, a page) stands beside. `keepsBack`: a lesson, of which nothing is told
 * that rests on values.
 */
export function codeLenses(
  document: TextDocument,
  inspection: Inspection,
  client: Pick<ClientAbilities, 'preview' | 'placeLandmark' | 'planTrim' | 'handOver'>,
  keepsBack = false,
): CodeLens[] {
  const { study, tree } = inspection;
  const headers = headersOf(tree);
  const { animal, visits } = study.record;
  const { preview, handOver } = client;
  const told: readonly Lens[] = [
    ...(animal
      ? [
          { at: animal.start + animal.is.head.start, says: ofCase(visits), command: preview },
          ...(handOver === null
            ? []
            : [{ at: animal.start + animal.is.head.start, says: t('page to hand over'), command: handOver }]),
        ]
      : []),
    ...visits.map((visit) => ({ at: visit.start + visit.is.head.start, says: ofVisit(visit.is), command: preview })),
    ...(keepsBack ? [] : study.films).map((film) => ({
      at: film.visit.start + film.film.head.start,
      says: sinceBefore(film, study),
      command: preview,
    })),
    ...nextSteps(study, keepsBack ? { ...client, planTrim: null } : client),
    ...beforePlans(inspection, keepsBack),
  ];
  return told
    .flatMap((lens) => {
      const header = headers.get(lens.at);
      return lens.says !== '' && header ? [{ header, lens }] : [];
    })
    .sort((a, b) => a.header.start - b.header.start)
    .map(({ header, lens: { says: title, command, rest = [] } }) => {
      const range = rangeOf(document, header);
      if (!command) return { range, command: { title, command: '' } };
      return { range, command: { title, command, arguments: [document.uri, range.start.line, ...rest] } };
    });
}

/** Over each lateral film what comes next: placing; and over the newest one of a foot, once it stands, a plan. */
function nextSteps(
  study: Study,
  { placeLandmark, planTrim }: Pick<ClientAbilities, 'placeLandmark' | 'planTrim'>,
): Lens[] {
  return study.films.flatMap((studied) => {
    const { film, visit, readings } = studied;
    if (film.kind !== 'film') return [];
    const at = visit.start + film.head.start;
    const stands = readings.some(({ taking }) => taking.frame);
    const placing: Lens[] =
      placeLandmark === null
        ? []
        : // At no landmark by name: where the walk goes on.
          [{ at, says: stands ? t('place more') : t('place landmarks'), command: placeLandmark, rest: [''] }];
    const isNewest =
      film.view === 'lateral' &&
      stands &&
      studied.day !== null &&
      study.series.upTo(film.foot, 'lateral', Infinity) === studied;
    return planTrim === null || !isNewest ? placing : [...placing, { at, says: t('plan a trim'), command: planTrim }];
  });
}

/** Over the newest plan of each foot: what is open before it. */
function beforePlans(inspection: Inspection, keepsBack: boolean): Lens[] {
  const open = alarmsOpen(alarmsOf(inspection, keepsBack));
  if (open === '') return [];
  const newest = new Map(
    inspection.study.cuts
      .filter(({ cut }) => cut.kind === 'plan')
      .map(({ cut, visit }) => [cut.foot, visit.start + cut.head.start]),
  );
  return [...newest.values()].map((at) => ({ at, says: t('first: {0}', open) }));
}

function ofCase(visits: readonly Placed<Visit>[]): string {
  const dates = visits.flatMap(({ is }) => is.date ?? []).toSorted();
  const [first] = dates;
  const last = dates.at(-1);
  const when =
    first === undefined
      ? ''
      : first === last
        ? `, ${shownDate(first)}`
        : t(', {0} to {1}', shownDate(first), shownDate(last ?? first));
  return `${counted(visits.length, '{0} visit', '{0} visits')}${when}`;
}

function ofVisit({ films, cuts }: Visit): string {
  const pictures = pictureKinds.flatMap((kind) => {
    const count = films.filter((film) => film.kind === kind).length;
    return count > 0 ? [sayPictures(count, kind)] : [];
  });
  const work = cutKinds.flatMap((kind) => {
    const feet = [...new Set(cuts.filter((cut) => cut.kind === kind).map(({ foot }) => foot))];
    return feet.length > 0 ? [`${kind} ${list(feet)}`] : [];
  });
  return [...pictures, ...work].join(', ');
}

function sayPictures(count: number, kind: (typeof pictureKinds)[number]): string {
  return kind === 'film' ? counted(count, '{0} film', '{0} films') : counted(count, '{0} photo', '{0} photos');
}

function sinceBefore(studied: StudiedFilm, study: Study): string {
  const { film } = studied;
  const day = film.kind === 'film' ? studied.day : null;
  const earlier = day === null ? null : study.series.upTo(film.foot, film.view, day - 1);
  if (!earlier) return '';
  const inDoubt = accusationOf(studied, study) !== null || accusationOf(earlier, study) !== null;
  const changes = (['palmar-angle', 'sole-depth.tip'] as const).flatMap((name) => {
    const now = valuesOfFilm(studied)?.get(name);
    const was = valuesOfFilm(earlier)?.get(name);
    const words = now && (name === 'palmar-angle' ? wordsFor(now.measure, film.foot) : 'sole');
    if (!was || !now) return [];
    const doubt = isLength(now.measure) && inDoubt ? t(', but the scale is in doubt') : '';
    return [`${words} ${sayChange(changeOfValue(was, now, study, [earlier, studied]), now.unit)}${doubt}`];
  });
  return changes.length > 0
    ? t('since {0}: {1}', shownDate(earlier.film.taken ?? earlier.visit.is.date ?? ''), changes.join(', '))
    : '';
}
