import type { MeasureName } from '../../shared/measures/names.ts';
import Flatten from '@flatten-js/core';
import { randomLcg, randomUniform } from 'd3-random';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import type { Film } from '../property/oracle/lateral.ts';
import { caseText, filmText, soundFoot, type Places } from '../unit/plain-foot.ts';
import { lateralByLibrary } from './lateral-by-library.ts';

/**
 * A cut without a model of its own: the foot is left where it is on the picture, the ground line is drawn through the new ends of
 * the wall, and flatten-js measures the film again. Only the bones above the coffin joint are turned, with the ground line, so
 * that they keep their angle to it. No live sole is cut.
 */
const foot: Places = { ...soundFoot, 'wall.turn': [2, 36] };
const pixels = ([x, y]: readonly [number, number]) => ({ x: 2000 + x * 10, y: 1000 - y * 10 });

interface Cut {
  readonly heel: number;
  readonly toe: number;
  readonly back: number;
}

const placed = (name: string) => new Flatten.Point(...(foot[name] as [number, number]));

function afterwards({ heel, toe, back }: Cut): { film: Film; turn: number } {
  const newHeel = placed('heel.ground').translate(0, heel);
  const newToe = placed('toe.ground').translate(-back, toe);
  const bearing = new Flatten.Vector(newHeel, newToe);
  const turn = bearing.angleTo(new Flatten.Vector(1, 0));
  const stays = placed('coffin.centre');
  const points = new Map(Object.keys(foot).map((name) => [name, placed(name)]));
  points.set('heel.ground', newHeel);
  points.set('toe.ground', newToe);
  points.set('breakover', placed('breakover').translate(-back, 0));
  for (const name of ['pastern.centre', 'fetlock.centre']) points.set(name, placed(name).rotate(-turn, stays));
  return {
    turn: (turn * 180) / Math.PI,
    film: {
      landmarks: [...points].map(([name, { x, y }]) => ({ name, ...pixels([x, y]) })),
      ground: { a: pixels([newHeel.x, newHeel.y]), b: pixels([newToe.x, newToe.y]) },
      scale: { form: 'stated', mmPerPx: 0.1 },
    },
  };
}

const source = randomLcg(0.31);
const [heels, toes, backs] = [
  randomUniform.source(source)(0.4, 2.2),
  randomUniform.source(source)(0, 0.4),
  randomUniform.source(source)(0, 6),
];
const cuts: Cut[] = Array.from({ length: 40 }, () => ({ heel: heels(), toe: toes(), back: backs() }));

describe('the foot after a cut against flatten-js', () => {
  it.each(cuts)('heel down $heel mm, toe down $toe mm, toe back $back mm', (cut) => {
    const plan = `  plan LF\n    heel down ${cut.heel} mm\n    toe down ${cut.toe} mm\n    toe back ${cut.back} mm`;
    const { prediction } = inspect(caseText(`${filmText(foot)}\n${plan}`)).study.cuts[0] ?? {};
    if (!prediction) throw new Error('the cut is not predicted');
    expect(Object.values(prediction.soleCut)).toEqual([0, 0, 0]);
    const { film, turn } = afterwards(cut);
    expect(prediction.delta).toBeCloseTo(turn, 9);
    const library = lateralByLibrary(film);
    // The heel wall is no line between its new lower end and its upper: by definition it turns with the foot.
    const heelAngle = (lateralByLibrary(afterwards({ heel: 0, toe: 0, back: 0 }).film).get('heel-angle') ?? NaN) - turn;
    library.set('heel-angle', heelAngle);
    library.set('toe-heel-difference', (library.get('wall-angle') ?? NaN) - heelAngle);
    expect([...prediction.values.keys()].sort()).toEqual([...library.keys()].sort());
    for (const [measure, reference] of library)
      expect(prediction.values.get(measure as MeasureName)?.value, measure).toBeCloseTo(reference, 7);
  });
});
