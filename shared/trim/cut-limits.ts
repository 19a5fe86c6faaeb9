import type { Frame } from '../geometry/frame.ts';
import type { Real } from '../geometry/real.ts';
import type { MeasureName } from '../measures/names.ts';
import { findMeasure } from '../measures/registry.ts';
import { chanceOfNoneBelow } from './chance.ts';
import { mostAtHeel } from './heels.ts';
import { hornLeft } from './predict.ts';
import {
  cutOfNothing,
  heightOver,
  isBent,
  newPlanes,
  offToe,
  planeUnder,
  standAfter,
  type CutSize,
  type Footing,
  type SolePlace,
  type Stance,
  type StoodAfter,
} from './stand.ts';

export type { SolePlace } from './stand.ts';

/** What the limits of cuts are on one foot of one case, as plain data, so that the page where a cut is tried has them too. */
export interface CutFigures {
  /** Degrees that one visit may turn the bone by. */
  readonly turn: number;
  /** mm of horn that stay outside the lamellae at the toe. */
  readonly horn: number;
  /** The lowest palmar angle, degrees; null where there is none. */
  readonly palmarAngle: number | null;
  /** mm of sole below which none of it may be cut, under the tip and under the wing; null where there is no such line. */
  readonly soleTip: number | null;
  readonly soleWing: number | null;
  /** Capsular rotation from which on the toe keeps its height, degrees; null where there is no such line. */
  readonly rotation: number | null;
  /** What is agreed for this case of measures that no other limit holds, in the measure's unit. */
  readonly agreed: readonly AgreedLimit[];
}

export interface AgreedLimit {
  /** Its name. */
  readonly measure: string;
  readonly side: 'low' | 'high';
  readonly at: number;
}

/** How much is left of one limit: a number, in mm or degrees, that is below 0 where the limit is broken. */
interface MarginRow {
  readonly place?: SolePlace;
  readonly margin: Real;
  /** Of a limit that is agreed for the case. */
  readonly agreed?: AgreedLimit;
  /** It counts for how sure a cut is though the cut, as placed, takes nothing of it: another placing may. */
  readonly perhaps?: true;
}

interface CutOnItsLine {
  readonly foot: Footing;
  readonly size: CutSize;
  readonly stance: Stance;
  readonly stood: StoodAfter;
}

interface CutLimitRow {
  /** Code of the finding that tells of it. */
  readonly code: string;
  /** Rounding is no breach: what is broken by no more than this is not told. mm or degrees. */
  readonly breath: number;
  /** The margins that this cut touches; none where it does not, or where the film does not say. */
  margins(cut: CutOnItsLine, figures: CutFigures): readonly MarginRow[];
}

const hair = 1e-3;

/** Beyond 1.96 standard deviations something is sure: two sides of 95 %. */
const SURELY = 1.96;

/** mm under the tip above which the toe may be lowered where no line of the case says otherwise. */
const soleUnderToe = 12;

/** mm of lamellae where the inner edge of the horn is not placed (Skelton 2025). */
export const usualLamellae = 7;

