import { describe, expect, it } from 'vitest';
import { crossSteps, strideOf } from '../../src/preview/placing/key-steps.ts';
import { toStage, wholeSight } from '../../src/preview/placing/view.ts';
import { liveSheet } from '../../shared/views/live-sheet.ts';
import { toeSide } from '../../shared/views/toe-side.ts';
import { isLineKey, setsFor, stepsFor } from '../../shared/views/what-to-place.ts';
import { whereToLook } from '../../shared/views/where-to-look.ts';
import { Dice } from '../property/dice.ts';
import { exampleSheets } from './example-sheets.ts';

type XY = { readonly x: number; readonly y: number };

/** As all films of the examples are. */
const picture = { width: 1400, height: 1200 };
/** Beside a text on a laptop, and on a wide screen. */
const stages = [
  { width: 360, height: 600 },
  { width: 1200, height: 900 },
];
const modifiers = [
  { shiftKey: true, altKey: false },
  { shiftKey: false, altKey: false },
  { shiftKey: false, altKey: true },
];

/** Presses of a hand that takes the key that brings it nearest, until no key brings it nearer; Enter is one of them. */
function presses(from: XY, to: XY): { readonly count: number; readonly off: XY } {
  let left = { x: to.x - from.x, y: to.y - from.y };
  for (let count = 1; ; count++) {
    const next = ['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown']
      .flatMap((key) => modifiers.map((held) => strideOf({ key, ...held }, crossSteps) ?? { x: 0, y: 0 }))
      .map((by) => ({ x: left.x - by.x, y: left.y - by.y }))
      .toSorted((a, b) => Math.abs(a.x) + Math.abs(a.y) - Math.abs(b.x) - Math.abs(b.y))[0];
    if (!next || Math.abs(next.x) + Math.abs(next.y) >= Math.abs(left.x) + Math.abs(left.y))
      return { count, off: left };
    left = next;
  }
}

const meanOf = (all: readonly number[]): number => all.reduce((sum, one) => sum + one, 0) / all.length;

describe('placing by keyboard alone', () => {
  it('goes far with Shift, near by itself and finely with Alt, and knows no other key', () => {
    const press = (key: string, shiftKey = false, altKey = false) => strideOf({ key, shiftKey, altKey }, crossSteps);
    expect(press('ArrowRight', true)).toEqual({ x: 64, y: 0 });
    expect(press('ArrowUp')?.y).toBe(-8);
    expect(press('ArrowLeft', false, true)?.x).toBe(-1);
    for (const key of ['a', 'Enter', 'constructor', '']) expect(press(key)).toBeNull();
  });

  it.each(stages)('takes under 15 presses a point from within a fifth of the picture, on a stage of %o', (stage) => {
    const dice = new Dice(15);
    const sight = wholeSight(stage, picture);
    const counts: number[] = [];
    for (const { placed } of exampleSheets())
      for (const { x, y } of Object.values(placed)) {
        // Anywhere in a circle about the point.
        const far = 0.2 * picture.width * Math.sqrt(dice.uniform());
        const turn = dice.between(0, 2 * Math.PI);
        const from = { x: x + far * Math.cos(turn), y: y + far * Math.sin(turn) };
        const { count, off } = presses(toStage(sight, stage, from), toStage(sight, stage, { x, y }));
        // To the nearest pixel of the screen, as a mouse would.
        expect(Math.max(Math.abs(off.x), Math.abs(off.y))).toBeLessThanOrEqual(0.5 + 1e-9);
        counts.push(count);
      }
    expect(counts.length).toBeGreaterThan(300);
    expect(meanOf(counts)).toBeLessThan(15);
  });

  it('begins nearer than that: where the walk looks for a landmark it is at hand', () => {
    const stage = { width: 1200, height: 900 };
    const sight = wholeSight(stage, picture);
    const counts: number[] = [];
    let unknown = 0;
    for (const sheet of exampleSheets()) {
      const [usual] = setsFor(sheet);
      const steps = stepsFor(sheet, usual ? [usual.name] : []).filter(
        ({ key }) => !isLineKey(key) && key in sheet.placed,
      );
      for (const [index, { key }] of steps.entries()) {
        const before = steps.slice(0, index).map((step) => step.key);
        const gone = Object.keys(sheet.placed).filter((name) => !before.includes(name));
        const live = liveSheet(
          sheet,
          gone.map((name) => ({ kind: 'landmark', name, at: null })),
        );
        const from = whereToLook(live, key, sheet.view === 'lateral' ? toeSide(sheet.placed) : null);
        const to = sheet.placed[key];
        if (!to) continue;
        if (!from) {
          unknown++;
          expect(before.length).toBeLessThan(2);
          continue;
        }
        expect(Math.hypot(from.x - to.x, from.y - to.y)).toBeLessThan(0.2 * picture.width);
        counts.push(presses(toStage(sight, stage, from), toStage(sight, stage, to)).count);
      }
    }
    // Only the first places of a film are looked for from where the cross is.
    expect(counts.length).toBeGreaterThan(5 * unknown);
    expect(meanOf(counts)).toBeLessThan(9);
  });
});
