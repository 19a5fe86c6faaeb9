import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { layHand } from '../../src/preview/placing/hand.ts';
import type { PlacingStage } from '../../src/preview/placing/stage.ts';
import type { PageMessage } from '../../src/messages/messages.ts';
import { PageModel } from '../../src/preview/page-model.ts';
import { lookOf, sheetsMessage } from '../told-page.ts';
import { freshState } from '../../src/preview/fresh-state.ts';

/** As much of an element as the hand looks at. */
class FakeElement {
  readonly key: string | null;

  constructor(key: string | null) {
    this.key = key;
  }

  closest(selector: string): { getAttribute(): string | null } | null {
    return selector === '[data-handle]' && this.key !== null ? { getAttribute: () => this.key } : null;
  }
}

beforeEach(() => void vi.stubGlobal('Element', FakeElement));
afterEach(() => void vi.unstubAllGlobals());

const uri = 'file:///a.hoof';
/** The toe's contact is placed, and the breakover lies three pixels from it. */
const toeOnly = `hoof 1

visit 2026-03-04
  film LF lateral "a.png"
    ground  240, 1000 .. 1300, 1000
    p3.tip            @  432,  967
    p3.wing           @  874,  877
    toe.ground        @  300, 1000
`;

type XY = { readonly x: number; readonly y: number };

/** The hand on a stage where a pixel of the picture is one of the screen. */
function hand(text = toeOnly) {
  const told: PageMessage[] = [];
  const model = new PageModel(freshState, {
    keep: () => undefined,
    tell: (one) => told.push(one),
    changed: () => undefined,
  });
  model.heard(sheetsMessage(text, { uri, version: 1 }, lookOf(model.shown.kept)));
  const sheet = model.sheet;
  if (!sheet) throw new Error('no sheet');
  const { placing } = model;
  placing.open(sheet);
  const heard = new Map<string, (event: unknown) => void>();
  const holder = {
    addEventListener: (name: string, hears: (event: unknown) => void) => heard.set(name, hears),
    setPointerCapture: () => undefined,
    getBoundingClientRect: () => ({ left: 0, top: 0 }),
    classList: { add: () => undefined, remove: () => undefined },
  };
  const stage = {
    model: placing,
    get shown() {
      return { sheet, live: placing.sheetOf(sheet) };
    },
    plain: (at: XY) => at,
    aimed: (at: XY) => at,
    within: (at: XY) => at,
    hover: () => undefined,
    focus: () => undefined,
    pan: () => undefined,
    soon: () => undefined,
  };
  layHand(holder as unknown as HTMLElement, stage as unknown as PlacingStage);
  const send = (name: string, { x, y }: XY, on: string | null): void =>
    heard.get(name)?.({
      pointerId: 1,
      pointerType: 'mouse',
      button: 0,
      clientX: x,
      clientY: y,
      altKey: false,
      target: new FakeElement(on),
      preventDefault: () => undefined,
    });
  return {
    placing,
    sheet,
    /** Pressed on a handle, or beside all, carried to `to`, and let go. */
    press(from: XY, on: string | null, to: XY = from): void {
      send('pointerdown', from, on);
      if (to !== from) send('pointermove', to, on);
      send('pointerup', to, on);
    },
    step: () => placing.step(placing.sheetOf(sheet))?.key ?? null,
    placed: () => told.flatMap((one) => (one.type === 'place' ? one.placements : [])),
  };
}

describe('while a place is asked for', () => {
  it('a click three pixels from a placed point places, and picks nothing up', () => {
    const one = hand();
    one.placing.choose('breakover');
    one.press({ x: 303, y: 1000 }, 'toe.ground');
    expect(one.placed()).toEqual([{ kind: 'landmark', name: 'breakover', at: { x: 303, y: 1000 } }]);
    expect(one.placing.selected).toBeNull();
  });

  it('so does a click that strays by less than a hand keeps still', () => {
    const one = hand();
    one.placing.choose('breakover');
    one.press({ x: 303, y: 1000 }, 'toe.ground', { x: 305, y: 1002 });
    expect(one.placed()).toEqual([{ kind: 'landmark', name: 'breakover', at: { x: 305, y: 1002 } }]);
  });

  it('a drag moves what it took hold of, and the walk goes on where it was', () => {
    const one = hand();
    one.placing.choose('breakover');
    one.press({ x: 303, y: 1000 }, 'toe.ground', { x: 323, y: 990 });
    // By as much as the pointer went, from where the place was.
    expect(one.placed()).toEqual([{ kind: 'landmark', name: 'toe.ground', at: { x: 320, y: 990 } }]);
    expect([one.step(), one.placing.selected]).toEqual(['breakover', null]);
    one.press({ x: 326, y: 990 }, 'toe.ground');
    expect(one.placed().at(-1)).toEqual({ kind: 'landmark', name: 'breakover', at: { x: 326, y: 990 } });
  });

  it('of two places under the pointer the nearer one is dragged, whichever was drawn last', () => {
    const one = hand(`${toeOnly}    breakover @ 303, 1000\n`);
    one.placing.choose('heel.ground');
    one.press({ x: 299, y: 1000 }, 'breakover', { x: 280, y: 1000 });
    expect(one.placed()).toEqual([{ kind: 'landmark', name: 'toe.ground', at: { x: 281, y: 1000 } }]);
  });

  it('both ends of a line may lie on placed points', () => {
    const one = hand(toeOnly.replace(/ {4}ground.*\n/, ''));
    one.placing.choose('ground');
    one.press({ x: 301, y: 1000 }, 'toe.ground');
    one.press({ x: 433, y: 968 }, 'p3.tip');
    expect(one.placed()).toEqual([
      {
        kind: 'ground',
        ends: [
          { x: 301, y: 1000 },
          { x: 433, y: 968 },
        ],
      },
    ]);
  });
});

describe('while nothing is asked for', () => {
  it('a click picks a place up, and a drag keeps it in the hand', () => {
    const one = hand();
    for (let left = one.step(); left !== null; left = one.step()) one.placing.skip(one.sheet);
    one.press({ x: 300, y: 1000 }, 'toe.ground');
    expect([one.placing.selected, one.placed()]).toEqual(['toe.ground', []]);
    one.press({ x: 300, y: 1000 }, 'toe.ground', { x: 310, y: 1000 });
    expect(one.placing.selected).toBe('toe.ground');
    expect(one.placed()).toEqual([{ kind: 'landmark', name: 'toe.ground', at: { x: 310, y: 1000 } }]);
  });
});
