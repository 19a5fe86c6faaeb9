import { t } from '../../language/words.ts';
import { distance, slope } from '../../geometry/point.ts';
import type { LandmarkName } from '../../notation/landmarks.ts';
import { staysOn } from '../../record/wearing.ts';
import type { StudiedFilm, StudiedReading } from '../../trim/study.ts';
import type { Remark, Rule } from '../rule.ts';
import { say } from '../wording/wording.ts';
import { SURELY } from '../../course/change.ts';
import { lineOf, linesOf, readerWords } from './landmark-lines.ts';
import { suspectsOf } from '../landmarks/landmark-suspects.ts';

/** Contacts off the line they lie on, mm; and without a scale the same in per cent of the bone, tip to wing. Judgement of ours: six times the usual error of placing. */
const mostOff = 3;
const mostOffShare = 4;
/** Contacts against that line. As much as the palmar angle changes by a good heel cut, so it must not go unseen. Judgement of ours. */
const mostTilt = 3;
/** The hoof may sink into a soft block by a little; sole and horn lie no deeper than this below the line. Judgement of ours. */
const mostBelow = 5;
const mostBelowShare = 6;

const contacts = ['toe.ground', 'heel.ground'] as const;

export const landmarkOffGround: Rule = {
  code: 'landmark/off-ground',
  severity: 'warning',
  title: 'Landmarks and ground line do not agree',
  about:
    'The wall’s contacts lie off the ground line (of a shod foot: off the bearing plane) or the line through them leans against it, or a point lies below it. Either a point or the ground line is off, or the film is oblique; where both contacts lie above the line alike, the foot was perhaps held up; every height and every angle to the ground is then off with it. From 3 mm, 3 degrees and 5 mm (judgements of ours, no source).',
  *onReading(film, reading) {
    const { frame } = reading.taking;
    if (!frame || film.film.view !== 'lateral') return;
    // A shod foot does not stand on the ground, and where its bearing plane lies is not known.
    if (!frame.isOnBearing) return;
    if (contacts.some((name) => suspectsOf(film, reading).names.has(name))) return;
    const off = contactsOff(film, reading);
    if (off) yield off;
    else yield* belowGround(film, reading);
  },
};

/** What is told where toe and heel of the wall do not lie on the line that the foot stands on; null where they do. */
export function contactsOff(film: StudiedFilm, reading: StudiedReading): Remark | null {
  return liesOn(film.film) && reading.taking.frame?.isOnBearing ? offContact(film, reading) : null;
}

/** What the contacts are to lie on. */
const liesOn = ({ bearing, ground }: StudiedFilm['film']) => bearing ?? ground;
const lineWords = ({ film }: StudiedFilm): string => (film.bearing ? t('the bearing plane') : t('the ground line'));

/**
 * A height above that line in mm, or without a scale in per cent of the bone, where it is `most` or more off and more than
 * placing explains; null too where there is nothing to weigh it by.
 */
function heightOff(name: LandmarkName, most: number, { taking: { frame } }: StudiedReading): number | null {
  const point = frame?.at(name);
  const [tip, wing] = [frame?.at('p3.tip'), frame?.at('p3.wing')];
  if (!frame || !point || (!frame.scale && !(tip && wing))) return null;
  return frame.graph.scratch(() => {
    const height = frame.scale || !tip || !wing ? point.y : point.y.over(distance(tip, wing)).times(100);
    // How sure it is takes longer to tell, and hardly ever matters.
    if (!(Math.abs(height.value) > most)) return null;
    return Math.abs(height.value) > SURELY * frame.graph.deviation(height) ? height.value : null;
  });
}

/** How a shod foot is told, whose contacts lie above what it stands on. */
function shodWay({ worn, film: { foot } }: StudiedFilm): string {
  return worn && staysOn(worn)
    ? t('Then place `bearing`, the plane between hoof and shoe.')
    : t('Then write `shoe {0}` above the film and place `bearing`, the plane between hoof and shoe.', foot);
}

