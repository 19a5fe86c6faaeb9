import type { Frame } from '../geometry/frame.ts';
import { degrees } from '../geometry/point.ts';
import type { Real } from '../geometry/real.ts';
import type { MeasureName } from '../measures/names.ts';
import { findMeasure, measuresIn, type Measure } from '../measures/registry.ts';
import { valueIn, valuesIn, type Value, type Values } from '../measures/take.ts';
import {
  cutOfNothing,
  isBent,
  seenFromSide,
  standAfter,
  standSeen,
  stands,
  type CutSize,
  type Footing,
  type SoleCut,
  type Stance,
  type Stood,
  type StoodAfter,
} from './stand.ts';

/** After a cut on two planes all of it is of the foot on its heels, and `onToe` has the other. */
export interface Prediction {
  /** The same foot on its front part, with the heel in the air; null after a cut on one plane. */
  readonly onToe: Prediction | null;
  /** Degrees that the foot turns: positive where the heel is lowered more. */
  readonly delta: number;
  readonly values: Values;
  /** One of the values, where the others are not wanted. */
  value(name: MeasureName): Value | undefined;
  /** Live sole taken at each place, mm; null where its landmark is not placed. */
  readonly soleCut: SoleCut;
  /** One standard deviation of each, mm; 0 where nothing is cut. */
  readonly soleCutSd: Stood['soleCutSd'];
  /** Horn and lamellae left at the toe after it is brought back, mm. */
  readonly wallLeft: number | null;
  readonly wallLeftSd: number | null;
}

/**
 * What a cut would leave: the foot stands on the new line from heel to toe and is measured anew in its frame, so
 * every measure that the film supports is predicted, with its standard deviation. Null where the film has no scale or
 * no bearing surface. A cut of nothing predicts what was measured.
 */
export function predictAtOnce(foot: Footing, cut: CutSize): Prediction | null {
  return predict(foot, cut)?.settled() ?? null;
}

/** The same, measured when it is asked for. Only for as long as the frame's places are noted, as those of a film always are. */
export function predict(foot: Footing, cut: CutSize): LazyPrediction | null {
  return stands(foot, cut) ? new LazyPrediction(foot, cut) : null;
}

/** What a foot measures as it stands, before anything more is cut; null where that cannot be told. */
export function valuesOf(foot: Footing): Values | null {
  if (foot.earlier.length === 0) return valuesIn('lateral', foot.frame);
  return predictAtOnce(foot, cutOfNothing)?.values ?? null;
}

class LazyPrediction implements Prediction {
  private readonly foot: Footing;
  private readonly cut: CutSize;
  private all: Values | null = null;
  private readonly known = new Map<MeasureName, Value | undefined>();
  private line: Bearing | null = null;
  private wall: Wall | null = null;
  readonly onToe: LazyPrediction | null;
  private readonly stance: Stance;

  constructor(foot: Footing, cut: CutSize, stance: Stance = 'heels') {
    this.foot = foot;
    this.cut = cut;
    this.stance = stance;
    this.onToe = isBent(cut) && stance === 'heels' ? new LazyPrediction(foot, cut, 'toe') : null;
  }

  get delta(): number {
    return this.bearing().delta;
  }

  get soleCut(): SoleCut {
    return this.bearing().soleCut;
  }

  get soleCutSd(): Stood['soleCutSd'] {
    return this.bearing().soleCutSd;
  }

  get values(): Values {
    this.all ??= this.standing((stood) => {
      const values = new Map(valuesIn('lateral', stood.frame));
      correct(this.foot.frame, stood.turned, values);
      if (isBent(this.cut)) for (const name of byBothContacts) values.delete(name);
      return values;
    });
    return this.all;
  }

  value(name: MeasureName): Value | undefined {
    if (this.all !== null || isCorrected.has(name)) return this.values.get(name);
    if (isBent(this.cut) && byBothContacts.has(name)) return undefined;
    if (!this.known.has(name)) this.measure(name);
    return this.known.get(name);
  }

  get wallLeft(): number | null {
    return this.horn().wallLeft;
  }

  get wallLeftSd(): number | null {
    return this.horn().wallLeftSd;
  }

  settled(): this {
    this.bearing();
    this.horn();
    void this.values;
    this.onToe?.settled();
    return this;
  }

