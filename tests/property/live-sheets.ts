import type { CutSheet, FilmSheet } from '../../shared/views/film-sheet.ts';
import type { Placement } from '../../shared/edits/placing-schema.ts';
import type { Dice } from './dice.ts';

/** Sums over the same places in another order differ in the last digits. */
export const plain = (value: number): number => Number(value.toPrecision(11));

const settled = (value: unknown): unknown =>
  JSON.parse(
    JSON.stringify(value, (_, one: unknown) => (typeof one === 'number' ? Number(one.toFixed(7)) + 0 : one)),
  ) as unknown;

/** All of a sheet but notes and lines, which are told of a text, with landmarks in an order of their own. */
export function sheetNumbers({
  notes: _notes,
  line: _line,
  endLine: _end,
  placed,
  rows,
  input,
  cuts,
  ...rest
}: FilmSheet) {
  return {
    ...rest,
    placed: Object.fromEntries(
      Object.entries(placed)
        .map(([name, { x, y }]) => [name, x, y] as const)
        .sort()
        .map(([name, x, y]) => [name, { x, y }]),
    ),
    rows: rows.map(({ line: _line, ...row }) => ({ ...row, value: plain(row.value), sd: plain(row.sd) })),
    input: { ...input, landmarks: [...input.landmarks].sort((a, b) => (a.name < b.name ? -1 : 1)) },
    cuts: cuts.map(cutNumbers),
  };
}

/** With its deviations as they are shown. */
function cutNumbers({ notes: _notes, line: _line, endLine: _end, after, ...rest }: CutSheet): unknown {
  const turned = Object.entries(after?.turned ?? {}).sort();
  return settled({ ...rest, after: after && { ...after, turned } });
}

/** A few places anywhere, new, moved or taken off; now and then another ground line or marker. */
export function randomPlacements(dice: Dice, sheet: FilmSheet): Placement[] {
  const spot = () => ({ x: dice.between(0, 1400), y: dice.between(0, 1200) });
  // Anywhere at all, or a little beside where it is, as a hand moves it.
  const put = (name: string) => {
    const now = sheet.placed[name];
    if (!now || dice.chance(0.3)) return spot();
    return { x: now.x + dice.between(-12, 12), y: now.y + dice.between(-12, 12) };
  };
  const names = [...new Set([...Object.keys(sheet.placed), ...sheet.missing])];
  const placements: Placement[] = dice
    .shuffled(names)
    .slice(0, 1 + Math.floor(dice.uniform() * 4))
    .map((name) => ({
      kind: 'landmark',
      name,
      at: dice.chance(0.15) ? null : put(name),
      ...(dice.chance(0.2) && { spread: dice.between(0, 9), followed: true as const }),
    }));
  if (dice.chance(0.3)) placements.push({ kind: 'ground', ends: dice.chance(0.2) ? null : [spot(), spot()] });
  if (dice.chance(0.2)) placements.push({ kind: 'bearing', ends: dice.chance(0.2) ? null : [spot(), spot()] });
  if (dice.chance(0.3))
    placements.push({
      kind: 'marker',
      ends: dice.chance(0.2) ? null : [spot(), spot()],
      // Only a marker that stands there has a length to keep.
      mm: dice.chance(0.5) && sheet.marker ? null : 50,
    });
  return placements;
}
