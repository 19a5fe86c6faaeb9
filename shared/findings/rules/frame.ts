import type { FrameLack } from '../../geometry/frame.ts';
import type { Rule } from '../rule.ts';

const lacks: Readonly<Record<FrameLack, string>> = {
  ground: 'Nothing can be measured yet: place the ground line (ground x, y .. x, y), or both heel.ground and toe.ground.',
  direction: 'Nothing can be measured yet: it is not clear which way the foot faces. Place p3.tip and p3.wing, or heel.ground and toe.ground.',
  'flat-ground': 'Nothing can be measured yet: heel.ground and toe.ground are the same point, so there is no ground line.',
};

export const noFrame: Rule = {
  code: 'frame/missing',
  severity: 'warning',
  title: 'No foot frame',
  about: 'Every measure is taken from the ground line and along it towards the toe. Without a ground line and a direction there is nothing to measure from.',
  *onReading({ film }, { reading, taking }) {
    if (!taking.lack || reading.placings.length === 0) return;
    yield { at: reading.reader === null ? film.head : reading.at, message: lacks[taking.lack] };
  },
};

export const noScale: Rule = {
  code: 'frame/no-scale',
  severity: 'info',
  title: 'No scale',
  about: 'Without a scale angles and ratios can be measured, lengths cannot. A marker of known length in the plane of the foot gives one.',
  *onReading({ film, readings }, reading) {
    const first = readings.find((one) => one.taking.frame);
    if (reading !== first || reading.taking.scale !== null) return;
    yield {
      at: film.scale?.at ?? film.head,
      message: film.scale?.kind === 'dicom'
        ? 'The scale stored in a DICOM picture is not read by this version: angles and ratios are given, lengths are not. Give the marker’s two ends instead: scale 100 mm = x, y .. x, y.'
        : 'There is no scale: angles and ratios are given, lengths are not. Give one with a marker of known length: scale 100 mm = x, y .. x, y.',
    };
  },
};

export const emptyFilm: Rule = {
  code: 'frame/no-landmark',
  severity: 'info',
  title: 'No landmark placed',
  about: 'A picture on which nothing is placed shows nothing that can be measured.',
  *onReading({ film }, { reading }) {
    if (reading.placings.length > 0) return;
    yield { at: reading.reader === null ? film.head : reading.at, message: 'No landmark is placed yet. Begin with p3.tip and p3.wing, the two ends of the bone’s solar margin.' };
  },
};

export const otherView: Rule = {
  code: 'frame/view-not-measured',
  severity: 'hint',
  title: 'View not measured',
  about: 'Front and solar pictures are kept and shown; this version measures lateral ones only.',
  *onReading({ film }, { reading }) {
    if (film.view === 'lateral' || reading.placings.length === 0) return;
    yield { at: film.head, message: `The ${film.view} view is kept and shown; this version measures lateral pictures only.` };
  },
};
