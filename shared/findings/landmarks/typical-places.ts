import type { LandmarkName, View } from '../../notation/landmarks.ts';

export type Place = readonly [x: number, y: number];

type Typical = Readonly<Partial<Record<LandmarkName, Place>>>;

/**
 * About where each landmark lies in a sound foot, mm: enough to tell a slip of a hand's breadth, and never a standard for
 * a foot. A judgement of ours: rounded from the sound foot that the examples draw, and from the usual shape of a fore foot.
 */
const lateral = {
  'p3.tip': [0, 18],
  'p3.wing': [-82, 25],
  'p3.wing.other': [-82, 25],
  'p3.extensor': [-32, 60],
  'p3.dorsal.upper': [-24, 50],
  'p3.dorsal.lower': [-6, 28],
  'p3.navicular': [-61, 40],
  'coffin.centre': [-53, 55],
  'pastern.centre': [-80, 91],
  'fetlock.centre': [-129, 152],
  'navicular.upper': [-75, 45],
  'navicular.lower': [-64, 32],
  'wall.upper': [-8, 56],
  'wall.lower': [20, 19],
  'wall.turn': [6, 38],
  'wall.top': [-14, 64],
  'wall.inner.upper': [-18, 54],
  'wall.inner.lower': [-1, 32],
  'coronet.dorsal': [-20, 72],
  'coronet.heel': [-132, 26],
  'toe.ground': [24, 0],
  'heel.ground': [-109, 0],
  breakover: [22, 0],
  'heel.upper': [-128, 22],
  'sole.tip': [0, 2],
  'sole.wing': [-82, 7],
  'sole.heel': [-101, 3],
} as const satisfies Typical;

const front = {
  'p3.medial': [-38, 20],
  'p3.lateral': [38, 20],
  'joint.medial': [-27, 50],
  'joint.lateral': [27, 50],
  'coronet.medial': [-48, 67],
  'coronet.lateral': [48, 67],
  'wall.medial': [-60, 0],
  'wall.lateral': [60, 0],
} as const satisfies Typical;

const solar = {
  toe: [0, 122],
  'frog.apex': [0, 78],
  'frog.base': [0, -4],
  'frog.medial': [-23, 8],
  'frog.lateral': [23, 8],
  'heel.medial': [-33, 0],
  'heel.lateral': [33, 0],
  'wide.medial': [-58, 62],
  'wide.lateral': [58, 62],
  'bar.medial': [-15, 40],
  'bar.lateral': [15, 40],
} as const satisfies Typical;

export const typicalPlaces: Readonly<Record<View, ReadonlyMap<string, Place>>> = {
  lateral: new Map(Object.entries(lateral)),
  front: new Map(Object.entries(front)),
  solar: new Map(Object.entries(solar)),
};
