import type { MeasureName } from '../../shared/measures/names.ts';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { findMeasure } from '../../shared/measures/registry.ts';
import { caseText, filmText } from './plain-foot.ts';

/** A film whose ground line is placed so badly that it drowns everything that rests on it, and all else well. */
function badGround() {
  const lines = filmText({}, { ground: null, header: 'film LF lateral "x.png"' }).split('\n');
  const placings = lines.map((line) => (/@/.test(line) ? `${line} +- 2` : line));
  const text = caseText([...placings, '    ground 0, 1000 .. 200, 1000'].join('\n'));
  const reading = inspect(text).study.films[0]?.readings[0];
  if (!reading?.taking.frame) throw new Error('no frame');
  return { values: reading.taking.values, frame: reading.taking.frame };
}

describe('a difference of two measures of one film', () => {
  const { values, frame } = badGround();
  const sd = (name: MeasureName): number => values.get(name)?.sd ?? NaN;

  it('is surer than its parts where they share the ground line', () => {
    expect(sd('bone-angle')).toBeGreaterThan(1.5);
    expect(sd('wall-angle')).toBeGreaterThan(1.5);
    // Independent parts would give the root of the sum of their squares.
    expect(sd('capsular-rotation')).toBeLessThan(0.5 * Math.hypot(sd('bone-angle'), sd('wall-angle')));
    expect(sd('phalangeal-rotation')).toBeLessThan(0.5 * Math.hypot(sd('bone-angle'), sd('middle-angle')));
  });

  it('has exactly the variance that the covariance of its parts gives', () => {
    frame.graph.scratch(() => {
      const [bone, wall] = ['bone-angle', 'wall-angle'].map((name) => findMeasure(name)?.of(frame)?.value);
      if (!bone || !wall) throw new Error('not measured');
      const { graph } = frame;
      const variance = graph.covariance(bone, bone) + graph.covariance(wall, wall) - 2 * graph.covariance(bone, wall);
      expect(Math.sqrt(variance)).toBeCloseTo(sd('capsular-rotation'), 9);
    });
  });
});