/** Every limit that a plan keeps to and that is told where a written cut breaks it. */
export const cutLimits: readonly CutLimitRow[] = [
  {
    code: 'trim/below-sole-plane',
    breath: hair,
    margins: ({ foot, stood, size }) => {
      const most = mostAtHeel(foot, size);
      return most ? row(measured(stood.before, 'heel-surplus')?.minus(most.taken)) : [];
    },
  },
  {
    code: 'trim/live-sole',
    breath: 0.05,
    margins: (cut) => solePlaces.flatMap((place) => [...row(heightOfSole(cut, place), place), ...nearBend(cut, place)]),
  },
  {
    code: 'trim/palmar-angle',
    breath: hair,
    margins: ({ stood }, { palmarAngle }) =>
      palmarAngle === null ? [] : row(measured(stood.frame, 'palmar-angle')?.minus(palmarAngle)),
  },
  {
    code: 'trim/sole-depth',
    breath: 0.05,
    margins: (cut, { soleTip, soleWing }) => [
      ...row(thinned(cut, 'tip', soleTip), 'tip'),
      ...row(thinned(cut, 'wing', soleWing), 'wing'),
    ],
  },
  {
    code: 'trim/turn-per-visit',
    breath: hair,
    margins: ({ stood: { turnedAtVisit: by } }, { turn }) => {
      const turned = by.value < 0 ? by.negated() : by;
      return row(turned.times(-180 / Math.PI).plus(turn));
    },
  },
  {
    code: 'trim/wall-left',
    breath: hair,
    margins: ({ foot, size }, { horn }) => {
      if (size.toeBack <= 0) return [];
      const left = hornLeft(foot, size);
      const zone = measured(foot.frame, 'lamellar-zone.lower');
      return row(left && (zone ? left.minus(zone) : left.minus(usualLamellae)).minus(horn));
    },
  },
  {
    code: 'trim/toe-shortened',
    breath: hair,
    // How sure it has to be is in the limit itself, so that its margin is a plain number.
    margins: ({ stood: { before, cut } }, { rotation, soleTip }) => {
      if (offToe(cut) <= 0) return [];
      const turned = surely(before, 'capsular-rotation', 1);
      const sole = surely(before, 'sole-depth.tip', -1);
      const margins = [
        ...(turned === null || rotation === null ? [] : [rotation - turned]),
        ...(sole === null ? [] : [sole - (soleTip ?? soleUnderToe)]),
      ];
      return margins.length === 0 ? [] : row(before.graph.constant(Math.min(...margins)));
    },
  },
  {
    code: 'trim/agreed',
    breath: hair,
    margins: ({ stood, size }, { agreed }) =>
      agreed.flatMap((limit) => {
        const measure = findMeasure(limit.measure);
        // On two planes one of the contacts is in the air.
        const inAir =
          isBent(size) && measure?.needs.includes('heel.ground') === true && measure.needs.includes('toe.ground');
        // What does not come from the stood foot alone has no margin here.
        const value = measure && measure.afterCut === null && !inAir ? measure.of(stood.frame)?.value : undefined;
        if (!value) return [];
        return [
          { margin: limit.side === 'low' ? value.minus(limit.at) : value.negated().plus(limit.at), agreed: limit },
        ];
      }),
  },
];

const solePlaces = ['tip', 'wing', 'heel'] as const;

function row(margin: Real | null | undefined, place?: SolePlace): MarginRow[] {
  return margin ? [place === undefined ? { margin } : { margin, place }] : [];
}

function measured(frame: Frame, name: MeasureName): Real | undefined {
  return findMeasure(name)?.of(frame)?.value;
}

/** Whether a value lies under a line, or over it, whatever the placings' errors. */
export function surelyBeyond(
  { value, sd }: { readonly value: number; readonly sd: number },
  line: number,
  side: 'under' | 'over',
): boolean {
  return side === 'under' ? value + SURELY * sd < line : value - SURELY * sd > line;
}

/** A value, as far out on one side as the placing may have it. */
function surely(frame: Frame, name: MeasureName, side: 1 | -1): number | null {
  const value = measured(frame, name);
  return value ? value.value + side * SURELY * frame.graph.deviation(value) : null;
}

/** Whether sole lies in front of the bend of a cut on two planes. */
function isInFront({ stood: { before, cut } }: CutOnItsLine, place: SolePlace): boolean {
  const sole = before.at(`sole.${place}`);
  const bend = isBent(cut) ? newPlanes(before, cut)?.bend : null;
  return sole !== undefined && bend !== null && bend !== undefined && sole.x.value >= bend.x.value;
}

