import { describe, expect, it } from 'vitest';
import { edgeEnds } from '../../shared/picture/seek/edge-ends.ts';
import { edgeCircle, edgeLine, longEdgeLine } from '../../shared/picture/seek/edges.ts';
import type { GreyPicture } from '../../shared/picture/seek/grey-picture.ts';
import { findPatch, type PatchQuest } from '../../shared/picture/seek/patch-search.ts';
import { findLine } from '../../shared/picture/seek/profile-line.ts';
import { pyramidOf, type Pyramid } from '../../shared/picture/seek/pyramid.ts';
import { Dice } from '../property/dice.ts';

type Shade = (x: number, y: number) => number;

/** A picture from the grey at each place: where everything lies is known to any fraction of a pixel. */
function drawn(shade: Shade, seed: number, grain = 3, side = 240): Pyramid {
  const dice = new Dice(seed);
  const greys = Float32Array.from({ length: side * side }, (_, i) => {
    const noise = grain * (dice.between(-1, 1) + dice.between(-1, 1));
    return shade(i % side, Math.floor(i / side)) + noise;
  });
  const picture: GreyPicture = { width: side, height: side, greys };
  return pyramidOf(picture);
}

/** From 0 to 1 over a few pixels. */
const rise = (across: number): number => 1 / (1 + Math.exp(-across / 0.9));

/** A corner of light with a bright bar beside it, at 0, 0: it tells place, turn and size. */
const corner: Shade = (x, y) => 60 + 90 * rise(x + 0.3 * y) * rise(y) + 50 * rise(x + 9) * rise(-x - 5) * rise(-y);

const turnedPlace = (x: number, y: number, degrees: number, size: number): { x: number; y: number } => {
  const [c, s] = [Math.cos((degrees * Math.PI) / 180) / size, Math.sin((degrees * Math.PI) / 180) / size];
  return { x: c * x + s * y, y: -s * x + c * y };
};

const same = { right: { x: 1, y: 0 }, down: { x: 0, y: 1 } };
const before = drawn((x, y) => corner(x - 100.4, y - 110.7), 1);
const quest: PatchQuest = {
  from: { x: 100.4, y: 110.7 },
  half: 20,
  map: same,
  start: { x: 132, y: 121 },
  reach: 16,
  turn: 8,
  size: 0.03,
};

describe('a patch of one picture is found on another', () => {
  it.each([
    [0, 1, false],
    [4.3, 1.02, false],
    [-6.1, 0.98, false],
    [3, 1, true],
  ])('turned by %f degrees, %f times as large, mirrored: %s', (degrees, size, mirrored) => {
    const now = drawn((x, y) => {
      const place = turnedPlace((mirrored ? -1 : 1) * (x - 127.3), y - 117.9, mirrored ? -degrees : degrees, size);
      // Another exposure as well.
      return 30 + 0.7 * corner(place.x, place.y);
    }, 2);
    const map = mirrored ? { right: { x: -1, y: 0 }, down: { x: 0, y: 1 } } : same;
    const found = findPatch(before, now, { ...quest, map });
    expect(Math.hypot((found?.at.x ?? 0) - 127.3, (found?.at.y ?? 0) - 117.9)).toBeLessThan(0.15);
    expect(Math.abs((found?.turn ?? 99) - degrees)).toBeLessThan(0.6);
    expect(found?.correlation).toBeGreaterThan(0.9);
    expect(found?.rival).toBeLessThan(0.75);
    expect(found?.worst).toBeLessThan(0.3);
    expect(found?.atRim).toBe(false);
  });

  it('about a pivot, which itself lies elsewhere', () => {
    const pivot = { x: 60, y: 150 };
    const now = drawn((x, y) => {
      const place = turnedPlace(x - 60 - 1.2, y - 150 + 0.7, 7, 1);
      return corner(place.x + 60 - 100.4, place.y + 150 - 110.7);
    }, 3);
    const found = findPatch(before, now, { ...quest, start: quest.from, pivot, reach: 4, turn: 12, size: 0 });
    expect(found?.turn).toBeCloseTo(7, 0);
    expect(Math.hypot((found?.shift.x ?? 9) - 1.2, (found?.shift.y ?? 9) + 0.7)).toBeLessThan(0.5);
  });

  it('along a straight edge tells nothing, and says so', () => {
    const edge: Shade = (x, y) => 60 + 100 * rise(0.6 * (x - 120) + 0.8 * (y - 120));
    const found = findPatch(drawn(edge, 4), drawn(edge, 5), {
      ...quest,
      from: { x: 120, y: 120 },
      start: { x: 122, y: 119 },
    });
    expect(found === null || found.worst > 1 || found.atRim || found.rival > found.correlation - 0.05).toBe(true);
    // Across the edge it is told well all the same.
    expect(found?.best ?? 0).toBeLessThan(0.2);
  });

  it('of two that are alike says that there is a rival', () => {
    const now = drawn((x, y) => corner(x - 121, y - 121) + corner(x - 145, y - 121) - 60, 6);
    const found = findPatch(before, now, { ...quest, half: 8 });
    expect((found?.correlation ?? 0) - (found?.rival ?? 0)).toBeLessThan(0.2);
  });

  it('that goes beyond its picture is none, and in an even place neither', () => {
    expect(findPatch(before, before, { ...quest, from: { x: 10, y: 110 } })).toBeNull();
    const even = drawn(() => 80, 7, 0);
    expect(findPatch(even, even, quest)).toBeNull();
  });
});

