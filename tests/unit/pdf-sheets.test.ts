import { expect, it } from 'vitest';
import type { Piece } from '../../src/pdf/flow.ts';
import { sheetsOf } from '../../src/pdf/sheets.ts';

/** What stands on which sheet. Common practice of setting type, no source; the lengths are made up. */

const piece = (name: string, height: number, more: Partial<Piece> = {}): Piece & { readonly name: string } => ({
  name,
  height,
  before: 0,
  after: 0,
  staysWithNext: false,
  paint: () => {},
  ...more,
});

const room = { width: 100, height: 100 };
const laid = (pieces: readonly Piece[]): string[] =>
  sheetsOf(pieces, room).map((sheet) => sheet.pieces.map((one) => (one as ReturnType<typeof piece>).name).join(' '));

it('a piece that does not fit goes on the next sheet whole', () => {
  expect(laid([piece('a', 60), piece('b', 50), piece('c', 50)])).toEqual(['a', 'b c']);
});

it('of the room between two the larger counts, and none above the first of a sheet', () => {
  expect(laid([piece('a', 40, { after: 5 }), piece('b', 45, { before: 15 })])).toEqual(['a b']);
  expect(laid([piece('a', 40, { after: 5 }), piece('b', 45, { before: 15.1 })])).toEqual(['a', 'b']);
  expect(laid([piece('a', 100, { before: 30, after: 30 }), piece('b', 100, { before: 30 })])).toEqual(['a', 'b']);
});

it('a heading goes with what it stands over', () => {
  expect(laid([piece('a', 70), piece('heading', 10, { staysWithNext: true }), piece('b', 30)])).toEqual(['a', 'heading b']);
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

it('what begins a sheet does, and what lies across has a sheet of its own', () => {
  expect(laid([piece('a', 10), piece('b', 10, { isOnNewSheet: true })])).toEqual(['a', 'b']);
  const sheets = sheetsOf([piece('a', 10), piece('wide', 50, { isAcross: true }), piece('b', 10)], room);
  expect(sheets.map(({ isAcross }) => isAcross)).toEqual([false, true, false]);
});

it('a foot whose drawing lies across keeps its words on the sheets before and behind', () => {
  const together = { staysWithNext: true };
  const foot = [piece('heading', 10, together), piece('wide', 50, { ...together, isAcross: true }), piece('how', 20)];
  expect(laid([piece('a', 10), ...foot, piece('b', 10)])).toEqual(['a heading', 'wide', 'how b']);
});