function offContact(film: StudiedFilm, reading: StudiedReading): Remark | null {
  const { frame } = reading.taking;
  const [toe, heel] = [frame?.at('toe.ground'), frame?.at('heel.ground')];
  const unit = frame?.scale ? 'mm' : '%';
  const most = frame?.scale ? mostOff : mostOffShare;
  const told = contacts.flatMap((name) => {
    const height = heightOff(name, most, reading);
    return height === null ? [] : [{ name, height }];
  });
  const [one, other] = told;
  const unitWords = unit === '%' ? t(' of the bone’s length') : '';
  // Both off alike: no slip of one point, but a foot that does not stand there, or a line that is not the ground.
  if (
    one &&
    other &&
    Math.sign(one.height) === Math.sign(other.height) &&
    Math.abs(one.height - other.height) <= most
  ) {
    const height = (one.height + other.height) / 2;
    const where = `${say(Math.abs(height), unit)}${unitWords} ${height > 0 ? 'above' : 'below'} ${lineWords(film)}${readerWords(reading)}`;
    return {
      at: lineOf(one.name, film, reading),
      message:
        film.film.bearing !== null
          ? t(
              'Toe and heel of the wall lie {0}. It is the plane between hoof and shoe: look at its two ends and place them again; until then no height of this film counts.',
              where,
            )
          : height > 0
            ? t(
                'The foot does not stand on the ground line: toe and heel lie {0}. Was it held up? Then no height of this film counts. Is it shod? {1} If it stood bare, look at the two ends of the ground line and place them again.',
                where,
                shodWay(film),
              )
            : t(
                'Toe and heel lie {0}: it is no line that the foot stands on. Look at its two ends and place them again; until then no height of this film counts.',
                where,
              ),
      related: [...linesOf([other.name], film, reading), ...groundLine(film)],
      value: height,
      limit: most,
      source: t('judgement of ours, no source'),
    };
  }
  const [worst] = told.toSorted((a, b) => Math.abs(b.height) - Math.abs(a.height));
  if (worst) {
    // As a shoe that raises one end more than the other has them.
    const bothAbove = told.length === 2 && told.every(({ height }) => height > 0) && !film.film.bearing;
    const slip = t(
      '«{0}»{1} lies {2}{3} {4} {5}. It should {6} on it. Look at this point and at the two ends of {7}, and place what is off again.',
      worst.name,
      readerWords(reading),
      say(Math.abs(worst.height), unit),
      unitWords,
      worst.height > 0 ? t('above') : t('below'),
      lineWords(film),
      film.film.bearing ? t('lie') : t('stand'),
      lineWords(film),
    );
    return {
      at: lineOf(worst.name, film, reading),
      message: bothAbove ? `${slip} ${t('Or is the foot shod? {0}', shodWay(film))}` : slip,
      related: groundLine(film),
      value: worst.height,
      limit: most,
      source: t('judgement of ours, no source'),
    };
  }
  if (!frame || !toe || !heel) return null;
  const { tilt, sure } = frame.graph.scratch(() => {
    const leaning = slope(toe, heel);
    // The two lines are compared, not which way the foot faces by them.
    const around = Math.round(leaning.value / 180) * 180;
    const off = leaning.value - around;
    return { tilt: off, sure: Math.abs(off) > mostTilt && Math.abs(off) > SURELY * frame.graph.deviation(leaning) };
  });
  if (!sure) return null;
  return {
    at: lineOf('heel.ground', film, reading),
    message: t(
      'The line through «heel.ground» and «toe.ground» leans {0} against {1}{2}; more than {3}° is too much (judgement of ours). Look at both points and at the two ends of {4}, and place what is off again. If all are right, the film is oblique.',
      say(Math.abs(tilt), 'deg'),
      lineWords(film),
      readerWords(reading),
      mostTilt,
      lineWords(film),
    ),
    related: [...linesOf(['toe.ground'], film, reading), ...groundLine(film)],
    value: tilt,
    limit: mostTilt,
    source: t('judgement of ours, no source'),
  };
}

function* belowGround(film: StudiedFilm, reading: StudiedReading): Iterable<Remark> {
  const scaled = reading.taking.frame?.scale;
  const most = scaled ? mostBelow : mostBelowShare;
  const { names } = suspectsOf(film, reading);
  for (const { name, at } of reading.reading.placings) {
    // Nearly every point lies above the ground, and it is not asked how surely.
    if (!((reading.taking.frame?.at(name)?.y.value ?? 0) < 0)) continue;
    const height = names.has(name) ? null : heightOff(name, most, reading);
    if (height === null) continue;
    yield {
      at,
      message: t(
        '«{0}»{1} lies {2} below {3}. Look at this point and at {4}, and place what is off again.',
        name,
        readerWords(reading),
        scaled ? say(-height, 'mm') : t('{0} of the bone’s length', say(-height, '%')),
        film.film.bearing ? t('the bearing plane') : t('the ground'),
        lineWords(film),
      ),
      related: groundLine(film),
      value: height,
      limit: -most,
      source: t('judgement of ours, no source'),
    };
  }
}

function groundLine({ film, visit }: StudiedFilm): { at: { start: number; end: number }; message: string }[] {
  const line = liesOn(film);
  if (!line) return [];
  const { start, end } = line.at;
  const message = film.bearing ? t('The bearing plane.') : t('The ground line.');
  return [{ at: { start: visit.start + start, end: visit.start + end }, message }];
}
