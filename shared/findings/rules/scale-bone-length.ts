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
      else for (const one of accused) yield told(one, byMany(one.by));
    }
  },
};

const byMany = (by: number): string =>
  `The bones are ${sayOff(by)} here than on the other films of this foot, and bones keep their size: the scale or the beam is off, and no length of this film can be compared. Check the length and the ends of the marker.`;

function ofTwo(newer: JudgedBones, { film: { day, film, visit } }: JudgedBones): CaseRemark {
  const other = day === null ? 'the other film' : `the film of ${sayDay(day)}`;
  const at = film.scale?.at ?? film.head;
  return {
    ...told(
      newer,
      `The bones are ${sayOff(newer.by)} here than on ${other}, and bones keep their size: the scale or the beam of one of these two films is off, and their lengths cannot be compared. Check the length and the ends of both markers.`,
    ),
    related: [{ at: { start: visit.start + at.start, end: visit.start + at.end }, message: 'The other of the two.' }],
  };
}

function told({ film: { film, visit }, by }: JudgedBones, message: string): CaseRemark {
  return {
    start: visit.start,
    at: film.scale?.at ?? film.head,
    message,
    value: 100 * by,
    source: 'the other films of this foot',
  };
}
