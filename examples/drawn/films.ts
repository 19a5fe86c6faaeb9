import { flatter, sunk } from './changes.ts';
import { soundCob, type FootParameters } from './parameters.ts';
import type { Shoe } from './shoe.ts';
import { at, type Point } from './plane.ts';
import type { View } from './view.ts';

export interface Film {
  name: string;
  foot: 'LF' | 'RF';
  taken: string;
  about: string;
  view: View;
  parameters: FootParameters;
  /** What it stands on; bare where there is none. */
  shoe?: Shoe;
  /** The 100 mm bar in the foot frame, mm, and where the lead letters lie on the film, px. */
  bar: { from: Point; to: Point };
  letters: Point;
  seed: number;
  /** The bar was forgotten: it is not drawn. */
  isUnmarked?: true;
  /** 1 where it is left out. */
  grain?: number;
}

/** A 100 mm bar from its lower end, leaning a little as a hand sets it down. */
export const bar = (x: number, y: number, lean: number): { from: Point; to: Point } => {
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

/** Sorrel's left fore in its first film: tall heels on a sound foot with a deep sole. */
const sorrelFirst: FootParameters = {
  ...soundCob,
  size: 1.12,
  palmarAngle: 9.9,
  founderDistance: 3.2,
  softCoronet: 11,
  hornLamellar: 17.2,
  soleTip: 16.5,
  soleWing: 19.5,
  cup: 7,
  heelSurplus: 18,
  toeLength: 93,
  bearingLength: 141,
  heelAngle: 53,
  coronetAngle: 17,
  middleAngle: 54.5,
  proximalAngle: 52,
};
/** Two trims that lower the heels: the whole foot stands flatter, and nothing moves in the capsule. */
const sorrelSecond = flatter(sorrelFirst, 3.5);
const sorrelThird = flatter(sorrelSecond, 3.4);

/** Teasel's left fore in her first film; from film to film the bone comes to lie 0.9 mm lower in the capsule. */
const teaselFirst: FootParameters = {
  ...soundCob,
  size: 1,
  palmarAngle: 5.5,
  rotation: 1,
  founderDistance: 3.6,
  hornLamellar: 14.6,
  lamellarUpper: 5.4,
  lamellarLower: 5.9,
  soleTip: 16.4,
  soleWing: 18.6,
  toeLength: 82,
  bearingLength: 127,
  coronetAngle: 22,
};
const teasel = (mm: number, degrees: number): FootParameters => flatter(sunk(teaselFirst, mm), degrees);

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
  {
    name: 'sorrel-lf-2026-04-14',
    foot: 'LF',
    taken: '2026-04-14',
    about: 'Sorrel, riding mare, left fore, first film',
    view: { width: 770, height: 680, mmPerPx: 0.345, toe: 'left', tilt: 0.9, origin: at(232, 592) },
    parameters: sorrelFirst,
    bar: bar(60, 6, 2),
    letters: at(60, 60),
    seed: 1401,
  },
  {
    name: 'sorrel-lf-2026-05-12',
    foot: 'LF',
    taken: '2026-05-12',
    about: 'Sorrel, left fore, after the first trim',
    view: { width: 780, height: 680, mmPerPx: 0.34, toe: 'left', tilt: -0.7, origin: at(240, 590) },
    parameters: sorrelSecond,
    bar: bar(58, 8, -2),
    letters: at(56, 50),
    seed: 1402,
  },
  {
    name: 'sorrel-lf-2026-06-09',
    foot: 'LF',
    taken: '2026-06-09',
    about: 'Sorrel, left fore, after the second trim',
    view: { width: 760, height: 680, mmPerPx: 0.35, toe: 'left', tilt: 1.4, origin: at(226, 586) },
    parameters: sorrelThird,
    bar: bar(61, 5, 1),
    letters: at(64, 56),
    seed: 1403,
  },
  {
    name: 'teasel-lf-2026-02-18',
    foot: 'LF',
    taken: '2026-02-18',
    about: 'Teasel, native mare, left fore, first film',
    view: { width: 760, height: 650, mmPerPx: 0.33, toe: 'left', tilt: 0.6, origin: at(230, 568) },
    parameters: teasel(0, 0),
    bar: bar(56, 7, 2),
    letters: at(58, 60),
    seed: 1501,
  },
  {
    name: 'teasel-lf-2026-03-18',
    foot: 'LF',
    taken: '2026-03-18',
    about: 'Teasel, left fore, four weeks on',
    view: { width: 770, height: 650, mmPerPx: 0.325, toe: 'left', tilt: -0.8, origin: at(238, 564) },
    parameters: teasel(0.9, 0.4),
    bar: bar(57, 6, -1),
    letters: at(52, 54),
    seed: 1502,
  },
  {
    name: 'teasel-lf-2026-04-15',
    foot: 'LF',
    taken: '2026-04-15',
    about: 'Teasel, left fore, eight weeks on',
    view: { width: 750, height: 660, mmPerPx: 0.335, toe: 'left', tilt: 1.1, origin: at(224, 570) },
    parameters: teasel(1.8, -0.3),
    bar: bar(55, 9, 1.5),
    letters: at(60, 52),
    seed: 1503,
  },
  {
    name: 'teasel-lf-2026-05-13',
    foot: 'LF',
    taken: '2026-05-13',
    about: 'Teasel, left fore, twelve weeks on',
    view: { width: 760, height: 650, mmPerPx: 0.328, toe: 'left', tilt: -0.4, origin: at(232, 566) },
    parameters: teasel(2.7, 0.5),
    bar: bar(58, 5, -2.5),
    letters: at(66, 60),
    seed: 1504,
  },
  {
    name: 'teasel-lf-2026-06-10',
    foot: 'LF',
    taken: '2026-06-10',
    about: 'Teasel, left fore, sixteen weeks on',
    view: { width: 770, height: 660, mmPerPx: 0.332, toe: 'left', tilt: 0.8, origin: at(230, 574) },
    parameters: teasel(3.6, 0.1),
    bar: bar(56, 8, 2.5),
    letters: at(58, 64),
    seed: 1505,
  },
  {
    name: 'larch-lf-2026-03-09',
    foot: 'LF',
    taken: '2026-03-09',
    about: 'Larch, driving gelding, left fore, on a shoe with a wedge',
    view: { width: 780, height: 720, mmPerPx: 0.34, toe: 'left', tilt: -2.6, origin: at(240, 580) },
    parameters: {
      ...soundCob,
      size: 1.1,
      palmarAngle: 3.5,
      coronetAngle: 23,
      toeLength: 88,
      bearingLength: 138,
      soleTip: 17,
      heelAngle: 48,
    },
    shoe: { thickness: 10, wedge: 3, paste: true },
    bar: bar(60, 4, -1),
    letters: at(60, 60),
    seed: 1601,
  },
];
