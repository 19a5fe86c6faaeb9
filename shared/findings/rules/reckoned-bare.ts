import { t } from '../../language/words.ts';
import { findMeasure } from '../../measures/registry.ts';
import type { MeasureName } from '../../measures/names.ts';
import type { Value } from '../../measures/take.ts';
import type { StudiedFilm, StudiedReading } from '../../trim/study.ts';
import { say } from '../wording/wording.ts';

/** Degrees by which a wedge may differ from what is written of it, one standard deviation; a judgement, no source. */
const wedgeSpread = 1;

/**
 * The palmar angle to the bearing plane where that is not placed: the angle to the ground less the wedge that is written, so that no
 * wedge hides a bone that lies flat. Undefined where the plane is placed, and where no wedge is written.
 */
export function reckonedBare(
  name: MeasureName,
  { worn }: Pick<StudiedFilm, 'worn'>,
  { taking }: StudiedReading,
): Value | undefined {
  if (name !== 'palmar-angle.bearing' || !worn?.wedge || taking.frame?.isOnBearing !== false) return undefined;
  const toGround = taking.values.get('palmar-angle');
  const measure = findMeasure(name);
  if (!toGround || !measure) return undefined;
  return { measure, unit: 'deg', value: toGround.value - worn.wedge, sd: Math.hypot(toGround.sd, wedgeSpread) };
}

/** How it was come by; empty for what was measured. */
export function saysReckoned(film: StudiedFilm, reading: StudiedReading, value: Value): string[] {
  const toGround = reading.taking.values.get('palmar-angle');
  return toGround && reckonedBare(value.measure.name, film, reading)
    ? [
        t(
          'Reckoned from {0} to the ground and the wedge of {1} as written, since `bearing` is not placed.',
          say(toGround.value, 'deg'),
          say(film.worn?.wedge ?? 0, 'deg'),
        ),
      ]
    : [];
}