describe('a line is fitted to an edge', () => {
  const truth: Shade = (x, y) => 0.5 * (x - 120) + Math.sqrt(0.75) * (y - 120.4);
  const edge = drawn((x, y) => 50 + 70 * rise(truth(x, y)), 8, 6);
  /** Two clicks beside it, on either side. */
  const clicks = [
    { x: 60.5, y: 152.3 },
    { x: 185.2, y: 87.6 },
  ] as const;

  it('to a small part of a pixel, and says how well', () => {
    const line = edgeLine(edge, ...clicks, 8);
    expect(line).not.toBeNull();
    for (const end of line?.ends ?? []) expect(Math.abs(truth(end.x, end.y))).toBeLessThan(0.15);
    expect(line?.share).toBeGreaterThan(0.9);
    expect(line?.angleSd).toBeLessThan(0.2);
  });

  it('and in 200 grainy pictures lies within two of the stated deviations as often as is due', () => {
    let [one, two] = [0, 0];
    for (let seed = 0; seed < 100; seed++) {
      const picture = drawn((x, y) => 50 + 60 * rise(truth(x, y)), 100 + seed, 7);
      const line = edgeLine(picture, ...clicks, 6);
      for (const [i, end] of (line?.ends ?? []).entries()) {
        const off = Math.abs(truth(end.x, end.y)) / (line?.sds[i] ?? 0);
        if (off < 1) one++;
        if (off < 2) two++;
      }
    }
    // Normal: 136.5 and 190.9 of 200. Within 20 % of the deviation: 115 to 154, and 178 to 197.
    expect(one).toBeGreaterThan(115);
    expect(two).toBeGreaterThan(178);
  });

  it('although a quarter of it is hidden by something else', () => {
    const hidden = drawn((x, y) => (x > 100 && x < 130 ? 200 - y / 3 : 50 + 70 * rise(truth(x, y))), 9, 4);
    const line = edgeLine(hidden, ...clicks, 8);
    for (const end of line?.ends ?? [{ x: 0, y: 0 }]) expect(Math.abs(truth(end.x, end.y))).toBeLessThan(0.2);
    expect(line?.share).toBeLessThan(0.9);
  });

  it('and there is none in grain, nor through one place', () => {
    expect(
      edgeLine(
        drawn(() => 90, 10, 4),
        ...clicks,
        8,
      ),
    ).toBeNull();
    expect(edgeLine(edge, clicks[0], clicks[0], 8)).toBeNull();
  });
});

describe('a circle is fitted to an arc', () => {
  const rim: Shade = (x, y) => 40 + 90 * rise(35 - Math.hypot(x - 118.6, y - 101.3));
  const picture = drawn(rim, 11, 5);
  const at = (degrees: number, off: number): { x: number; y: number } => ({
    x: 118.6 + (35 + off) * Math.cos((degrees * Math.PI) / 180),
    y: 101.3 + (35 + off) * Math.sin((degrees * Math.PI) / 180),
  });

  it('from three clicks near it', () => {
    const circle = edgeCircle(picture, [at(20, 2), at(95, -1.5), at(150, 1)], 7);
    expect(Math.hypot((circle?.centre.x ?? 0) - 118.6, (circle?.centre.y ?? 0) - 101.3)).toBeLessThan(0.4);
    expect(Math.abs((circle?.radius ?? 0) - 35)).toBeLessThan(0.3);
    expect(circle?.centreSd).toBeLessThan(0.3);
  });

  it('and says when a short arc tells it worse', () => {
    const wide = edgeCircle(picture, [at(20, 1), at(95, -1), at(150, 1)], 6);
    const short = edgeCircle(picture, [at(70, 0), at(90, 0), at(110, 0)], 6);
    expect(short?.centreSd ?? 0).toBeGreaterThan(3 * (wide?.centreSd ?? Infinity));
  });

  it('and is none where three clicks lie on a line, or there is no edge', () => {
    expect(edgeCircle(picture, [at(0, 0), { x: 118.6, y: 101.3 }, at(180, 0)], 6)).toBeNull();
    expect(
      edgeCircle(
        drawn(() => 90, 12, 3),
        [at(20, 0), at(95, 0), at(150, 0)],
        6,
      ),
    ).toBeNull();
  });
});

