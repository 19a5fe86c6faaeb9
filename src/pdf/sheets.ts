import { heightOf, paintBelow, type Piece, type Room } from './flow.ts';
import type { Pen } from './pen.ts';

/** What stands on one sheet, from above. */
export interface Sheet {
  readonly isAcross: boolean;
  readonly pieces: readonly Piece[];
}

/** Pieces that stay together go on the next sheet where this one has no room for all of them; more than a sheet holds is parted. */
export function sheetsOf(pieces: readonly Piece[], { height }: Room): Sheet[] {
  const sheets: { isAcross: boolean; pieces: Piece[] }[] = [];
  const next = (isAcross: boolean): void => void sheets.push({ isAcross, pieces: [] });
  const fits = (more: readonly Piece[]): boolean =>
    heightOf([...(sheets.at(-1)?.pieces ?? []), ...more]) <= height + 0.01;
  const put = (piece: Piece): void => {
    const sheet = sheets.at(-1);
    if (sheet?.pieces.length === 0 && piece.head) sheet.pieces.push(...piece.head);
    sheet?.pieces.push(piece);
  };
  next(false);
  for (const group of groupsOf(pieces)) {
    const last = sheets.at(-1);
    const isAcross = group.some((piece) => piece.isAcross === true);
    const isEmpty = last?.pieces.length === 0;
    if (isAcross || last?.isAcross || (group[0]?.isOnNewSheet && !isEmpty)) next(isAcross);
    else if (!isEmpty && !fits(group) && heightOf(withHead(group)) <= height) next(false);
    for (const piece of group) {
      if (!isAcross && (sheets.at(-1)?.pieces.length ?? 0) > 0 && !fits([piece])) next(false);
      put(piece);
    }
  }
  return sheets.filter((sheet) => sheet.pieces.length > 0);
}

const withHead = (group: readonly Piece[]): Piece[] => [...(group[0]?.head ?? []), ...group];

function groupsOf(pieces: readonly Piece[]): Piece[][] {
  const groups: Piece[][] = [];
  let open: Piece[] = [];
  for (const [index, piece] of pieces.entries()) {
    open.push(piece);
    const next = pieces[index + 1];
    // A drawing that lies across has a sheet of its own.
    const isParted = (piece.isAcross ?? false) !== (next?.isAcross ?? false);
    if (piece.staysWithNext && next && !next.isOnNewSheet && !isParted) continue;
    groups.push(open);
    open = [];
  }
  return groups;
}

export function paintSheet(sheet: Sheet, pen: Pen, x: number, y: number): void {
  paintBelow(sheet.pieces, pen, x, y);
}
