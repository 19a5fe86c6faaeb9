import { describe, expect, it } from 'vitest';
import type { PlaceEdit, PlaceResult } from '../../shared/protocol/placing.ts';
import { placeInText } from '../../src/extension/place-in-text.ts';

const edit: PlaceEdit = { range: { start: { line: 1, character: 0 }, end: { line: 1, character: 0 } }, newText: 'x' };
const stale: PlaceResult = { kind: 'refused', says: 'changed', stale: true };

/** A text whose version goes up by itself as often as `typing` says, once before each apply. */
function text({ typing = 0, answers = [] as PlaceResult[], takes = true } = {}) {
  let version = 7;
  let typed = 0;
  const asked: number[] = [];
  const applied: (readonly PlaceEdit[])[] = [];
  return {
    asked,
    applied,
    version: () => version,
    ask: async (of: number): Promise<PlaceResult> => {
      asked.push(of);
      const given = answers.shift();
      if (given) return given;
      if (typed < typing) {
        typed++;
        version++;
      }
      return { kind: 'edits', version: of, edits: [edit] };
    },
    apply: async (edits: readonly PlaceEdit[]): Promise<boolean> => {
      if (!takes) return false;
      applied.push(edits);
      version++;
      return true;
    },
  };
}

describe('placing in a text that others change', () => {
  it('applies the edits once', async () => {
    const one = text();
    expect(await placeInText(one)).toEqual({ written: true, version: 8 });
    expect(one.applied).toEqual([[edit]]);
  });

  it('asks again with the new version where the text changed meanwhile', async () => {
    const one = text({ typing: 2 });
    expect(await placeInText(one)).toEqual({ written: true, version: 10 });
    expect(one.asked).toEqual([7, 8, 9]);
    expect(one.applied).toHaveLength(1);
  });

  it('asks again where the server has another version', async () => {
    const one = text({ answers: [stale, stale] });
    expect((await placeInText(one)).written).toBe(true);
  });

  it('gives up in words after three times, with nothing written', async () => {
    for (const one of [text({ typing: 3 }), text({ answers: [stale, stale, stale] })]) {
      const outcome = await placeInText(one);
      expect(outcome).toMatchObject({ written: false, says: expect.stringContaining('kept changing') });
      expect(one.applied).toEqual([]);
      expect(one.asked).toHaveLength(3);
    }
  });

  it('says so where the editor would not have it', async () => {
    expect(await placeInText(text({ takes: false }))).toMatchObject({
      written: false,
      says: expect.stringContaining('may be written to'),
    });
  });

  it('passes on a refusal at once', async () => {
    const one = text({ answers: [{ kind: 'refused', says: 'No such film.', stale: false }] });
    expect(await placeInText(one)).toEqual({ written: false, says: 'No such film.' });
    expect(one.asked).toEqual([7]);
  });
});
