import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { BlockMemory } from '../../shared/notation/parse.ts';
import { filmText } from '../unit/plain-foot.ts';
import { randomFrom } from './random-edits.ts';

/** Limits, two films, a plan on a film of an earlier visit: findings that point into other blocks, from before and behind. */
const text = `hoof 1

case "X"
  animal    horse mare

limits
  sole-depth.tip      >= 16 mm because "thin last year"
  heel-height         <= 20 mm

visit 2026-03-04
${filmText()}

visit 2026-03-20
  plan LF
    heel  down 9 mm
    toe   down 3 mm
    accept trim/palmar-angle because "agreed with the vet"

visit 2026-04-01
  accept range/sole-depth.tip because "thin all her life"
${filmText({ 'wall.top': [-18, 66], 'sole.tip': [0, 4] })}

  tape LF
    toe-length          60 mm
`;

describe('what is remembered of a reading or a cut', () => {
  it('equals what is told anew, wherever lines come and go', () => {
    expect(inspect(text).findings.filter(({ related }) => related.length > 0).length).toBeGreaterThan(4);
    const random = randomFrom(41);
    const memory = new BlockMemory();
    let now = text;
    for (let step = 0; step < 400; step++) {
      const lines = now.split('\n');
      const at = random(lines.length);
      if (random(3) > 0) lines.splice(at, 0, ['# a remark', '', '  | prose', '  weight     500 kg'][random(4)] ?? '');
      else if (/^(?:#|$)/.test(lines[at] ?? '') || random(12) === 0) lines.splice(at, 1);
      now = step % 40 === 39 ? text.replace('>= 16 mm', `>= ${14 + random(4)} mm`) : lines.join('\n');
      expect(inspect(now, undefined, memory).findings, `step ${step}`).toEqual(inspect(now).findings);
    }
  });
});
