import type { Measure } from '../measures/registry.ts';
import type { Range } from '../notation/signature.ts';

/**
 * Placing is not the only error of a film: the beam and the stance differ from film to film. What a change has to pass beside
 * its standard deviation, and what two films of a foot that has not changed differ by. Each is a setting.
 */
export interface ChangeSettings {
  /** Degrees that a change of an angle has to pass. Collins 2011, as quoted by others. */
  readonly angle: number;
  /** mm that a change of a length has to pass. Collins 2011, as quoted by others. */
  readonly length: number;
  /** mm, for the thickness of sole, horn and lamellae. A judgement of ours. */
  readonly thickness: number;
  /** Per cent, for shares. A judgement of ours. */
  readonly share: number;
  /** One standard deviation of a length in the capsule from film to film, mm. A judgement of ours. */
  readonly filmLength: number;
  /** The same of an angle between bone and wall, degrees. A judgement of ours. */
  readonly filmAngle: number;
}

export const usualChange: ChangeSettings = {
  angle: 2,
  length: 2,
  thickness: 1,
  share: 2,
  filmLength: 0.6,
  filmAngle: 1,
};

/**
 * How far each may be set. What films differ by from one to the next bears on the alarm of a sinking bone, so it stays near what is
 * usual: no setting may mute it.
 */
export const changeRanges: Readonly<Record<keyof ChangeSettings, Range>> = {
  angle: { low: 0, high: 10, unit: 'deg' },
  length: { low: 0, high: 10, unit: 'mm' },
  thickness: { low: 0, high: 5, unit: 'mm' },
  share: { low: 0, high: 10, unit: '%' },
  filmLength: { low: 0.2, high: 1.2, unit: 'mm' },
  filmAngle: { low: 0.2, high: 3, unit: 'deg' },
};

const thickness = /^(?:sole-depth|horn-lamellar|lamellar-zone)\./;

/** What a change of a measure has to pass beside its standard deviation, in the measure's unit. */
export function floorOf({ name, unit }: Pick<Measure, 'name' | 'unit'>, settings: ChangeSettings): number {
  switch (unit) {
    case 'deg':
      return settings.angle;
    case 'mm':
      return thickness.test(name) ? settings.thickness : settings.length;
    case '%':
      return settings.share;
    case '1':
      return settings.share / 100;
  }
}
