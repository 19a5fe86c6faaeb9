import { soundCob, type FootParameters } from './parameters.ts';
import { at, type Point } from './plane.ts';
import type { View } from './view.ts';

export interface Film {
  name: string;
  foot: 'LF' | 'RF';
  taken: string;
  about: string;
  view: View;
  parameters: FootParameters;
  /** The 100 mm bar in the foot frame, mm, and where the lead letters lie on the film, px. */
  bar: { from: Point; to: Point };
  letters: Point;
  seed: number;
}

/** A 100 mm bar from its lower end, leaning a little as a hand sets it down. */
const bar = (x: number, y: number, lean: number): { from: Point; to: Point } => {
  const a = (lean * Math.PI) / 180;
  return { from: at(x, y), to: at(x + 100 * Math.sin(a), y + 100 * Math.cos(a)) };
};

/** Juniper's left fore in its first film: heels high, the wall parted from the bone, the sole thin under the tip. */
const juniperFirst: FootParameters = {
  ...soundCob,
  p3Angle: 47,
  palmarAngle: 13,
  rotation: 9,
  newRotation: 4,
  grownOut: 9,
  founderDistance: 9,
  hornLamellar: 18,
  lamellarUpper: 8.6,
  lamellarLower: 13,
  soleTip: 9.5,
  soleWing: 16.5,
  cup: 2,
  heelSurplus: 16,
  toeLength: 92,
  bearingLength: 130,
  heelAngle: 51,
  coronetAngle: 14,
  middleAngle: 54,
  proximalAngle: 52.5,
  cannonAngle: 85,
};

const juniperSecond: FootParameters = {
  ...juniperFirst,
  palmarAngle: 10,
  rotation: 7.3,
  newRotation: 3,
  grownOut: 17,
  founderDistance: 8.4,
  hornLamellar: 17.8,
  lamellarUpper: 8.4,
  lamellarLower: 12,
  soleTip: 10.8,
  soleWing: 16.5,
  heelSurplus: 11,
  toeLength: 90.5,
  bearingLength: 131,
  heelAngle: 50,
  coronetAngle: 16.5,
  middleAngle: 53.5,
  proximalAngle: 52,
  cannonAngle: 86.5,
};

const juniperThird: FootParameters = {
  ...juniperSecond,
  palmarAngle: 7.4,
  rotation: 5.6,
  newRotation: 2.5,
  grownOut: 24.5,
  founderDistance: 7.7,
  hornLamellar: 17.6,
  lamellarUpper: 8.2,
  lamellarLower: 10.8,
  soleTip: 12.4,
  soleWing: 17,
  heelSurplus: 6.5,
  toeLength: 89.5,
  heelAngle: 49,
  coronetAngle: 19,
  middleAngle: 53,
  proximalAngle: 51.5,
  cannonAngle: 84.5,
};

const juniperFourth: FootParameters = {
  ...juniperThird,
  palmarAngle: 5,
  rotation: 3.9,
  newRotation: 2,
  grownOut: 32,
  founderDistance: 7.2,
  hornLamellar: 17.4,
  lamellarUpper: 8,
  lamellarLower: 9.8,
  soleTip: 14,
  soleWing: 17.5,
  heelSurplus: 2,
  toeLength: 88.5,
  bearingLength: 132,
  heelAngle: 47.5,
  coronetAngle: 21,
  middleAngle: 52,
  proximalAngle: 51,
  cannonAngle: 86,
};

/** Donkeys' feet are small and upright, and their axis is often a little broken forward. */
const thistleRight: FootParameters = {
  ...soundCob,
  size: 0.74,
  p3Dorsal: 51,
  p3Solar: 74,
  p1Length: 76,
  p3Angle: 56,
  palmarAngle: 8,
  rotation: 2,
  founderDistance: 5,
  softCoronet: 8,
  hornLamellar: 13.5,
  lamellarUpper: 5.8,
  lamellarLower: 6.4,
  soleTip: 11,
  soleWing: 14,
  cup: 1.5,
  heelSurplus: 2,
  toeLength: 65,
  bearingLength: 88,
  breakoverBack: 1.5,
  heelAngle: 60,
  coronetAngle: 22,
  middleAngle: 60,
  proximalAngle: 57,
  cannonAngle: 88,
};

