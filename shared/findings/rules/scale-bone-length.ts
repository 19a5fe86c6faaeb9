import { t } from '../../language/words.ts';
import { bonesOf } from '../../course/bones-of.ts';
import { feet } from '../../notation/choices.ts';
import type { JudgedBones } from '../../trim/bone-lengths.ts';
import type { CaseRemark, Rule } from '../rule.ts';
import { sayOff } from '../wording/say-bones.ts';
import { sayDay } from '../wording/say-day.ts';

export const scaleBoneLength: Rule = {
  code: 'scale/bone-length',
  severity: 'warning',
  title: 'Bones of another size',
  about:
    'In a grown animal the bones of the foot keep their size: the pedal bone from tip to wing and from extensor process to wing, and the short pastern bone between the centres of its joints. Where all of them are larger or smaller on one film than on the others of the foot, its scale is wrong or the beam was another: a marker of another length, one that did not lie in the plane of the foot, an oblique beam. It is told where they differ by more than 3 % and 3 standard deviations of the placings (judgements of ours), from 36 months of age on, and where no birth date is given.',
  *onCase(study) {
    for (const foot of feet) {
      const bones = bonesOf(foot, study);
      const accused = bones.filter((one) => one.accused);
      // Of two films nothing tells which of them it is.
      if (bones.length === 2) yield* accused.slice(-1).map((one) => ofTwo(one, bones[0] as JudgedBones));
      else for (const one of accused) yield told(one, byMany(one));
    }
  },
};

function byMany(one: JudgedBones): string {
  const fits = fitting(one, one.by);
  return t(
    'The bones are {0} here than on the other films of this foot, and bones keep their size: the scale or the beam is off, and no length of this film can be compared. {1}Check the length and the ends of the marker.',
    sayOff(one.by),
    fits === null ? '' : t('With {0} the bones would fit. ', fits),
  );
}

/** `100 mm instead of 108 mm`: the number at which the bones would be smaller by that share; null where the line has none. */
function fitting({ film: { film } }: JudgedBones, by: number): string | null {
  const { scale } = film;
  const fit = (written: number): number => Number((written / (1 + by)).toPrecision(3));
  if (scale?.kind === 'marker')
    return t('{0} {1} instead of {2}', fit(scale.length.value), scale.length.unit, scale.length.value);
  return scale?.kind === 'pixel' ? t('{0} mm/px instead of {1}', fit(scale.mmPerPx), scale.mmPerPx) : null;
}

function ofTwo(newer: JudgedBones, older: JudgedBones): CaseRemark {
  const { day, film, visit } = older.film;
  const [here, there] = [fitting(newer, newer.by), fitting(older, 1 / (1 + newer.by) - 1)];
  const fits =
    here !== null && there !== null ? t(' With {0} here, or {1} there, the bones would fit.', here, there) : '';
  const other = day === null ? t('the other film') : t('the film of {0}', sayDay(day));
  const at = film.scale?.at ?? film.head;
  return {
    ...told(
      newer,
      t(
        'The bones are {0} here than on {1}, and bones keep their size: the scale or the beam of one of these two films is off, and their lengths cannot be compared.{2} Check the length and the ends of both markers.',
        sayOff(newer.by),
        other,
        fits,
      ),
    ),
    related: [
      { at: { start: visit.start + at.start, end: visit.start + at.end }, message: t('The other of the two.') },
    ],
  };
}

function told({ film: { film, visit }, by }: JudgedBones, message: string): CaseRemark {
  return {
    start: visit.start,
    at: film.scale?.at ?? film.head,
    message,
    value: 100 * by,
    source: t('the other films of this foot'),
  };
}
