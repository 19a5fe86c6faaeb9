import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { placeOnFilm } from '../../shared/edits/place-on-film.ts';
import type { PageMessage } from '../../src/messages/messages.ts';
import { PageModel } from '../../src/preview/page-model.ts';
import { lookOf, sheetsMessage } from '../told-page.ts';
import { freshState } from '../../src/preview/fresh-state.ts';

const uri = 'file:///a.hoof';
const bare = `hoof 1

visit 2026-03-04
  film LF lateral "a.png"
    p3.tip            @  432,  967

  film RF lateral "b.png"
`;
/** A page with a host that answers only when it is told to. */
function page(text = bare) {
  const told: PageMessage[] = [];
  let version = 1;
  let kept = freshState;
  const model = new PageModel(freshState, {
    keep: (state) => (kept = state),
    tell: (one) => told.push(one),
    changed: () => undefined,
  });
  const send = (): void => {
    model.heard(sheetsMessage(text, { uri, version }, lookOf(model.shown.kept)));
  };
  send();
  const wishes = () => told.filter((one) => one.type === 'place');
  const sheet = () => {
    if (!model.sheet) throw new Error('no sheet');
    return model.sheet;
  };
  return {
    model,
    told,
    wishes,
    placing: model.placing,
    sheet,
    live: () => model.placing.sheetOf(sheet()),
    step: () => model.placing.step(model.placing.sheetOf(sheet()))?.key ?? null,
    kept: () => kept,
    text: () => text,
    /** The host writes the wishes that it has not answered yet. */
    answer(...ids: number[]): void {
      for (const wish of wishes().filter(({ id }) => ids.includes(id))) {
        const made = placeOnFilm(inspect(text).tree, wish.film, wish.placements);
        if ('refused' in made) throw new Error(made.refused);
        for (const edit of [...made.edits].reverse())
          text = text.slice(0, edit.start) + edit.text + text.slice(edit.end);
        version++;
        model.heard({ type: 'placed', id: wish.id, uri, version, says: null });
      }
    },
    send,
  };
}

const at = (x: number, y: number) => ({ x, y });