/** How far the sole stands above the new plane that it lies over, square to it, mm; below 0 where that cuts into it. */
function heightOfSole({ stood: { before, cut } }: CutOnItsLine, place: SolePlace): Real | undefined {
  const sole = before.at(`sole.${place}`);
  const planes = newPlanes(before, cut);
  return sole && planes ? heightOver(planeUnder(planes, sole), sole) : undefined;
}

/**
 * Sole that lies in front of a bend may lie behind it by another placing, where the heel's plane takes it. What is left of the limit
 * then is its height over that plane; of sole that is under the front plane already, how much less of it the heel's plane would leave.
 */
function nearBend({ stood: { before, cut } }: CutOnItsLine, place: SolePlace): MarginRow[] {
  const sole = before.at(`sole.${place}`);
  const planes = isBent(cut) ? newPlanes(before, cut) : null;
  if (!sole || !planes?.bend) return [];
  const overHeel = heightOver([planes.heel, planes.bend], sole);
  const overFront = heightOver([planes.bend, planes.toe], sole);
  if (overFront.value < 0) return [{ margin: overHeel.minus(overFront), place, perhaps: true }];
  return sole.x.value < planes.bend.x.value ? [] : [{ margin: overHeel, place, perhaps: true }];
}

/**
 * Thinning is what is cut of the sole: it is wrong where sole is cut and less than the line is left of it. Its error is that of the cut
 * into the sole, without which there is no thinning, however thin the sole.
 */
function thinned(cut: CutOnItsLine, place: 'tip' | 'wing', line: number | null): Real | undefined {
  // The heel's plane takes nothing of sole that lies in front of the bend: its depth is asked where the foot stands on that part.
  if (cut.stance === 'heels' && isInFront(cut, place)) return undefined;
  const height = heightOfSole(cut, place);
  const depth = measured(cut.stood.frame, `sole-depth.${place}`);
  if (!height || !depth || line === null) return undefined;
  return height.plus(Math.max(0, depth.value - line - height.value));
}

/** What is left of one limit after a cut, mm or degrees: below 0 where it is broken. */
export interface Margin {
  readonly code: string;
  /** Where a limit is held at several places. */
  readonly place: SolePlace | null;
  /** Of a limit that is agreed for the case; else null. */
  readonly agreed: AgreedLimit | null;
  readonly value: number;
  /** One standard deviation, from the placings. */
  readonly sd: number;
  /** The cut takes of it. What a cut does not touch it cannot break, and what was broken before may lose nothing more. */
  readonly lost: boolean;
  /** Lost, and below 0 by more than a breath: the one thing that is called broken. */
  readonly broken: boolean;
}

/** A cut held against every limit. */
export interface JudgedCut {
  readonly margins: readonly Margin[];
  /** No limit is broken, not by a breath. */
  readonly holds: boolean;
}

interface TakenRow extends MarginRow, Pick<CutLimitRow, 'code' | 'breath'> {
  readonly lost: boolean;
}

/** Holds cuts of one foot against its limits. All that judges a cut asks here: rules, solver, fixes, slider, command line. */
export class CutJudge {
  readonly foot: Footing;
  readonly figures: CutFigures;
  private uncut: ReadonlyMap<string, number> | null = null;

  constructor(foot: Footing, figures: CutFigures) {
    this.foot = foot;
    this.figures = figures;
  }

  /** Null where the cut cannot be predicted. */
  of(size: CutSize): JudgedCut | null {
    return this.judged(size, (rows) => ({
      margins: rows.map(({ code, breath, place = null, agreed = null, margin, lost }): Margin => {
        const { value } = margin;
        const sd = margin.graph.deviation(margin);
        return { code, place, agreed, value, sd, lost, broken: lost && value < -breath };
      }),
      holds: rows.every(isHeld),
    }));
  }

  /** Whether a cut can be predicted and breaks no limit, with a chance of at least `sure`, 0 to 1, by the errors of the placings. */
  keeps(size: CutSize, sure: number): boolean {
    return this.judged(size, (rows) => rows.every(isHeld) && (sure <= 0 || chanceOf(rows, sure) >= sure)) ?? false;
  }