/** No two films are set up alike: scale, tilt, place, size and grain differ. */
export const films: Film[] = [
  {
    name: 'bramble-lf-2026-02-10',
    foot: 'LF',
    taken: '2026-02-10',
    about: 'Bramble, sound cob mare, left fore',
    view: { width: 1400, height: 1200, mmPerPx: 0.18, toe: 'left', tilt: 0.8, origin: at(420, 1040) },
    parameters: soundCob,
    bar: bar(58, 8, 2),
    letters: at(90, 120),
    seed: 1101,
  },
  {
    name: 'bramble-rf-2026-02-10',
    foot: 'RF',
    taken: '2026-02-10',
    about: 'Bramble, sound cob mare, right fore',
    view: { width: 1400, height: 1200, mmPerPx: 0.18, toe: 'right', tilt: -0.5, origin: at(985, 1035) },
    parameters: {
      ...soundCob,
      palmarAngle: 4.2,
      rotation: 0.6,
      founderDistance: 4.6,
      hornLamellar: 16.2,
      soleTip: 15.8,
      soleWing: 18.8,
      heelSurplus: 2,
      toeLength: 84.2,
      bearingLength: 134,
      heelAngle: 48.4,
      coronetAngle: 21.8,
      middleAngle: 52.4,
      proximalAngle: 51,
      cannonAngle: 88,
    },
    bar: bar(60, 6, -1.5),
    letters: at(1190, 110),
    seed: 1102,
  },
  {
    name: 'juniper-lf-2026-03-03',
    foot: 'LF',
    taken: '2026-03-03',
    about: 'Juniper, cob gelding, left fore, first film',
    view: { width: 1400, height: 1200, mmPerPx: 0.182, toe: 'left', tilt: 1.6, origin: at(430, 1030) },
    parameters: juniperFirst,
    bar: bar(62, 5, 3),
    letters: at(120, 140),
    seed: 1201,
  },
  {
    name: 'juniper-lf-2026-03-31',
    foot: 'LF',
    taken: '2026-03-31',
    about: 'Juniper, left fore, four weeks on',
    view: { width: 1440, height: 1180, mmPerPx: 0.176, toe: 'left', tilt: -0.9, origin: at(452, 1032) },
    parameters: juniperSecond,
    bar: bar(56, 12, -2),
    letters: at(100, 90),
    seed: 1202,
  },
  {
    name: 'juniper-lf-2026-04-28',
    foot: 'LF',
    taken: '2026-04-28',
    about: 'Juniper, left fore, eight weeks on',
    view: { width: 1360, height: 1200, mmPerPx: 0.186, toe: 'left', tilt: 0.4, origin: at(405, 1052) },
    parameters: juniperThird,
    bar: bar(60, 4, 1),
    letters: at(150, 110),
    seed: 1203,
  },
  {
    name: 'juniper-lf-2026-05-26',
    foot: 'LF',
    taken: '2026-05-26',
    about: 'Juniper, left fore, twelve weeks on',
    view: { width: 1400, height: 1160, mmPerPx: 0.179, toe: 'left', tilt: 2.2, origin: at(436, 1000) },
    parameters: juniperFourth,
    bar: bar(57, 9, -3),
    letters: at(250, 100),
    seed: 1204,
  },
  {
    name: 'thistle-rf-2026-03-17',
    foot: 'RF',
    taken: '2026-03-17',
    about: 'Thistle, donkey, right fore',
    view: { width: 1320, height: 1200, mmPerPx: 0.14, toe: 'right', tilt: -1.2, origin: at(935, 1030) },
    parameters: thistleRight,
    bar: bar(38, 6, 2),
    letters: at(1100, 100),
    seed: 1301,
  },
];
