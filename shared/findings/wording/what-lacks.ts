import { t } from '../../language/words.ts';
import { isOfShod, type Measure } from '../../measures/registry.ts';
import type { StudiedReading } from '../../trim/study.ts';
import { list } from './wording.ts';

/** Why a reading gives no value of a measure, as what to do about it. */
export function whatLacks(measure: Measure, { reading, taking }: StudiedReading): string {
  const missing = measure.needs.filter((name) => !reading.placings.some((placing) => placing.name === name));
  if (missing.length > 0) return t('Place {0}.', list(missing));
  if (measure.kind === 'length' && taking.scale === null)
    return taking.oddSize ? t('The scale of the picture counts as none.') : t('The picture has no scale.');
  if (!taking.frame) return t('There is no ground line to measure from.');
  if ((measure.plane === 'bearing' || measure.plane === 'either') && !taking.frame.isOnBearing)
    return t('Place `bearing`, the plane between hoof and shoe.');
  if (isOfShod(measure) && taking.frame.ground === 'level') return t('The foot wears nothing on this picture.');
  return t('There is no ground line to measure from.');
}
