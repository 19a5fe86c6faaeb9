import { t } from '../../language/words.ts';
import { spoken } from '../../language/rows.ts';
import type { FrameLack } from '../../geometry/foot-axes.ts';
import type { View } from '../../notation/landmarks.ts';
import type { Fix } from '../../notation/problems.ts';
import type { Film } from '../../record/schema.ts';
import { steadyLengths } from '../../trim/bone-lengths.ts';
import type { BoneScale, StudiedReading } from '../../trim/studied.ts';
import type { Rule } from '../rule.ts';
import { sentence } from '../wording/wording.ts';

const needs: Readonly<Record<View, Readonly<Record<FrameLack, string>>>> = {
  lateral: spoken({
    ground: 'place the ground line (ground x, y .. x, y), or both heel.ground and toe.ground.',
    direction: 'it is not clear which way the foot faces. Place p3.tip and p3.wing, or heel.ground and toe.ground.',
    'flat-ground': 'heel.ground and toe.ground are the same point, so there is no ground line.',
    axis: '',
  }),
  front: spoken({
    ground: 'place the ground line (ground x, y .. x, y), or both wall.medial and wall.lateral.',
    direction:
      'it is not clear which side is the inner one. Place p3.medial and p3.lateral, or the two of the coronet or of the wall.',
    'flat-ground': 'wall.medial and wall.lateral are the same point, so there is no ground line.',
    axis: '',
  }),
  solar: spoken({
    ground: '',
    direction: '',
    'flat-ground': '',
    axis: 'place heel.medial, heel.lateral and toe, each in a place of its own: lengths run from between the heels to the toe.',
  }),
};

export const noFrame: Rule = {
  code: 'frame/missing',
  severity: 'warning',
  title: 'No foot frame',
  about:
    'Every measure is taken from the ground line and along it towards the toe. Without a ground line and a direction there is nothing to measure from.',
  *onReading({ film }, { reading, taking }) {
    if (!taking.lack || reading.placings.length === 0) return;
    yield {
      at: reading.reader === null ? film.head : reading.at,
      message: t('Nothing can be measured yet: {0}', needs[film.view][taking.lack]),
    };
  },
};

export const noScale: Rule = {
  code: 'frame/no-scale',
  severity: 'info',
  title: 'No scale',
  about:
    'Without a scale angles and ratios can be measured, lengths cannot. A marker of known length in the plane of the foot gives one.',
  *onReading({ film, readings, stored, bone }, reading) {
    const first = readings.find((one) => one.taking.frame);
    // Of a scale that counts as none its own finding tells.
    if (reading !== first || reading.taking.scale !== null || reading.taking.oddSize) return;
    const without = t('angles and ratios are given, lengths are not');
    const marker = t('Give one with a marker of known length: scale 100 mm = x, y .. x, y.');
    if (film.scale?.kind === 'bone') {
      yield { at: film.scale.at, severity: 'warning', message: `${noBone(bone)} ${sentence(without)}. ${marker}` };
      return;
    }
    if (film.scale?.kind !== 'dicom') {
      yield {
        at: film.scale?.at ?? film.head,
        message: t('There is no scale: {0}. {1}', without, marker),
        fixes: film.scale === null && showsBones(film, reading) ? [fromBones(film)] : [],
      };
      return;
    }
    const lack =
      stored && 'lack' in stored ? stored.lack : t('The picture {0} cannot be looked at from here.', film.path.text);
    yield { at: film.scale.at, severity: 'warning', message: t('{0} So {1}. {2}', lack, without, marker) };
  },
};

/** Why `scale bone` gives none. */
function noBone(bone: BoneScale | null): string {
  if (!bone || 'input' in bone)
    return t(
      'The bones are not placed: a scale from them takes two of their lengths, p3.tip to p3.wing, p3.extensor to p3.wing, coffin.centre to pastern.centre.',
    );
  switch (bone.lack) {
    case 'no film':
      return t('A photograph shows no bone, so there is no scale from one.');
    case 'view':
      return t('Only a film from the side shows the lengths of bone that a scale can be taken from.');
    case 'young':
      return t('Its bones may still have grown (under three years), so they give no scale.');
    case 'alone':
      return t('No other film tells how large the bones are, so there is no scale.');
    case 'contradict':
      return t('The two films with a scale contradict each other, so there is no scale from them.');
  }
}

/** Whether two lengths of bone are placed. */
function showsBones({ kind, view }: Film, { reading }: StudiedReading): boolean {
  if (kind !== 'film' || view !== 'lateral') return false;
  const has = (name: string): boolean => reading.placings.some((one) => one.name === name);
  return steadyLengths.filter(({ from, to }) => has(from) && has(to)).length > 1;
}

const fromBones = ({ path: { at } }: Film): Fix => ({
  title: t('Take the scale from the bones on the other films'),
  edits: [{ start: at.end, end: at.end, text: '  scale bone', newLine: 'below' }],
});

const beginWith: Readonly<Record<View, string>> = spoken({
  lateral: 'p3.tip and p3.wing, the two ends of the bone’s solar margin',
  front: 'p3.medial and p3.lateral, the two ends of the bone’s solar margin',
  solar: 'heel.medial, heel.lateral and toe',
});

/** A photo shows no bone. */
const beginPhotoWith: Readonly<Record<View, string>> = spoken({
  lateral: 'toe.ground and heel.ground, where the foot meets the ground',
  front: 'wall.medial and wall.lateral, where the wall meets the ground',
  solar: beginWith.solar,
});

export const emptyFilm: Rule = {
  code: 'frame/no-landmark',
  severity: 'info',
  title: 'No landmark placed',
  about: 'A picture on which nothing is placed shows nothing that can be measured.',
  *onReading({ film }, { reading }) {
    if (reading.placings.length > 0) return;
    yield {
      at: reading.reader === null ? film.head : reading.at,
      message: t(
        'No landmark is placed yet. Begin with {0}.',
        (film.kind === 'photo' ? beginPhotoWith : beginWith)[film.view],
      ),
    };
  },
};
