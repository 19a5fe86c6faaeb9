import type { Frame } from '../geometry/frame.ts';
import { degrees } from '../geometry/point.ts';
import type { Real } from '../geometry/real.ts';
import type { MeasureName } from '../measures/names.ts';
import { findMeasure, measuresIn, type Measure } from '../measures/registry.ts';
import { valueIn, valuesIn, type Value, type Values } from '../measures/take.ts';
import { stand, stands, type CutSize, type SoleCut, type Stood } from './stand.ts';

export interface Prediction {
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
export function predictAtOnce(frame: Frame, cut: CutSize): Prediction | null {
  return predict(frame, cut)?.settled() ?? null;
}

/** The same, measured when it is asked for. Only for as long as the frame's places are noted, as those of a film always are. */
export function predict(frame: Frame, cut: CutSize): LazyPrediction | null {
  return stands(frame, cut) ? new LazyPrediction(frame, cut) : null;
}

class LazyPrediction implements Prediction {
  private readonly frame: Frame;
  private readonly cut: CutSize;
  private all: Values | null = null;
  private readonly known = new Map<MeasureName, Value | undefined>();
  private line: Bearing | null = null;
  private wall: Wall | null = null;

  constructor(frame: Frame, cut: CutSize) {
    this.frame = frame;
    this.cut = cut;
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
      correct(this.frame, stood.delta, values);
      return values;
    });
    return this.all;
  }

  value(name: MeasureName): Value | undefined {
    if (this.all !== null || isCorrected.has(name)) return this.values.get(name);
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
    this.wall ??= this.frame.graph.scratch(() => wallLeft(this.frame, this.cut));
    return this.wall;
  }

  /** The foot stands anew for each question: what is noted is forgotten again, so that the film's graph does not grow. */
  private standing<T>(ask: (stood: Stood) => T): T {
    return this.frame.graph.scratch(() => {
      const stood = stand(this.frame, this.cut);
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

function wallLeft(frame: Frame, cut: CutSize): Wall {
  const thickness = findMeasure('horn-lamellar.lower')?.of(frame)?.value;
  const angle = findMeasure('wall-angle')?.of(frame)?.value;
  if (!thickness || !angle) return { wallLeft: null, wallLeftSd: null };
  const left = thickness.minus(
    angle
      .times(1 / degrees)
      .sine()
      .times(cut.toeBack),
  );
  return { wallLeft: left.value, wallLeftSd: frame.graph.deviation(left) };
}
