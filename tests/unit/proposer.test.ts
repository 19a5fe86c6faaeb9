import { describe, expect, it } from 'vitest';
import type { FootInput } from '../../shared/geometry/foot-input.ts';
import type { Proposed } from '../../shared/proposals/from-film-before.ts';
import { answerTo } from '../../src/preview/proposing/answer.ts';
import { greysOf } from '../../src/preview/proposing/greys-of.ts';
import { Proposer, type Question } from '../../src/preview/proposing/proposer.ts';
import type { FromProposer, ProposingWorker, ToProposer } from '../../src/preview/proposing/proposing-messages.ts';
import { questionFor } from '../../src/preview/proposing/use-proposals.ts';

const foot: FootInput = {
  view: 'lateral',
  landmarks: [],
  ground: null,
  bearing: null,
  isShod: false,
  scale: null,
  magnify: 1,
  spread: { mm: 0.5, px: 5 },
};
const question = (key: string): Question => ({
  key,
  before: { href: 'before.png', foot },
  now: { href: 'now.png', foot },
});

/** A worker that answers when it is told to. */
class HeldWorker implements ProposingWorker {
  readonly told: ToProposer[] = [];
  ended = false;
  #hear: ((event: { data: FromProposer }) => void) | null = null;
  #fail: (() => void) | null = null;

  postMessage(one: ToProposer): void {
    this.told.push(one);
  }

  addEventListener(kind: 'message' | 'error', hear: (event: never) => void): void {
    if (kind === 'message') this.#hear = hear as never;
    else this.#fail = hear as never;
  }

  terminate(): void {
    this.ended = true;
  }

  answer(says: string): void {
    const asked = this.told.findLast((one) => one.type === 'propose');
    this.#hear?.({ data: { id: asked?.id ?? 0, proposed: { says } } });
  }

  fail(): void {
    this.#fail?.();
  }

  get asked(): number {
    return this.told.filter(({ type }) => type === 'propose').length;
  }

  get pictures(): string[] {
    return this.told.flatMap((one) => (one.type === 'picture' ? [one.href] : []));
  }
}

function proposer(load: (href: string) => Promise<Blob> = () => Promise.resolve(new Blob())) {
  const workers: HeldWorker[] = [];
  const heard: [string, Proposed][] = [];
  const made = new Proposer({
    start: () => {
      workers.push(new HeldWorker());
      return Promise.resolve(workers.at(-1) as HeldWorker);
    },
    load,
    heard: ({ key }, proposed) => heard.push([key, proposed]),
  });
  return { made, workers, heard };
}

const settled = (): Promise<void> => new Promise((soon) => setTimeout(soon, 5));

describe('asking for proposals', () => {
  it('reads pictures ahead and once, and tells the answer with its question', async () => {
    const { made, workers, heard } = proposer();
    made.ready(['before.png', 'now.png']);
    await settled();
    made.ask(question('a'));
    await settled();
    expect(workers).toHaveLength(1);
    expect(workers[0]?.pictures).toEqual(['before.png', 'now.png']);
    workers[0]?.answer('none');
    expect(heard).toEqual([['a', { says: 'none' }]]);
  });

  it('asks one question at a time, and of those that wait the newest', async () => {
    const { made, workers, heard } = proposer();
    for (const key of ['a', 'b', 'c']) made.ask(question(key));
    await settled();
    expect(workers[0]?.asked).toBe(1);
    workers[0]?.answer('of a');
    await settled();
    // What was moved since is asked about; the old answer is nobody’s.
    expect(heard).toEqual([]);
    expect(workers[0]?.asked).toBe(2);
    workers[0]?.answer('of c');
    expect(heard).toEqual([['c', { says: 'of c' }]]);
  });

  it('says so where a picture cannot be had, and tries it again with the next question', async () => {
    let there = false;
    const { made, workers, heard } = proposer((href) =>
      there || href === 'now.png' ? Promise.resolve(new Blob()) : Promise.reject(new Error('404')),
    );
    made.ready(['before.png']);
    made.ask(question('a'));
    await settled();
    expect(heard[0]?.[1]).toEqual({ says: expect.stringContaining('Place by eye') as string });
    there = true;
    made.ask(question('b'));
    await settled();
    workers.at(-1)?.answer('of b');
    expect(heard.at(-1)).toEqual(['b', { says: 'of b' }]);
  });

  it('starts another worker where one failed, with the pictures sent anew', async () => {
    const { made, workers, heard } = proposer();
    made.ask(question('a'));
    await settled();
    workers[0]?.fail();
    expect([workers[0]?.ended, heard.length]).toEqual([true, 1]);
    made.ask(question('b'));
    await settled();
    expect(workers).toHaveLength(2);
    expect(workers[1]?.pictures).toEqual(['before.png', 'now.png']);
  });

  it('tries again to start one that did not start', async () => {
    let starts = 0;
    const heard: string[] = [];
    const worker = new HeldWorker();
    const made = new Proposer({
      start: () => (++starts === 1 ? Promise.reject(new Error('404')) : Promise.resolve(worker)),
      load: () => Promise.resolve(new Blob()),
      heard: ({ key }) => heard.push(key),
    });
    made.ask(question('a'));
    await settled();
    made.ask(question('b'));
    await settled();
    worker.answer('of b');
    expect([starts, heard]).toEqual([2, ['a', 'b']]);
  });

  it('hears nothing once it is closed, and leaves no worker behind', async () => {
    const { made, workers, heard } = proposer();
    made.ask(question('a'));
    await settled();
    made.close();
    await settled();
    workers[0]?.answer('late');
    expect([workers[0]?.ended, heard]).toEqual([true, []]);
  });
});

