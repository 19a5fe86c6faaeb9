import { describe, expect, it } from 'vitest';
import { KeptLookups } from '../../src/extension/kept-lookups.ts';

function lookups(answers: Record<string, string> = {}) {
  const looked: string[] = [];
  const kept = new KeptLookups<string>();
  const look = async (path: string): Promise<string> => {
    looked.push(path);
    const answer = answers[path];
    if (answer === undefined) throw new Error(`no ${path}`);
    return answer;
  };
  return { kept, looked, look };
}

describe('look-ups of pictures', () => {
  it('are made once a path while nothing changes, and again for a path that is written anew', async () => {
    const { kept, looked, look } = lookups({ a: 'A', b: 'B', c: 'C' });
    expect(await kept.of('case', ['a', 'b', 'a'], look)).toEqual({ a: 'A', b: 'B' });
    expect(await kept.of('case', ['a', 'b'], look)).toEqual({ a: 'A', b: 'B' });
    expect(looked).toEqual(['a', 'b']);
    expect(await kept.of('case', ['a', 'c'], look)).toEqual({ a: 'A', c: 'C' });
    expect(looked).toEqual(['a', 'b', 'c']);
    // What the text let go of meanwhile is not kept.
    await kept.of('case', ['a', 'b'], look);
    expect(looked).toEqual(['a', 'b', 'c', 'b']);
  });

  it('are made again in another case, and where a file may have changed', async () => {
    const { kept, looked, look } = lookups({ a: 'A' });
    await kept.of('case', ['a'], look);
    await kept.of('other', ['a'], look);
    kept.forget();
    await kept.of('other', ['a'], look);
    expect(looked).toEqual(['a', 'a', 'a']);
  });

  it('are made once for two who ask at the same time', async () => {
    const { kept, looked, look } = lookups({ a: 'A' });
    expect(await Promise.all([kept.of('case', ['a'], look), kept.of('case', ['a'], look)])).toEqual([
      { a: 'A' },
      { a: 'A' },
    ]);
    expect(looked).toEqual(['a']);
  });

  it('are not kept where one fails', async () => {
    const answers: Record<string, string> = { a: 'A' };
    const { kept, looked, look } = lookups(answers);
    await expect(kept.of('case', ['a', 'b'], look)).rejects.toThrow('no b');
    answers['b'] = 'B';
    expect(await kept.of('case', ['a', 'b'], look)).toEqual({ a: 'A', b: 'B' });
    expect(looked).toEqual(['a', 'b', 'a', 'b']);
  });

  it('are made each time where an answer is not to be kept', async () => {
    const { kept, looked, look } = lookups({ a: 'A', b: 'absent' });
    const isKept = (found: string): boolean => found !== 'absent';
    for (let round = 0; round < 2; round++)
      expect(await kept.of('case', ['a', 'b'], look, isKept)).toEqual({ a: 'A', b: 'absent' });
    expect(looked).toEqual(['a', 'b', 'b']);
  });

  it('know a path by whatever name it has', async () => {
    const { kept, look } = lookups({ constructor: 'X' });
    const found = await kept.of('case', ['constructor'], look);
    expect(Object.hasOwn(found, 'constructor') && found['constructor']).toBe('X');
  });
});
