import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { expect, it } from 'vitest';
import { BlockMemory, parse } from '../../shared/notation/parse.ts';
import { assemble } from '../../shared/record/assemble.ts';
import { fullCase } from '../bench/full-case.ts';

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;

function heap(): number {
  collect();
  return process.memoryUsage().heapUsed;
}

it('a changed block does not keep the whole text that it was first written in', () => {
  const memory = new BlockMemory();
  let text = fullCase(500);
  assemble(parse(text, memory));
  const before = heap();
  const changes = 60;
  for (let visit = 0; visit < changes; visit++) {
    text = text.replace(`"visit ${visit}"`, `"visit ${visit}, told anew"`);
    assemble(parse(text, memory));
  }
  expect(memory.tree?.blocks.filter(({ block }) => block.text.includes('told anew'))).toHaveLength(changes);
  // A text for each change would be 60 of them; it is the one of now, the first one and what the changed blocks hold.
  expect(heap() - before).toBeLessThan(10 * text.length);
});