describe('a line of one picture is found on another', () => {
  /** A bright bar: two edges beside each other, of which only one is the line. */
  const bar = (across: number): number => 60 + 80 * rise(across) - 50 * rise(across - 7);
  const old: Shade = (x, y) => bar(x - 100 + 0.2 * (y - 120));
  const truth: Shade = (x, y) => Math.cos(0.26) * (x - 113.4) + Math.sin(0.26) * (y - 120);
  const now = drawn((x, y) => 20 + 0.8 * bar(truth(x, y)), 14);
  const on = (y: number): { x: number; y: number } => ({ x: 100 - 0.2 * (y - 120), y });

  it('by what the greys across it are, not by the strongest edge', () => {
    const found = findLine(drawn(old, 13), now, {
      before: [on(60), on(180)],
      expected: [
        { x: 126, y: 60 },
        { x: 102, y: 180 },
      ],
      side: 12,
      reach: 12,
      size: 1,
      mirrored: false,
      places: 40,
    });
    for (const end of found?.ends ?? [{ x: 0, y: 0 }]) expect(Math.abs(truth(end.x, end.y))).toBeLessThan(0.2);
    expect(found?.share).toBeGreaterThan(0.8);
  });

  it('and is none where nothing goes across like it', () => {
    const even = drawn(() => 70, 15);
    const quest = {
      before: [on(60), on(180)],
      expected: [on(60), on(180)],
      side: 12,
      reach: 12,
      size: 1,
      places: 40,
    } as const;
    expect(findLine(drawn(old, 13), even, { ...quest, mirrored: false })).toBeNull();
  });
});

describe('a bar is laid onto its ends', () => {
  /** A bar from one place to another, so many pixels wide to either side; lighter than what lies round it. */
  const from = { x: 70.3, y: 40.6 };
  const to = { x: 112.8, y: 196.2 };
  const long = Math.hypot(to.x - from.x, to.y - from.y);
  const way = { x: (to.x - from.x) / long, y: (to.y - from.y) / long };
  const along = (x: number, y: number): number => (x - from.x) * way.x + (y - from.y) * way.y;
  const across = (x: number, y: number): number => (y - from.y) * way.x - (x - from.x) * way.y;
  const bar =
    (low: number, high: number, wide = 6): Shade =>
    (x, y) => {
      const [a, c] = [along(x, y), across(x, y)];
      return low + (high - low) * rise(a) * rise(long - a) * rise(wide - c) * rise(wide + c);
    };
  const clicks = [
    { x: from.x + 2.5, y: from.y - 3 },
    { x: to.x - 1.2, y: to.y + 4 },
  ] as const;

  it.each([
    [60, 180],
    [170, 70],
  ])('from grey %i around it to %i, across each end to a fraction of a pixel', (low, high) => {
    const ends = edgeEnds(drawn(bar(low, high), 31), ...clicks, 9);
    expect(Math.abs(along(ends?.[0].x ?? 99, ends?.[0].y ?? 99))).toBeLessThan(0.25);
    expect(Math.abs(along(ends?.[1].x ?? 99, ends?.[1].y ?? 99) - long)).toBeLessThan(0.25);
    // Along the line between the clicks and nowhere else.
    const [a, b] = clicks;
    for (const end of ends ?? []) {
      const off = (end.x - a.x) * (b.y - a.y) - (end.y - a.y) * (b.x - a.x);
      expect(Math.abs(off / Math.hypot(b.x - a.x, b.y - a.y))).toBeLessThan(1e-6);
    }
  });

  it('not where one end is not there, where both could be elsewhere, or where it is no bar', () => {
    const open: Shade = (x, y) => 60 + 120 * rise(along(x, y)) * rise(6 - Math.abs(across(x, y)));
    expect(edgeEnds(drawn(open, 32), ...clicks, 9)).toBeNull();
    // Marks across it like those of a ruler, 5 px apart: which one is its end nobody can tell.
    const ruler: Shade = (x, y) => {
      const a = along(x, y);
      return 60 + 60 * (rise(a) + rise(a - 5)) * rise(long - a) * rise(6 - Math.abs(across(x, y)));
    };
    expect(edgeEnds(drawn(ruler, 33), ...clicks, 9)).toBeNull();
    // Lighter inwards at one end and darker at the other.
    const steps: Shade = (x, y) => 60 + 60 * (rise(along(x, y)) + rise(along(x, y) - long));
    expect(edgeEnds(drawn(steps, 34), ...clicks, 9)).toBeNull();
    expect(
      edgeEnds(
        drawn(() => 90, 35, 6),
        ...clicks,
        9,
      ),
    ).toBeNull();
    expect(edgeEnds(drawn(bar(60, 180), 36), clicks[0], clicks[0], 9)).toBeNull();
  });
});