describe('placing on the page', () => {
  it('asks for what is clicked, shows it before the text has it, and goes on', () => {
    const one = page();
    one.placing.open(one.sheet());
    expect(one.step()).toBe('scale');
    one.placing.heardMarker(100);
    one.placing.click(one.sheet(), at(90, 993));
    expect(one.wishes()).toEqual([]);
    one.placing.click(one.sheet(), at(77, 443.5));
    expect(one.wishes().at(-1)).toMatchObject({
      film: { line: 3, picture: 'a.png', foot: 'LF', view: 'lateral', reader: null },
      placements: [{ kind: 'marker', ends: [at(90, 993), at(77, 443.5)], mm: 100 }],
    });
    expect(one.step()).toBe('ground');
    one.placing.line(one.sheet(), [at(1100, 1048), at(144, 1022)]);
    expect(one.step()).toBe('p3.wing');
    one.placing.click(one.sheet(), at(874, 877));
    expect(one.live().rows.map(({ measure }) => measure)).toContain('palmar-angle');
    expect(one.sheet().rows).toEqual([]);
    const shown = one.live().rows;
    one.answer(1, 2, 3);
    // Written, and the sheets that have it are still on their way: nothing flickers.
    expect(one.live().rows).toEqual(shown);
    one.send();
    const plain = (rows: typeof shown) => rows.map(({ measure, text }) => [measure, text]);
    expect(plain(one.sheet().rows)).toEqual(plain(shown));
    expect(one.live()).toBe(one.sheet());
  });

  it('keeps what is not written yet over sheets of an older text', () => {
    const one = page();
    one.placing.open(one.sheet());
    one.placing.choose('p3.wing');
    one.placing.click(one.sheet(), at(874, 877));
    one.placing.choose('coffin.centre');
    one.placing.click(one.sheet(), at(702, 735));
    one.answer(1);
    one.send();
    expect(Object.keys(one.sheet().placed)).toEqual(['p3.tip', 'p3.wing']);
    expect(Object.keys(one.live().placed)).toEqual(['p3.tip', 'p3.wing', 'coffin.centre']);
  });

  it('takes back what was refused, and says why', () => {
    const one = page();
    one.placing.open(one.sheet());
    one.placing.choose('p3.wing');
    one.placing.click(one.sheet(), at(874, 877));
    one.model.heard({ type: 'placed', id: 1, uri, version: null, says: 'The text kept changing.' });
    expect(one.placing.says).toBe('The text kept changing.');
    expect(Object.keys(one.live().placed)).toEqual(['p3.tip']);
    one.placing.choose('p3.wing');
    one.placing.click(one.sheet(), at(874, 877));
    expect(one.placing.says).toBeNull();
  });

  it('asks once for a drag and once for a key that was held', () => {
    const one = page();
    one.placing.open(one.sheet());
    for (let x = 433; x < 460; x++) one.placing.drag(one.sheet(), 'p3.tip', at(x, 960));
    expect(one.wishes()).toEqual([]);
    expect(one.live().placed['p3.tip']).toMatchObject(at(459, 960));
    one.placing.drop(one.sheet());
    one.placing.pick(one.sheet(), 'p3.tip');
    for (let times = 0; times < 4; times++) one.placing.nudge(one.sheet(), 0, 0.1);
    one.placing.drop(one.sheet());
    expect(one.wishes().map(({ placements }) => placements)).toEqual([
      [{ kind: 'landmark', name: 'p3.tip', at: at(459, 960) }],
      [{ kind: 'landmark', name: 'p3.tip', at: { x: 459, y: expect.closeTo(960.4, 6) } }],
    ]);
    one.placing.drop(one.sheet());
    expect(one.wishes()).toHaveLength(2);
  });

  it('lets go of what is picked before a click places anything', () => {
    const one = page();
    one.placing.open(one.sheet());
    one.placing.pick(one.sheet(), 'p3.tip');
    one.placing.choose('p3.wing');
    one.placing.pick(one.sheet(), 'p3.tip');
    expect(one.placing.awaits(one.live())).toBe(false);
    one.placing.click(one.sheet(), at(1, 1));
    expect([one.placing.selected, one.wishes().length]).toEqual([null, 0]);
    one.placing.click(one.sheet(), at(874, 877));
    expect(one.wishes()).toHaveLength(1);
  });

  it('finds a centre by three points on a rim, and takes it only when told to', () => {
    const one = page();
    one.placing.open(one.sheet());
    one.placing.choose('coffin.centre');
    one.placing.toggleRim();
    one.placing.click(one.sheet(), at(790, 735));
    expect(one.placing.acceptRim(one.sheet())).toBe(false);
    one.placing.click(one.sheet(), at(700, 825));
    one.placing.click(one.sheet(), at(610, 730));
    one.placing.click(one.sheet(), at(5, 5));
    expect(one.placing.rim).toHaveLength(3);
    one.placing.moveRim(2, at(610, 735));
    expect(one.wishes()).toEqual([]);
    expect(one.placing.acceptRim(one.sheet())).toBe(true);
    expect(one.wishes().at(-1)?.placements).toEqual([
      { kind: 'landmark', name: 'coffin.centre', at: { x: expect.closeTo(700, 6), y: expect.closeTo(735, 6) } },
    ]);
  });

  it('remembers the length of the last marker, and writes it anew where it is changed', () => {
    const one = page(bare.replace('    p3', '    scale   100 mm = 1, 2 .. 900, 4\n    p3'));
    one.placing.open(one.sheet());
    one.placing.setMarker(one.sheet(), Number.NaN);
    one.placing.setMarker(one.sheet(), -3);
    one.placing.setMarker(one.sheet(), 100);
    expect(one.wishes()).toEqual([]);
    one.placing.setMarker(one.sheet(), 50);
    expect(one.wishes().at(-1)?.placements).toEqual([{ kind: 'marker', ends: [at(1, 2), at(900, 4)], mm: 50 }]);
    expect(one.kept().placing?.marker).toBe(50);
  });

  it('asks for the length of a marker once, assumes none, and keeps it for the next film', () => {
    const one = page();
    one.placing.open(one.sheet());
    one.placing.click(one.sheet(), at(90, 993));
    one.placing.click(one.sheet(), at(77, 443.5));
    expect([one.wishes(), one.placing.ends, one.step()]).toEqual([[], [at(90, 993), at(77, 443.5)], 'scale']);
    one.placing.setMarker(one.sheet(), 1001);
    expect([one.wishes(), one.placing.says]).toEqual([[], 'A marker is from 1 mm to 1000 mm long.']);
    one.placing.setMarker(one.sheet(), 80);
    expect(one.wishes().at(-1)?.placements).toEqual([{ kind: 'marker', ends: [at(90, 993), at(77, 443.5)], mm: 80 }]);
    expect([one.placing.ends, one.placing.says, one.step()]).toEqual([null, null, 'ground']);
    expect(one.told).toContainEqual({ type: 'marker', mm: 80 });
    // The next film, and the next window, which is told by the editor.
    const other = page();
    other.model.heard({ type: 'marker', mm: 80 });
    other.placing.open(other.sheet());
    other.placing.line(other.sheet(), [at(90, 993), at(77, 443.5)]);
    expect(other.wishes().at(-1)?.placements).toEqual([{ kind: 'marker', ends: [at(90, 993), at(77, 443.5)], mm: 80 }]);
  });

  it('lets a marker without a length be begun anew, and taken back', () => {
    const one = page();
    one.placing.open(one.sheet());
    one.placing.line(one.sheet(), [at(1, 1), at(9, 400)]);
    one.placing.escape();
    expect([one.placing.ends, one.placing.isOn]).toEqual([null, true]);
    one.placing.line(one.sheet(), [at(1, 1), at(9, 400)]);
    one.placing.click(one.sheet(), at(50, 50));
    expect([one.placing.ends, one.placing.first]).toEqual([null, at(50, 50)]);
    one.placing.line(one.sheet(), [at(1, 1), at(9, 400)]);
    one.placing.skip(one.live());
    one.placing.setMarker(one.sheet(), 100);
    expect(one.wishes()).toEqual([]);
  });

  it('faces as the film does: by what is placed, else as a person has said of the picture', () => {
    const one = page();
    one.placing.open(one.sheet());
    expect(one.placing.toe(one.live())).toBeNull();
    one.placing.sayToe('a.png', 'right');
    expect(one.placing.toe(one.live())).toBe('right');
    expect(one.kept().placing?.toes).toEqual({ 'a.png': 'right' });
    one.placing.choose('p3.wing');
    one.placing.click(one.sheet(), at(874, 877));
    expect(one.placing.toe(one.live())).toBe('left');
  });

  it('goes on at the first open step after a reload, whatever was chosen before', () => {
    const one = page();
    one.placing.open(one.sheet());
    one.placing.skip(one.live());
    one.placing.choose('sole.tip');
    const again = new PageModel(one.kept(), { keep: () => undefined, tell: () => undefined, changed: () => undefined });
    again.heard(sheetsMessage(one.text(), { uri, version: 1 }, lookOf(again.shown.kept)));
    expect(again.placing.isOn).toBe(true);
    if (!again.sheet) throw new Error('no sheet');
    expect(again.placing.step(again.sheet)?.key).toBe('ground');
  });

  it('offers what a plan needs once all is placed, and walks on to it', () => {
    const one = page();
    one.placing.open(one.sheet());
    one.placing.want(one.sheet(), 'palmar-angle');
    one.placing.want(one.sheet(), 'rotation and sole');
    one.placing.choose('heel.ground');
    // Skipped before by name, asked for again where a plan needs it.
    one.placing.skip(one.live());
    one.placing.line(one.sheet(), [at(1100, 1048), at(144, 1022)]);
    one.placing.click(one.sheet(), at(874, 877));
    expect(one.step()).toBeNull();
    const offer = one.placing.offer(one.live());
    expect(offer).toMatchObject({ name: 'what a plan needs', words: 'what a plan needs', open: 6 });
    if (offer) one.placing.goOn(one.live(), offer);
    const asked: string[] = [];
    for (let key = one.step(); key !== null; key = one.step()) {
      asked.push(key);
      one.placing.skip(one.live());
    }
    expect(asked.toSorted()).toEqual(['heel.ground', 'scale', 'sole.heel', 'sole.tip', 'sole.wing', 'toe.ground']);
    expect(one.placing.offer(one.live())).toBeNull();
  });

  it('asks for a landmark that was chosen by itself before what is wanted', () => {
    const one = page();
    one.placing.open(one.sheet());
    one.placing.choose('heel.ground');
    expect(one.step()).toBe('heel.ground');
    one.placing.click(one.sheet(), at(900, 1040));
    expect(one.step()).toBe('scale');
  });

  it('goes back step by step with Escape: what is begun, what is picked, placing itself', () => {
    const one = page();
    one.placing.open(one.sheet());
    one.placing.click(one.sheet(), at(1, 1));
    one.placing.escape();
    expect([one.placing.first, one.placing.isOn]).toEqual([null, true]);
    one.placing.pick(one.sheet(), 'p3.tip');
    one.placing.escape();
    expect([one.placing.selected, one.placing.isOn]).toEqual([null, true]);
    one.placing.escape();
    expect(one.placing.isOn).toBe(false);
  });

  it('takes away, skips and goes back; the cursor of the text leads to no other film meanwhile', () => {
    const one = page();
    one.placing.open(one.sheet());
    one.model.heard({ type: 'cursor', uri, line: 6 });
    expect(one.sheet().picture).toBe('a.png');
    one.placing.skip(one.live());
    expect(one.step()).toBe('ground');
    one.placing.back(one.live());
    expect([one.step(), one.kept().placing?.skipped]).toEqual(['scale', []]);
    one.placing.pick(one.sheet(), 'p3.tip');
    one.placing.remove(one.sheet());
    expect(one.wishes().at(-1)?.placements).toEqual([{ kind: 'landmark', name: 'p3.tip', at: null }]);
    expect(Object.keys(one.live().placed)).toEqual([]);
    one.placing.history('undo');
    expect(one.told.at(-1)).toEqual({ type: 'history', uri, how: 'undo' });
  });
});
