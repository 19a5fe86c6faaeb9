import { t } from '../../language/words.ts';
import { cross, distance, vector, type Point } from '../../geometry/point.ts';
import { lengthOf, type Real } from '../../geometry/real.ts';
import type { XY } from '../../geometry/vector.ts';
import type { LandmarkName, View } from '../../notation/landmarks.ts';

/**
 * What holds of every foot however ill: above and below from the ground, ahead towards the toe (front view: towards the
 * outer side; solar view: `outside` is square to the toe). Only anatomy and the names themselves, no usual values.
 */
export interface OrderRow {
  readonly names: readonly [LandmarkName, LandmarkName];
  readonly needs: readonly LandmarkName[];
  /** The sense of the frame that the row has a say in; null for one that takes it as given. */
  readonly sense: 'ahead' | 'outside' | null;
  /** The name itself says it, so no foot can be otherwise. */
  readonly certain: boolean;
  /** Above 0 where all is well; in the frame's unit of length. */
  margin(place: (name: LandmarkName) => Point): Real;
  /** The same as a plain number, for the nearly always when all is well; NaN where a place is. */
  plainMargin(place: (name: LandmarkName) => XY): number;
  says(): string;
}

type TwoLandmarks = readonly [LandmarkName, LandmarkName];

const above = (...names: TwoLandmarks) =>
  row(names, null, () => t('«{0}» lies below «{1}»; on a foot it lies above it.', ...names), names, 'y');
const ahead = (...names: TwoLandmarks) =>
  row(names, 'ahead', () => t('«{0}» lies behind «{1}»; on a foot it lies nearer to the toe.', ...names), names, 'x');
const crosswise =
  (...names: TwoLandmarks) =>
  (): string =>
    t('«{0}» and «{1}» lie crosswise to the other pairs of inner and outer points.', ...names);
const acrossFront = (...names: TwoLandmarks) => sure(row(names, 'ahead', crosswise(...names), reversed(names), 'x'));
const acrossSole = (...names: TwoLandmarks) => sure(row(names, 'outside', crosswise(...names), reversed(names), 'y'));
const reversed = ([one, other]: TwoLandmarks): TwoLandmarks => [other, one];
const sure = (made: OrderRow): OrderRow => ({ ...made, certain: true });

/** All is well where the first has more of an axis than the second. */
function row(
  names: TwoLandmarks,
  sense: OrderRow['sense'],
  says: OrderRow['says'],
  [more, less]: TwoLandmarks,
  axis: 'x' | 'y',
): OrderRow {
  return {
    names,
    needs: names,
    sense,
    says,
    certain: false,
    margin: (place) => place(more)[axis].minus(place(less)[axis]),
    plainMargin: (place) => place(more)[axis] - place(less)[axis],
  };
}

/** A point on the toe side of a line that runs upwards, or on its heel side. */
function besideLine(name: LandmarkName, side: 'ahead' | 'behind', low: LandmarkName, high: LandmarkName): OrderRow {
  return {
    names: [name, name.endsWith('upper') ? high : low],
    needs: [name, low, high],
    sense: null,
    certain: false,
    says: () =>
      low === 'wall.lower'
        ? t(
            '«{0}» lies outside the line of the outer wall, «{1}» to «{2}»; from inside to outside come bone, inner edge of the horn, outer wall.',
            name,
            low,
            high,
          )
        : t(
            '«{0}» lies inside the line of the dorsal face of the bone, «{1}» to «{2}»; from inside to outside come bone, inner edge of the horn, outer wall.',
            name,
            low,
            high,
          ),
    margin(place) {
      const along = vector(place(low), place(high));
      const turn = cross(along, vector(place(low), place(name))).over(distance(place(low), place(high)));
      return side === 'behind' ? turn : turn.negated();
    },
    plainMargin(place) {
      const [at, from, to] = [place(name), place(low), place(high)];
      const [x, y] = [to.x - from.x, to.y - from.y];
      const turn = (x * (at.y - from.y) - y * (at.x - from.x)) / lengthOf(x, y);
      return side === 'behind' ? turn : -turn;
    },
  };
}

