import { expect, it } from 'vitest';
import { pipelines } from '../fuzz/fresh.ts';
import { failureOf, seedOf, statesOf } from '../fuzz/sequence.ts';
import { usualSettings, type State } from '../fuzz/state.ts';

const seed = Number(process.env['UNGULA_SEED'] ?? 20_261_125);
const sequences = 300;

const state = (text: string): State => ({ text, settings: usualSettings, scales: {} });

it(`${sequences} random sequences of edits are told with what is remembered as they are told anew`, async () => {
  const make = await pipelines();
  const instances = { remembering: make(), forgetting: make() };
  let states = 0;
  for (let number = 0; number < sequences; number++) {
    const all = statesOf(seedOf(seed, number));
    states += all.length;
    const failure = failureOf(all, instances);
    expect(
      failure,
      `to have it shorter: npm run fuzz -- --seed ${seed} --first ${number} --sequences 1 --servers 0`,
    ).toBeNull();
  }
  expect(states).toBeGreaterThan(5 * sequences);
});

it('a pipeline that remembers too long is found out', async () => {
  const make = await pipelines();
  const stale = make();
  const first = stale.inspect('hoof 1\nvisit 2026-03-04\n  weight 512\n');
  // Tells of every text what it told of the first one.
  const remembering = { ...stale, inspect: () => first };
  const instances = { remembering, forgetting: make() };
  const [one, other] = [state('hoof 1\nvisit 2026-03-04\n  weight 512\n'), state('hoof 1\nvisit 2026-03-05\n')];
  expect(failureOf([one, one], instances)).toBeNull();
  expect(failureOf([one, other], instances)).toMatchObject({ at: 1, difference: expect.stringContaining('/text') });
});