  private measure(name: MeasureName): void {
    this.standing(({ frame }) => {
      // To stand the foot takes longer than to measure it.
      for (const one of usuallyAsked.has(name) ? usuallyAsked : [name]) {
        const measure = findMeasure(one);
        this.known.set(one, (measure?.view === 'lateral' && valueIn(frame, measure)) || undefined);
      }
    });
  }

  private bearing(): Bearing {
    return this.line ?? this.standing(bearingOf);
  }

  private horn(): Wall {
    this.wall ??= this.foot.frame.graph.scratch(() => {
      const left = hornLeft(this.foot, this.cut);
      return { wallLeft: left?.value ?? null, wallLeftSd: left && this.foot.frame.graph.deviation(left) };
    });
    return this.wall;
  }

  /** The foot stands anew for each question: what is noted is forgotten again, so that the film's graph does not grow. */
  private standing<T>(ask: (stood: StoodAfter) => T): T {
    return this.foot.frame.graph.scratch(() => {
      const stood = standAfter(this.foot, this.cut, this.stance);
      if (!stood) throw new Error('the foot stood before');
      this.line ??= bearingOf(stood);
      return ask(stood);
    });
  }
}

type Bearing = Pick<Prediction, 'delta' | 'soleCut' | 'soleCutSd'>;

function bearingOf({ delta, soleCut, soleCutSd }: Stood): Bearing {
  return { delta: delta.value * degrees, soleCut, soleCutSd };
}

/** What the limits of cuts ask for, one after the other. */
const usuallyAsked: ReadonlySet<MeasureName> = new Set(['palmar-angle', 'sole-depth.tip', 'sole-depth.wing']);

/** On two planes one of the two contacts is in the air, and what goes by both is of no foot that stands. */
const byBothContacts: ReadonlySet<MeasureName> = new Set(
  measuresIn('lateral')
    .filter(({ needs }) => needs.includes('heel.ground') && needs.includes('toe.ground'))
    .map(({ name }) => name),
);

/** Degrees that the foot turns at most, in the stance in which it turns more; positive where the heel is lowered more. */
export function mostTurn({ delta, onToe }: Pick<Prediction, 'delta' | 'onToe'>): number {
  return onToe && Math.abs(onToe.delta) > Math.abs(delta) ? onToe.delta : delta;
}

/** Of a prediction's stances the one in which a measure comes out lower; undefined where the film does not have it. */
export function lowerOf(prediction: Prediction, name: MeasureName): Value | undefined {
  const [heels, toe] = [prediction.value(name), prediction.onToe?.value(name)];
  return heels && toe && toe.value < heels.value ? toe : heels;
}

/** What does not come from the stood foot alone. */
const corrected: readonly Measure[] = measuresIn('lateral').filter(({ afterCut }) => afterCut !== null);
const isCorrected: ReadonlySet<MeasureName> = new Set(corrected.map(({ name }) => name));

function correct(frame: Frame, delta: Real, values: Map<MeasureName, Value>): void {
  const turned = delta.times(degrees);
  for (const measure of corrected) {
    const after = measure.afterCut?.(frame, turned);
    if (!after) continue;
    const { name, unit } = measure;
    values.set(name, { measure, value: after.value, unit, sd: frame.graph.deviation(after) });
  }
}

interface Wall {
  readonly wallLeft: number | null;
  readonly wallLeftSd: number | null;
}

/** Horn and lamellae left at the toe after all that brought it back, mm; null where the film does not say. Only within `scratch`. */
export function hornLeft({ frame, earlier }: Footing, cut: CutSize): Real | null {
  const angle = findMeasure('wall-angle');
  let left = findMeasure('horn-lamellar.lower')?.of(frame)?.value ?? null;
  let foot: Frame | undefined = frame;
  const takes = seenFromSide([...earlier, cut]);
  for (const [index, one] of takes.entries()) {
    const slope: Real | undefined = foot && angle?.of(foot)?.value;
    if (!left || !slope || !foot) return null;
    left = left.minus(
      slope
        .times(1 / degrees)
        .sine()
        .times(one.toeBack),
    );
    if (index < takes.length - 1) foot = standSeen(foot, one)?.frame;
  }
  return left;
}
