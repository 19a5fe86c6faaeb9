import { t } from '../../language/words.ts';
import type { Rule } from '../rule.ts';

export const scaleFromFile: Rule = {
  code: 'scale/from-file',
  severity: 'info',
  title: 'Scale that may not hold at the foot',
  about:
    'A picture’s own file may state how large a pixel is at the detector, on a film that was scanned, or without a word on where. The foot stands in front of the detector and is magnified on it, so that lengths then come out too long: by the distance of the tube from the detector over its distance from the foot. With the middle of the foot 5 to 15 cm in front of the detector, and a tube 75 to 100 cm away where the file gives no distance, that is 5 to 25 % (plain geometry; the distances are common practice, no source). A marker in the plane of the foot, or `magnify`, takes it out.',
  *onVisit({ films }) {
    for (const { film, stored, readings } of films) {
      if (film.scale?.kind !== 'dicom' || !stored || !('mmPerPx' in stored) || !stored.overstates) continue;
      if (readings.some(({ taking }) => taking.oddSize)) continue;
      const taken = film.magnify ? t(' Here magnify {0} is taken off.', film.magnify.value) : '';
      yield { at: film.scale.at, message: `${stored.words} ${sayOverstated(stored.overstates)}${taken}` };
    }
  },
};

/** `Lengths may be too long by 5 to 25 %.` */
export function sayOverstated([low, high]: readonly [number, number]): string {
  const by = low === 0 ? t('up to {0} %', high) : t('{0} to {1} %', low, high);
  return t('Lengths may be too long by {0}.', by);
}