  /** The chance that a cut breaks no limit, 0 to 1; null where it cannot be predicted. */
  chance(size: CutSize): number | null {
    return this.judged(size, (rows) => chanceOf(rows, null));
  }

  private judged<T>(size: CutSize, ask: (rows: readonly TakenRow[]) => T): T | null {
    const { foot, figures } = this;
    const before = (this.uncut ??= this.marginsUncut());
    return foot.frame.graph.scratch(() => {
      const rows = rowsOf(foot, size, figures);
      return (
        rows &&
        ask(
          rows.map((one) => {
            const was = before.get(keyOf(one));
            const lost = one.perhaps === true || was === undefined || one.margin.value < was - 1e-9;
            return { ...one, lost };
          }),
        )
      );
    });
  }

  private marginsUncut(): ReadonlyMap<string, number> {
    const { foot, figures } = this;
    return foot.frame.graph.scratch(() => {
      const rows = rowsOf(foot, cutOfNothing, figures) ?? [];
      return new Map(rows.map((one) => [keyOf(one), one.margin.value]));
    });
  }
}

const keyOf = ({ code, place, agreed, perhaps }: Pick<TakenRow, 'code' | 'place' | 'agreed' | 'perhaps'>): string =>
  `${code} ${place ?? ''}${agreed ? `${agreed.measure} ${agreed.side}` : ''}${perhaps ? ' perhaps' : ''}`;

/** A number that is 0 on paper is not always 0 in the last bit. */
const nought = -1e-9;

const isHeld = ({ lost, margin }: TakenRow): boolean => !lost || margin.value >= nought;

/** Of a cut on two planes each limit in the stance that leaves less of it. Only within `scratch`. */
function rowsOf(foot: Footing, size: CutSize, figures: CutFigures): Omit<TakenRow, 'lost'>[] | null {
  const onHeels = rowsIn('heels', foot, size, figures);
  if (!onHeels || !isBent(size)) return onHeels;
  const onToe = rowsIn('toe', foot, size, figures) ?? [];
  const worst = new Map(onHeels.map((one) => [keyOf(one), one]));
  for (const one of onToe) {
    const other = worst.get(keyOf(one));
    if (!other || one.margin.value < other.margin.value) worst.set(keyOf(one), one);
  }
  return [...worst.values()];
}

function rowsIn(stance: Stance, foot: Footing, size: CutSize, figures: CutFigures): Omit<TakenRow, 'lost'>[] | null {
  const stood = standAfter(foot, size, stance);
  if (!stood || !foot.frame.scale) return null;
  return cutLimits.flatMap(({ code, breath, margins }) =>
    margins({ foot, size, stance, stood }, figures).map((one) => ({ ...one, code, breath })),
  );
}

/** `atLeast`: where the chance is surely below this it may be any number below it. */
function chanceOf(rows: readonly TakenRow[], atLeast: number | null): number {
  // What lies so far from its limit is no part of any chance that counts.
  const near = ({ margin }: TakenRow): boolean => !(margin.value > farOff * margin.graph.deviation(margin));
  const lost = rows.filter((one) => one.lost && near(one));
  const [first] = lost;
  if (!first) return 1;
  const { graph } = first.margin;
  const means = lost.map(({ margin }) => margin.value);
  if (atLeast !== null) {
    // All together hold no oftener than the one that holds least often.
    const least = Math.min(...lost.map(({ margin }) => alone(margin.value, graph.deviation(margin))));
    if (least < atLeast) return least;
  }
  const covariance = lost.flatMap((one) => lost.map((other) => graph.covariance(one.margin, other.margin)));
  return chanceOfNoneBelow({ means, covariance });
}

/** Standard deviations. */
const farOff = 6;

const alone = (mean: number, sd: number): number => chanceOfNoneBelow({ means: [mean], covariance: [sd * sd] });
