import { bareFoot } from '../../geometry/planes.ts';
import { planTrim, type Goal, type Plan } from '../../trim/plan.ts';
import { predictAtOnce, type Prediction } from '../../trim/predict.ts';
import { broken } from '../../trim/solve.ts';
import type { Frame } from '../../geometry/frame.ts';
import type { CutSize } from '../../trim/stand.ts';
import type { Study, StudiedFilm } from '../../trim/study.ts';
import { sayDoubtOf } from '../wording/say-bones.ts';
import { limitsOn } from './cut-limits.ts';

/** Days between the visits of a plan where nothing else is said. */
export const usualInterval = 28;

/** The newest lateral film of a foot on which something is placed. */
export function filmToPlanOn(foot: string, { series }: Study): StudiedFilm | null {
  return series.upTo(foot, 'lateral', Infinity);
}

/** Why no millimetre that is planned on a film can be relied on; empty where its scale is not in doubt. */
export function planDoubt(film: StudiedFilm, study: Study): string {
  const doubt = sayDoubtOf([film], study);
  return doubt === '' ? '' : `Scale in doubt: ${doubt}. No millimetre of a plan on it can be relied on.`;
}

/**
 * A plan on a film that keeps every limit of the case; null where the film lacks what the goal needs. `toeBack` mm come off
 * the toe's front with the first stage.
 */
export function planOn(
  film: StudiedFilm,
  goal: Goal,
  study: Study,
  {
    interval = usualInterval,
    toeBack = 0,
    grid,
  }: { readonly interval?: number; readonly toeBack?: number; readonly grid?: number } = {},
): Plan | null {
  const frame = bareFrameOn(film);
  return (
    frame &&
    planTrim({
      frame,
      goal,
      limits: limitsOn(film.film.foot, study, film.day),
      interval,
      toeBack,
      growth: study.trim.growth,
      ...(grid !== undefined && { grid }),
    })
  );
}

/** What a cut would leave, with what the foot wears under it as before, and the codes of the limits that it breaks. */
export function tryCut(
  film: StudiedFilm,
  size: CutSize,
  study: Study,
): { prediction: Prediction; broken: string[] } | null {
  const frame = frameOn(film);
  const prediction = frame && predictAtOnce(frame, size);
  const bare = bareFrameOn(film);
  const codes = bare && broken({ frame: bare, limits: limitsOn(film.film.foot, study, film.day) }, size);
  return prediction && codes && { prediction, broken: codes };
}

function frameOn(film: StudiedFilm): Frame | null {
  return film.readings.find(({ taking }) => taking.frame)?.taking.frame ?? null;
}

/** A plan goes by the foot itself: what it will wear afterwards nobody knows yet. */
function bareFrameOn(film: StudiedFilm): Frame | null {
  const frame = frameOn(film);
  return frame && bareFoot(frame);
}
