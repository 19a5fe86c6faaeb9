import { expect, it } from 'vitest';
import { KeptMarker } from '../../src/extension/kept-marker.ts';

/** As the editor keeps it, over windows. */
function state(first: unknown) {
  const kept = new Map<string, unknown>([['ungula.marker', first]]);
  return {
    get: (key: string) => kept.get(key),
    update: async (key: string, value: unknown) => void kept.set(key, value),
  };
}

it('keeps the length of the marker for the next film, in another window too', async () => {
  const kept = state(undefined);
  expect(new KeptMarker(kept).mm).toBeNull();
  await new KeptMarker(kept).write(80);
  expect(new KeptMarker(kept).mm).toBe(80);
});

it('believes nothing that is no length of a marker', () => {
  for (const wrong of ['80', null, Number.NaN, 0, -5, 1001, {}, [80]])
    expect(new KeptMarker(state(wrong)).mm).toBeNull();
});
