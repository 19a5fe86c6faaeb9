import { heightOf, type SheetPiece, type SheetRoom } from './flow.ts';

/** What stands on one sheet, from above. */
export type Sheet = readonly SheetPiece[];

/** Pieces that stay together go on the next sheet where this one has no room for all of them; more than a sheet holds is parted. */
export function sheetsOf(pieces: readonly SheetPiece[], { height }: Pick<SheetRoom, 'height'>): Sheet[] {
  const sheets: SheetPiece[][] = [[]];
  const last = (): SheetPiece[] => sheets.at(-1) ?? [];
  const fits = (more: readonly SheetPiece[]): boolean => heightOf([...last(), ...more]) <= height + rounding;
  const next = (): void => void (last().length > 0 && sheets.push([]));
  for (const group of groupsOf(pieces)) {
    if (group[0]?.isOnNewSheet) next();
    else if (!fits(group) && heightOf(withHead(group)) <= height) next();
    for (const piece of group) {
      if (!fits([piece])) next();
      last().push(...(last().length === 0 ? withHead([piece]) : [piece]));
    }
  }
  return sheets.filter((sheet) => sheet.length > 0);
}

/** Points: sums in another order differ by less. */
const rounding = 0.01;

const withHead = (group: readonly SheetPiece[]): SheetPiece[] => [...(group[0]?.head ?? []), ...group];

function groupsOf(pieces: readonly SheetPiece[]): SheetPiece[][] {
  const groups: SheetPiece[][] = [];
  let open: SheetPiece[] = [];
  for (const [index, piece] of pieces.entries()) {
    open.push(piece);
    const next = pieces[index + 1];
    if (piece.staysWithNext && next && !next.isOnNewSheet) continue;
    groups.push(open);
    open = [];
  }
  return groups;
}