describe('whatever is fitted', () => {
  const off = (a: { x: number; y: number }, b: { x: number; y: number }): number => Math.hypot(a.x - b.x, a.y - b.y);

  it('no point is moved by more than the reach', () => {
    const dice = new Dice(77);
    const found = { line: 0, long: 0, ends: 0, circle: 0 };
    for (let time = 0; time < 40; time++) {
      const turn = dice.between(0, Math.PI);
      const [c, s] = [Math.cos(turn), Math.sin(turn)];
      const kind = time % 3;
      const picture = drawn(
        (x, y) => {
          const [u, v] = [c * (x - 120) + s * (y - 120), -s * (x - 120) + c * (y - 120)];
          if (kind === 0) return 60 + 90 * rise(v) + 40 * rise(v - 6);
          if (kind === 1) return 60 + 120 * rise(70 - Math.abs(u)) * rise(5 - Math.abs(v));
          return 60 + 90 * rise(55 - Math.hypot(u, v));
        },
        100 + time,
        dice.between(0, 8),
      );
      const reach = dice.between(2, 12);
      const click = (u: number, v: number): { x: number; y: number } => {
        const [du, dv] = [dice.between(-reach, reach), dice.between(-reach, reach)];
        return { x: 120 + c * (u + du) - s * (v + dv), y: 120 + s * (u + du) + c * (v + dv) };
      };
      const [a, b] = [click(-70, 0), click(70, 0)];
      for (const [name, fit] of [
        ['line', edgeLine(picture, a, b, reach)],
        ['long', longEdgeLine(picture, a, b, reach)],
      ] as const) {
        if (!fit) continue;
        found[name] += 1;
        expect(off(fit.ends[0], a)).toBeLessThanOrEqual(reach);
        expect(off(fit.ends[1], b)).toBeLessThanOrEqual(reach);
      }
      const ends = edgeEnds(picture, a, b, reach);
      if (ends) {
        found.ends += 1;
        expect(off(ends[0], a)).toBeLessThanOrEqual(reach);
        expect(off(ends[1], b)).toBeLessThanOrEqual(reach);
      }
      const rim = [click(-55, 0), click(0, 55), click(39, 39)] as const;
      const circle = edgeCircle(picture, [...rim], reach);
      if (!circle) continue;
      found.circle += 1;
      for (const one of rim) expect(Math.abs(off(one, circle.centre) - circle.radius)).toBeLessThanOrEqual(reach);
    }
    // Enough was fitted for this to say something.
    expect(Math.min(found.line, found.long, found.ends, found.circle)).toBeGreaterThanOrEqual(4);
  });

  it('in grain alone there is no edge to fit to', () => {
    for (let seed = 0; seed < 12; seed++) {
      const picture = drawn(() => 110, 300 + seed, 9);
      const [a, b, c] = [
        { x: 50, y: 60 },
        { x: 180, y: 90 },
        { x: 120, y: 190 },
      ] as const;
      expect(edgeLine(picture, a, b, 9)).toBeNull();
      expect(longEdgeLine(picture, a, b, 9)).toBeNull();
      expect(edgeEnds(picture, a, b, 9)).toBeNull();
      expect(edgeCircle(picture, [a, b, c], 9)).toBeNull();
    }
  });
});

describe('a long faint edge', () => {
  it('is found where one of its pieces by itself is lost in the grain', () => {
    const faint: Shade = (x, y) => 80 + 10 * rise(y - 100.4 - 0.02 * x);
    const clicks = [
      { x: 10, y: 103 },
      { x: 229, y: 102 },
    ] as const;
    const line = longEdgeLine(drawn(faint, 41, 4), ...clicks, 7);
    for (const { x, y } of line?.ends ?? [{ x: 0, y: 0 }]) expect(Math.abs(y - 100.4 - 0.02 * x)).toBeLessThan(0.5);
    expect(edgeLine(drawn(faint, 41, 4), ...clicks, 7)).toBeNull();
  });
});
