import { expect, it } from 'vitest';
import type { SheetPiece } from '../../src/pdf/flow.ts';
import { sheetsOf } from '../../src/pdf/sheets.ts';

/** What stands on which sheet. Common practice of setting type, no source; the lengths are made up. */

const piece = (
  name: string,
  height: number,
  more: Partial<SheetPiece> = {},
): SheetPiece & { readonly name: string } => ({
  name,
  height,
  before: 0,
  after: 0,
  staysWithNext: false,
  paint: () => {},
  ...more,
});

const room = { height: 100 };
const laid = (pieces: readonly SheetPiece[]): string[] =>
  sheetsOf(pieces, room).map((sheet) => sheet.map((one) => (one as ReturnType<typeof piece>).name).join(' '));

it('a piece that does not fit goes on the next sheet whole', () => {
  expect(laid([piece('a', 60), piece('b', 50), piece('c', 50)])).toEqual(['a', 'b c']);
});

it('of the room between two the larger counts, and none above the first of a sheet', () => {
  expect(laid([piece('a', 40, { after: 5 }), piece('b', 45, { before: 15 })])).toEqual(['a b']);
  expect(laid([piece('a', 40, { after: 5 }), piece('b', 45, { before: 15.1 })])).toEqual(['a', 'b']);
  expect(laid([piece('a', 100, { before: 30, after: 30 }), piece('b', 100, { before: 30 })])).toEqual(['a', 'b']);
});

it('a heading goes with what it stands over', () => {
  expect(laid([piece('a', 70), piece('heading', 10, { staysWithNext: true }), piece('b', 30)])).toEqual([
    'a',
    'heading b',
  ]);
});

it('what stays together and is more than a sheet is parted, and nothing of it is lost', () => {
  const many = Array.from({ length: 7 }, (_, index) => piece(`${index}`, 30, { staysWithNext: true }));
  expect(laid([piece('a', 50), ...many])).toEqual(['a 0', '1 2 3', '4 5 6']);
});

it('a table that goes on has its head again', () => {
  const head = [piece('head', 10)];
  const rows = ['1', '2', '3'].map((name) => piece(name, 40, { head }));
  expect(laid([...head, ...rows])).toEqual(['head 1 2', 'head 3']);
});

it('what begins a sheet does', () => {
  expect(laid([piece('a', 10), piece('b', 10, { isOnNewSheet: true })])).toEqual(['a', 'b']);
  expect(laid([piece('a', 10, { isOnNewSheet: true })])).toEqual(['a']);
});
