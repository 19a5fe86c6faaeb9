import { t } from '../../language/words.ts';
import { SURELY } from '../../course/change.ts';
import type { Value } from '../../measures/take.ts';
import type { StudiedReading } from '../../trim/study.ts';
import { list, say } from './wording.ts';

interface EndBelow {
  readonly end: 'toe' | 'heel';
  readonly value: Value;
}

/** The ends of the bearing plane that surely lie below the ground, by a millimetre or more: it lies above what the shoe stands on. */
export function belowGround({ taking: { values } }: StudiedReading): EndBelow[] {
  return (['toe', 'heel'] as const).flatMap((end) => {
    const value = values.get(`shoe-thickness.${end}`);
    return value && value.value < -Math.max(1, SURELY * value.sd) ? [{ end, value }] : [];
  });
}

/** `10.0 mm at the toe and 17.2 mm at the heel`. */
export function sayBelowGround(ends: readonly EndBelow[]): string {
  return list(
    ends.map(({ end, value }) => {
      const depth = say(-value.value, 'mm');
      return end === 'toe' ? t('{0} at the toe', depth) : t('{0} at the heel', depth);
    }),
  );
}
