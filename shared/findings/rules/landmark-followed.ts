import { fixed } from '../../language/figures.ts';
import { t } from '../../language/words.ts';
import { isFollowing } from '../../course/following.ts';
import { followedPlacing, type PlacingOfSeries } from '../../course/followed.ts';
import { spreadInPixels } from '../../geometry/foot-input.ts';
import { lateralLandmark } from '../../notation/landmarks.ts';
import type { Span } from '../../notation/tree.ts';
import type { Placing } from '../../record/schema.ts';
import type { StudiedFilm, StudiedReading } from '../../trim/study.ts';
import type { CaseRemark, Rule } from '../rule.ts';
import { sayDay } from '../wording/say-day.ts';
import { readerWords } from './landmark-lines.ts';

/** Spreads are written to a tenth of a pixel: so much less is no less. Pixels. */
const rounding = 0.05;

export const landmarkFollowed: Rule = {
  code: 'landmark/followed',
  severity: 'warning',
  title: 'A followed placing that does not fit the film before',
  about:
    'A landmark that is `followed` was proposed by the last earlier film of its foot and view that has it, and confirmed by a person. It carries the error of that placing on, which cancels where the two films are compared. Where no earlier film has the landmark, nothing is taken to be shared, and a change has to be larger to be told: take the word out, or look at the day of the films. Where its `+-` is smaller than that of the placing before (of a point on a line, than the mean of both ends has), what both share cannot be told, and all of it is taken to be shared: then this is a hint.',
  *onCase({ films, series }) {
    for (const film of films)
      for (const studied of film.readings) {
        if (!isFollowing(studied.reading)) continue;
        for (const placing of studied.reading.placings) {
          if (!placing.followed) continue;
          const known = followedPlacing(placing.name, film, studied, series);
          const told = known?.from
            ? smallerThan(known.from, known)
            : followingNothing(film, studied, placing, placing.followed);
          if (told) yield { start: film.visit.start, ...told };
        }
      }
  },
};

type FollowedRemark = Omit<CaseRemark, 'start'>;

/**
 * How well a placing that was followed can be known at the best, mm: as well as the one that it was followed from. A line that is
 * followed lies where both its ends together say, so that each end there counts half; where these were followed themselves they err
 * alike already.
 */
function sharedBy({ placing: { name, followed }, studied, mm }: PlacingOfSeries): number | null {
  const proposed = lateralLandmark(name)?.proposed;
  const { scale } = studied.taking;
  const partner =
    proposed?.by === 'line' ? studied.reading.placings.find((one) => one.name === proposed.partner) : undefined;
  if (!partner || mm === null || scale === null) return mm;
  const other = (partner.spread ?? spreadInPixels(studied.input, scale)) * scale;
  return followed && partner.followed ? (mm + other) / 2 : Math.hypot(mm, other) / 2;
}

function followingNothing({ film }: StudiedFilm, studied: StudiedReading, { name }: Placing, at: Span): FollowedRemark {
  return {
    at,
    message:
      film.kind === 'photo'
        ? t('Photos are not followed: this counts for nothing at «{0}»{1}.', name, readerWords(studied))
        : t(
            'No earlier film of this foot and view has «{0}»{1}: it was followed from nothing, and its error counts as its own. Look at the days of the films, or take the word out.',
            name,
            readerWords(studied),
          ),
    // With the blank before it, which parts it from what stays.
    fixes: [{ title: t('Remove «{0}»', 'followed'), edits: [{ start: at.start - 1, end: at.end, text: '' }] }],
  };
}

function smallerThan(from: PlacingOfSeries, { studied, placing, mm: own }: PlacingOfSeries): FollowedRemark | null {
  const before = sharedBy(from);
  if (own === null || before === null || studied.taking.scale === null) return null;
  if (own + rounding * studied.taking.scale >= before) return null;
  const { film } = from;
  const place = film.visit.start + from.placing.at.start;
  return {
    at: placing.at,
    severity: 'hint',
    message: t(
      '«{0}»{1} is said to be known to {2} mm, and was followed from a placing of {3}, which is known to {4} mm: nothing that is followed is known better. All of its error is taken to be that placing’s.',
      placing.name,
      readerWords(studied),
      fixed(own, 2),
      film.day === null ? film.film.path.text : sayDay(film.day),
      fixed(before, 2),
    ),
    value: own,
    limit: before,
    related: [
      { at: { start: place, end: film.visit.start + from.placing.at.end }, message: t('It was followed from here.') },
    ],
  };
}
