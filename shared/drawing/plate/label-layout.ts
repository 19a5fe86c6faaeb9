import type { XY } from '../../geometry/vector.ts';
import type { Box } from '../scene.ts';

export interface LabelWish {
  /** The place the leader points at; without one the label goes to the foot of a column. */
  readonly anchor: XY | null;
  readonly width: number;
  readonly height: number;
}

export type MarginSide = 'left' | 'right';

export interface LabelPlace {
  readonly side: MarginSide;
  readonly box: Box;
}

export interface ColumnRules {
  /** The picture: labels stand outside it, left and right. */
  readonly area: Box;
  /** Anchors left of this go to the left column, as long as there is room. */
  readonly middle: number;
  /** From the picture's edge to the labels. */
  readonly gutter: number;
  readonly gap: number;
  /** Where on a label's height its leader sets out. */
  readonly hook: number;
  /** How far a leader runs level, from the label towards the picture, before it turns to its place. */
  readonly knee: number;
}

interface LabelEntry {
  readonly index: number;
  readonly wish: LabelWish;
  top: number;
}

function total(entries: readonly LabelEntry[], gap: number): number {
  return entries.reduce((sum, e) => sum + e.wish.height + gap, entries.length > 0 ? -gap : 0);
}

/** Which column each label goes to: the nearer, until it is full, then whichever anchor is closest to the middle moves. */
function share(wishes: readonly LabelWish[], rules: ColumnRules): Record<MarginSide, LabelEntry[]> {
  const columns: Record<MarginSide, LabelEntry[]> = { left: [], right: [] };
  wishes.forEach((wish, index) => {
    if (wish.anchor) columns[wish.anchor.x < rules.middle ? 'left' : 'right'].push({ index, wish, top: 0 });
  });
  wishes.forEach((wish, index) => {
    if (wish.anchor) return;
    const side = total(columns.left, rules.gap) < total(columns.right, rules.gap) ? 'left' : 'right';
    columns[side].push({ index, wish, top: 0 });
  });
  const off = (e: LabelEntry): number => (e.wish.anchor ? Math.abs(e.wish.anchor.x - rules.middle) : 0);
  for (let moves = 0; moves < wishes.length; moves += 1) {
    const left = total(columns.left, rules.gap);
    const right = total(columns.right, rules.gap);
    const from: MarginSide = left > right ? 'left' : 'right';
    const to: MarginSide = from === 'left' ? 'right' : 'left';
    if (Math.max(left, right) <= rules.area.height) break;
    const candidate = [...columns[from]].sort((a, b) => off(a) - off(b))[0];
    if (!candidate || Math.min(left, right) + candidate.wish.height + rules.gap >= Math.max(left, right)) break;
    columns[from] = columns[from].filter((e) => e !== candidate);
    columns[to].push(candidate);
  }
  return columns;
}

/** Tops as near as may be to the heights wished for, in the given order, without touching (pooled neighbours). */
function settle(entries: LabelEntry[], rules: ColumnRules): void {
  const pools: { sum: number; count: number }[] = [];
  let offset = 0;
  const floor = rules.area.y + rules.area.height;
  for (const e of entries) {
    const wished = (e.wish.anchor ? e.wish.anchor.y - rules.hook : floor) - offset;
    pools.push({ sum: wished, count: 1 });
    offset += e.wish.height + rules.gap;
    for (;;) {
      const last = pools[pools.length - 1]!;
      const before = pools[pools.length - 2];
      if (!before || before.sum / before.count <= last.sum / last.count) break;
      before.sum += last.sum;
      before.count += last.count;
      pools.pop();
    }
  }
  const all = offset - rules.gap;
  const room = Math.max(rules.area.height - all, 0);
  const low = rules.area.height >= all ? rules.area.y : rules.area.y + (rules.area.height - all) / 2;
  let i = 0;
  let down = 0;
  for (const pool of pools) {
    const top = Math.min(Math.max(pool.sum / pool.count, low), low + room);
    for (let k = 0; k < pool.count; k += 1) {
      const e = entries[i]!;
      e.top = top + down;
      down += e.wish.height + rules.gap;
      i += 1;
    }
  }
}

function crosses(a: XY, b: XY, c: XY, d: XY): boolean {
  const side = (p: XY, q: XY, r: XY): number => (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

/** Where the leader of a label leaves its column. */
export function leaderStart(place: LabelPlace, hook: number): XY {
  return {
    x: place.side === 'left' ? place.box.x + place.box.width : place.box.x,
    y: place.box.y + hook,
  };
}

/** Two leaders that cross change places; each exchange shortens the two together, so this comes to rest. */
function uncross(entries: LabelEntry[], knee: number, rules: ColumnRules): void {
  for (let round = 0; round < 40; round += 1) {
    let changed = false;
    for (let i = 0; i < entries.length; i += 1) {
      for (let j = i + 1; j < entries.length; j += 1) {
        const a = entries[i]!;
        const b = entries[j]!;
        if (!a.wish.anchor || !b.wish.anchor) continue;
        const from = { x: knee, y: a.top + rules.hook };
        const to = { x: knee, y: b.top + rules.hook };
        if (!crosses(from, a.wish.anchor, to, b.wish.anchor)) continue;
        entries[i] = b;
        entries[j] = a;
        settle(entries, rules);
        changed = true;
      }
    }
    if (!changed) return;
  }
}

export function layOut(wishes: readonly LabelWish[], rules: ColumnRules): LabelPlace[] {
  const columns = share(wishes, rules);
  const places: LabelPlace[] = [];
  for (const side of ['left', 'right'] as const) {
    const entries = columns[side].sort((a, b) => {
      const ay = a.wish.anchor?.y ?? Infinity;
      const by = b.wish.anchor?.y ?? Infinity;
      return ay === by ? a.index - b.index : ay < by ? -1 : 1;
    });
    const edge = side === 'left' ? rules.area.x - rules.gutter : rules.area.x + rules.area.width + rules.gutter;
    settle(entries, rules);
    uncross(entries, edge + (side === 'left' ? rules.knee : -rules.knee), rules);
    for (const e of entries) {
      places[e.index] = {
        side,
        box: {
          x: side === 'left' ? edge - e.wish.width : edge,
          y: e.top,
          width: e.wish.width,
          height: e.wish.height,
        },
      };
    }
  }
  return places;
}