// prettier-ignore
const lateral: readonly OrderRow[] = [
  sure(ahead('p3.tip', 'p3.wing')),
  sure(ahead('toe.ground', 'heel.ground')),
  ahead('coronet.dorsal', 'coronet.heel'), ahead('breakover', 'heel.ground'), ahead('toe.ground', 'heel.upper'),
  ahead('wall.lower', 'heel.ground'), ahead('wall.lower', 'p3.wing'), ahead('p3.tip', 'p3.navicular'),
  ahead('p3.dorsal.upper', 'navicular.upper'), ahead('p3.dorsal.lower', 'navicular.lower'), ahead('p3.dorsal.lower', 'p3.navicular'),
  ahead('coffin.centre', 'navicular.upper'),
  ahead('p3.navicular', 'p3.wing'), ahead('p3.dorsal.upper', 'p3.wing'),
  ahead('sole.tip', 'sole.wing'), ahead('sole.tip', 'sole.heel'),
  above('p3.extensor', 'p3.tip'), above('p3.extensor', 'p3.wing'), above('p3.extensor', 'p3.dorsal.upper'),
  sure(above('p3.dorsal.upper', 'p3.dorsal.lower')), above('p3.dorsal.lower', 'p3.tip'),
  sure(above('navicular.upper', 'navicular.lower')),
  sure(above('pastern.centre', 'coffin.centre')), sure(above('fetlock.centre', 'pastern.centre')),
  above('coffin.centre', 'p3.tip'), above('coffin.centre', 'navicular.lower'),
  sure(above('wall.upper', 'wall.lower')), above('wall.top', 'wall.upper'), sure(above('coronet.dorsal', 'wall.top')),
  above('coronet.dorsal', 'wall.upper'), above('coronet.dorsal', 'wall.lower'),
  above('coronet.dorsal', 'wall.turn'), above('wall.turn', 'toe.ground'), above('wall.lower', 'toe.ground'),
  above('wall.lower', 'breakover'), above('wall.inner.lower', 'breakover'),
  besideLine('wall.upper', 'ahead', 'p3.dorsal.lower', 'p3.dorsal.upper'),
  besideLine('wall.lower', 'ahead', 'p3.dorsal.lower', 'p3.dorsal.upper'),
  sure(above('wall.inner.upper', 'wall.inner.lower')),
  besideLine('wall.inner.upper', 'behind', 'wall.lower', 'wall.upper'),
  besideLine('wall.inner.lower', 'behind', 'wall.lower', 'wall.upper'),
  besideLine('wall.inner.upper', 'ahead', 'p3.dorsal.lower', 'p3.dorsal.upper'),
  besideLine('wall.inner.lower', 'ahead', 'p3.dorsal.lower', 'p3.dorsal.upper'),
  sure(above('coronet.dorsal', 'toe.ground')), sure(above('coronet.heel', 'heel.ground')),
  above('coronet.heel', 'heel.upper'), sure(above('heel.upper', 'heel.ground')),
  above('heel.upper', 'sole.heel'),
  sure(above('p3.tip', 'sole.tip')), sure(above('p3.wing', 'sole.wing')),
];

const sides = ['medial', 'lateral'] as const;

// prettier-ignore
const front: readonly OrderRow[] = [
  acrossFront('p3.medial', 'p3.lateral'), acrossFront('joint.medial', 'joint.lateral'),
  acrossFront('coronet.medial', 'coronet.lateral'), acrossFront('wall.medial', 'wall.lateral'),
  ...sides.flatMap((side) => [sure(above(`coronet.${side}`, `wall.${side}`)), above(`joint.${side}`, `p3.${side}`)]),
];

// prettier-ignore
const solar: readonly OrderRow[] = [
  acrossSole('heel.medial', 'heel.lateral'), acrossSole('wide.medial', 'wide.lateral'),
  acrossSole('frog.medial', 'frog.lateral'), acrossSole('bar.medial', 'bar.lateral'),
  sure(ahead('frog.apex', 'frog.base')), sure(ahead('toe', 'frog.apex')),
  ...sides.flatMap((side) => [
    sure(ahead('toe', `wide.${side}`)), ahead(`wide.${side}`, `heel.${side}`), ahead(`bar.${side}`, `heel.${side}`),
    ahead('frog.apex', `frog.${side}`),
  ]),
];

export const orderRows: Readonly<Record<View, readonly OrderRow[]>> = { lateral, front, solar };
