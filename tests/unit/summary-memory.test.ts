import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { reportedMeasures } from '../../shared/series/reported-measures.ts';
import { SeriesSummary } from '../../shared/series/summary.ts';
import type { Study } from '../../shared/trim/study.ts';
import { madeCases } from './made-cases.ts';

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;

function heap(): number {
  collect();
  return process.memoryUsage().heapUsed;
}

it('what a summary holds does not grow with the cases', () => {
  const summary = new SeriesSummary('kind', 'film', reportedMeasures([], true, 'film').measures ?? []);
  const texts = [...madeCases(300)].map(({ text }) => text);
  const kept: Study[] = [];
  const add = (from: number, to: number, keep: boolean): number => {
    const before = heap();
    for (const text of texts.slice(from, to)) {
      const { study } = inspect(text);
      summary.add(study);
      if (keep) kept.push(study);
    }
    return heap() - before;
  };
  // Code is compiled on the way: the first hundred is for that.
  add(0, 100, false);
  const grown = add(100, 200, false);
  const whole = add(200, 300, true);
  expect([summary.cases, kept.length]).toEqual([300, 100]);
  expect(summary.rows()[0]?.feet).toBeGreaterThan(50);
  // What a hundred studies take that somebody keeps.
  expect(whole).toBeGreaterThan(0);
  expect(grown).toBeLessThan(whole / 3);
});
