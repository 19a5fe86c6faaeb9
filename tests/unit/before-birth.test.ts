import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { boneCase } from './bone-cases.ts';
import { caseText, filmText } from './plain-foot.ts';

/** A film from before the animal was born is no reason to judge it as a foal: one of the two dates is wrong. */

// A thin sole, a low bone and a thick wall, on 4 March 2026.
const film = filmText({ 'sole.tip': [0, 12], 'wall.top': [-18, 76], 'wall.upper': [-6, 56], 'wall.lower': [22, 21] });
const plan = '\n\n  plan LF\n    heel down 9 mm';

/** What is told, but of the dates; the line of the birth is made a remark, so that all places stay. */
function told(text: string): unknown[] {
  return inspect(text).findings.filter(({ code }) => code !== 'picture/before-birth');
}

describe('a film that is dated before the birth', () => {
  it.each(['2026-12', '2026-12-01', '2026-03-05', '2199-01'])('is judged as of a grown animal: foaled %s', (foaled) => {
    const text = caseText(`${film}${plan}`, { animal: `animal horse mare\n  foaled ${foaled}` });
    const codes = inspect(text).findings.map(({ code }) => code);
    expect(codes).toContain('picture/before-birth');
    expect(codes).not.toContain('range/too-young');
    expect(codes).toEqual(expect.arrayContaining(['range/very-low-in-capsule', 'range/wall-to-bone']));
    expect(told(text)).toEqual(told(text.replace('  foaled', '  #oaled')));
  });

  it('is judged as of a young one from the day of the birth on', () => {
    const text = caseText(film, { animal: 'animal horse mare\n  foaled 2026-03-04' });
    const codes = inspect(text).findings.map(({ code }) => code);
    expect(codes).toContain('range/too-young');
    expect(codes).not.toContain('range/very-low-in-capsule');
  });

  it('has grown bones, so that a wrong scale is told', () => {
    const text = boneCase([{}, {}, { scale: 'scale 0.108 mm/px' }], 'animal horse mare\n  foaled 2025-01');
    expect(told(text)).toContainEqual(expect.objectContaining({ code: 'scale/bone-length' }));
    expect(told(text)).toEqual(told(text.replace('  foaled', '  #oaled')));
  });
});