describe('what is asked', () => {
  const at = (name: 'p3.tip' | 'p3.wing' | 'wall.top', x: number) => ({ name, x, y: 2, spread: null });
  const whole: FootInput = {
    ...foot,
    landmarks: [at('p3.tip', 1), at('p3.wing', 9)],
    ground: [
      { x: 0, y: 0 },
      { x: 9, y: 0 },
    ],
    scale: { kind: 'pixel', mmPerPx: 0.2 },
  };
  const grounds = {
    before: { date: '2026-03-01', picture: 'before.png', input: whole },
    picture: 'now.png',
    pictureBefore: 'before.png',
  };
  const asked = (input: FootInput, rest: Partial<typeof grounds> = {}) =>
    questionFor({ input } as never, { ...grounds, ...rest });

  it('is nothing until scale, ground and both ends of the bone are placed', () => {
    expect(asked(whole)).not.toBeNull();
    expect(asked({ ...whole, scale: null })).toBeNull();
    expect(asked({ ...whole, ground: null })).toBeNull();
    expect(asked({ ...whole, landmarks: [at('p3.tip', 1)] })).toBeNull();
    expect(questionFor({ input: whole } as never, { ...grounds, pictureBefore: null })).toBeNull();
    // Without a film before a typical foot is asked.
    expect(questionFor({ input: whole } as never, { ...grounds, before: null, pictureBefore: null })).toMatchObject({
      before: null,
      now: { href: 'now.png' },
    });
  });

  it('is the same whatever else is placed, and another where what it rests on is moved', () => {
    expect(asked({ ...whole, landmarks: [...whole.landmarks, at('wall.top', 5)] })?.key).toBe(asked(whole)?.key);
    expect(asked({ ...whole, landmarks: [at('p3.tip', 1.5), at('p3.wing', 9)] })?.key).not.toBe(asked(whole)?.key);
  });
});

describe('what proposals rest on', () => {
  it('of a scale from the bones is what it knows the length of, and the other wing where there are two', () => {
    const at = (name: string) => ({ name, x: name.length, y: 2, spread: null }) as never;
    const input: FootInput = {
      ...foot,
      landmarks: ['p3.tip', 'p3.wing', 'p3.wing.other', 'coffin.centre', 'pastern.centre', 'wall.top'].map(at),
      ground: [
        { x: 0, y: 0 },
        { x: 9, y: 0 },
      ],
      scale: { kind: 'bone', lengths: [{ from: 'coffin.centre', to: 'pastern.centre', mm: 40 }], relativeSd: 0.02 },
    };
    const asked = questionFor({ input } as never, { before: null, picture: 'now.png', pictureBefore: null });
    expect(asked?.now.foot.landmarks.map(({ name }) => name)).toEqual([
      'p3.tip',
      'p3.wing',
      'p3.wing.other',
      'coffin.centre',
      'pastern.centre',
    ]);
  });
});

describe('what the worker answers', () => {
  it('is a sentence where something lacks or goes wrong, never an error', () => {
    const picture = [{ width: 8, height: 8, greys: new Float32Array(64) }] as const;
    expect(answerTo({ foot, picture }, { foot, picture })).toEqual({ says: expect.any(String) as string });
    expect(answerTo(null, { foot, picture })).toEqual({ says: expect.any(String) as string });
    const broken = { foot: null as never, picture };
    expect(answerTo(broken, broken)).toEqual({ says: expect.stringContaining('Place by eye') as string });
  });

  it('weighs colours as the eye does', () => {
    const data = Uint8ClampedArray.of(255, 0, 0, 255, 0, 255, 0, 255, 0, 0, 255, 255, 255, 255, 255, 255);
    const { greys, width } = greysOf({ width: 2, height: 2, data } as never);
    // ITU-R BT.601: 0.299, 0.587, 0.114.
    expect(width).toBe(2);
    for (const [i, share] of [0.299, 0.587, 0.114, 1].entries()) expect(greys[i]).toBeCloseTo(255 * share, 3);
  });
});
