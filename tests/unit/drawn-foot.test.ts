import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { films } from '../../examples/drawn/films.ts';
import { foot, type Foot, type LandmarkName } from '../../examples/drawn/foot.ts';
import { at, type Point } from '../../examples/drawn/plane.ts';
import { encode, greys } from '../../examples/drawn/png.ts';
import { render } from '../../examples/drawn/render.ts';
import { truth, type Truth } from '../../examples/drawn/truth.ts';

const degrees = 180 / Math.PI;

/** The places of one foot's landmarks, y up, x to the toe; own trigonometry, nothing of the product's. */
type Places = (name: LandmarkName) => Point;

const placesOf =
  (drawn: Foot): Places =>
  (name) => {
    const p = drawn.landmarks.get(name);
    if (!p) throw new Error(`no ${name}`);
    return p;
  };

const slope = (a: Point, b: Point): number => Math.atan2(b.y - a.y, a.x - b.x) * degrees;
const distance = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y);

/** How far from p, square to the line c-d, the line a-b is met. */
function squareTo(p: Point, c: Point, d: Point, a: Point, b: Point): number {
  const length = distance(c, d);
  const n = at((d.y - c.y) / length, (c.x - d.x) / length);
  const u = at(b.x - a.x, b.y - a.y);
  return ((a.x - p.x) * u.y - (a.y - p.y) * u.x) / (n.x * u.y - n.y * u.x);
}

function measured(p: Places): Record<string, number> {
  const lower = p('p3.dorsal.lower');
  const upper = p('p3.dorsal.upper');
  const cd = p('coronet.dorsal');
  const ch = p('coronet.heel');
  const wall = slope(p('wall.lower'), p('wall.upper'));
  const bone = slope(lower, upper);
  const inner = (from: Point): number => squareTo(from, lower, upper, p('wall.inner.lower'), p('wall.inner.upper'));
  return {
    palmarAngle: slope(p('p3.tip'), p('p3.wing')),
    bone,
    wall,
    rotation: bone - wall,
    founderDistance: p('wall.top').y - p('p3.extensor').y,
    hornLamellar: squareTo(upper, lower, upper, p('wall.lower'), p('wall.upper')),
    lamellarUpper: inner(upper),
    lamellarLower: inner(lower),
    soleTip: p('p3.tip').y - p('sole.tip').y,
    soleWing: p('p3.wing').y - p('sole.wing').y,
    cup: p('sole.tip').y,
    heelSurplus: p('sole.heel').y - p('heel.ground').y,
    toeLength: distance(cd, p('toe.ground')),
    bearingLength: p('toe.ground').x - p('heel.ground').x,
    heelAngle: slope(p('heel.ground'), p('heel.upper')),
    coronetAngle: Math.atan2(cd.y - ch.y, cd.x - ch.x) * degrees,
    middleAngle: slope(p('coffin.centre'), p('pastern.centre')),
    proximalAngle: slope(p('pastern.centre'), p('fetlock.centre')),
    axis: slope(p('coffin.centre'), p('fetlock.centre')),
    ratio: distance(p('pastern.centre'), p('fetlock.centre')) / distance(p('coffin.centre'), p('pastern.centre')),
    cortex: distance(p('p3.tip'), p('p3.navicular')),
    toeShare: (100 * (p('toe.ground').x - p('coffin.centre').x)) / (p('toe.ground').x - p('heel.ground').x),
    navicularBelow:
      ((cd.y - ch.y) * (p('navicular.upper').x - ch.x) - (cd.x - ch.x) * (p('navicular.upper').y - ch.y)) /
      distance(cd, ch),
  };
}

const crosses = (a: Point, b: Point, c: Point, d: Point): boolean => {
  const side = (p: Point, q: Point, r: Point): number => (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
};

function selfCrossings(outline: readonly Point[]): number {
  const edges = outline.map((p, i) => [p, outline[(i + 1) % outline.length] ?? p] as const);
  return edges.reduce(
    (sum, [a, b], i) => sum + edges.slice(i + 2).filter(([c, d]) => d !== a && crosses(a, b, c, d)).length,
    0,
  );
}

describe.each(films)('the drawn foot of $name', (film) => {
  const drawn = foot(film.parameters);
  const p = placesOf(drawn);
  const m = measured(p);

  it('measures what was asked for', () => {
    for (const key of [
      'palmarAngle',
      'rotation',
      'founderDistance',
      'hornLamellar',
      'lamellarUpper',
      'lamellarLower',
      'soleTip',
      'soleWing',
      'cup',
      'heelSurplus',
      'toeLength',
      'bearingLength',
      'heelAngle',
      'coronetAngle',
      'middleAngle',
      'proximalAngle',
    ] as const) {
      expect(m[key], key).toBeCloseTo(film.parameters[key], 9);
    }
    expect(m['bone']).toBeCloseTo(film.parameters.palmarAngle + film.parameters.p3Angle, 9);
    expect(p('p3.tip').x).toBe(0);
  });

  it('places the growth ring where it was asked for, with the new growth nearer to the bone', () => {
    const { grownOut, newRotation } = film.parameters;
    if (grownOut === undefined) {
      expect(drawn.landmarks.has('wall.turn')).toBe(false);
      return;
    }
    const grown = slope(p('wall.turn'), p('coronet.dorsal'));
    expect(distance(p('coronet.dorsal'), p('wall.turn'))).toBeCloseTo(grownOut, 9);
    expect((m['bone'] ?? NaN) - grown).toBeCloseTo(newRotation ?? NaN, 9);
    expect(grown).toBeGreaterThan(m['wall'] ?? NaN);
    expect(p('wall.upper').y).toBeLessThan(p('wall.turn').y);
  });

  it('has outlines that do not cross themselves', () => {
    const { outlines, hollows } = drawn.bones;
    for (const [name, outline] of Object.entries({ ...outlines, ...hollows, ...drawn.capsule.outlines })) {
      expect(selfCrossings(outline), name).toBe(0);
    }
  });

  it('keeps the sole between bone and ground, and the bone inside the horn', () => {
    for (const name of ['sole.tip', 'sole.wing', 'sole.heel'] as const) expect(p(name).y).toBeGreaterThan(0);
    expect(m['soleTip']).toBeGreaterThan(5);
    expect(m['soleWing']).toBeGreaterThan(5);
    expect(p('wall.upper').y).toBeGreaterThan(p('wall.lower').y);
    expect(Math.min(...drawn.capsule.outlines.hoof.map((q) => q.y))).toBeGreaterThanOrEqual(-1e-9);
    const lowest = Math.min(...drawn.bones.outlines.p3.map((q) => q.y));
    expect(lowest).toBeGreaterThan(p('sole.tip').y);
  });

  it('has its extreme points where the landmarks say: the crest of P3 on top, the tip foremost', () => {
    const tip = p('p3.tip');
    const crest = p('p3.extensor');
    const { p3 } = drawn.bones.outlines;
    expect(Math.max(...p3.map((q) => q.y)) - crest.y).toBeLessThan(0.25);
    expect(Math.max(...p3.map((q) => q.x)) - tip.x).toBeLessThan(0.25);
    expect(tip.y - Math.min(...p3.map((q) => q.y))).toBeLessThan(0.75);
    const { navicular } = drawn.bones.outlines;
    expect(Math.max(...navicular.map((q) => q.y)) - p('navicular.upper').y).toBeLessThan(0.4);
  });

  it('keeps every landmark on the film', () => {
    const t = truth(film);
    const places = [...Object.values(t.landmarks), t.ground.from, t.ground.to, t.marker.from, t.marker.to];
    for (const [x, y] of places) {
      expect(x).toBeGreaterThan(10);
      expect(y).toBeGreaterThan(10);
      expect(x).toBeLessThan(t.width - 10);
      expect(y).toBeLessThan(t.height - 10);
    }
    expect(t.file.includes(film.taken)).toBe(true);
  });
});

describe('the sound cob', () => {
  it.each(films.filter((f) => f.name.startsWith('bramble')))('$name is like a sound foot', (film) => {
    const m = measured(placesOf(foot(film.parameters)));
    const within = (key: string, low: number, high: number): void => {
      expect(m[key], key).toBeGreaterThanOrEqual(low);
      expect(m[key], key).toBeLessThanOrEqual(high);
    };
    within('cortex', 65, 70);
    within('ratio', 1.65, 1.75);
    within('toeShare', 50, 60);
    within('navicularBelow', 2, 8);
    expect(Math.abs((m['wall'] ?? NaN) - (m['axis'] ?? NaN))).toBeLessThan(3);
    expect(Math.abs((m['wall'] ?? NaN) - (m['heelAngle'] ?? NaN))).toBeLessThan(5);
  });
});

describe('Juniper', () => {
  const course = films.filter((f) => f.name.startsWith('juniper')).map((f) => f.parameters);

  it.each([
    ['palmarAngle', -1],
    ['rotation', -1],
    ['founderDistance', -1],
    ['heelSurplus', -1],
    ['soleTip', 1],
    ['grownOut', 1],
  ] as const)('%s goes one way from film to film', (key, way) => {
    expect(course).toHaveLength(4);
    for (let i = 1; i < course.length; i++) {
      expect(way * ((course[i]?.[key] ?? NaN) - (course[i - 1]?.[key] ?? NaN))).toBeGreaterThan(0);
    }
  });
});

describe('the renderer', () => {
  const [film] = films;
  if (!film) throw new Error('no film');
  const view = { ...film.view, width: 140, height: 120, mmPerPx: 1.8, origin: at(42, 104) };
  const lead = { bar: film.bar, word: 'LF', corner: at(9, 12) };
  const draw = (seed: number, toe: 'left' | 'right' = 'left') =>
    render(foot(film.parameters), film.parameters, { ...view, toe }, lead, seed);

  it('draws the same bytes twice, and others with another seed', () => {
    const first = encode(draw(7));
    expect(encode(draw(7)).equals(first)).toBe(true);
    expect(encode(draw(8)).equals(first)).toBe(false);
  });

  it('packs a picture without loss', () => {
    const drawn = draw(7);
    expect(greys(encode(drawn))).toEqual(drawn.grey);
  });

  it.each(['left', 'right'] as const)('shows bone brighter than horn, horn than air, with the toe to the %s', (toe) => {
    const { grey, width } = draw(7, toe);
    const drawn = foot(film.parameters);
    const side = toe === 'left' ? -1 : 1;
    const tone = (p: Point): number => {
      const x = Math.round(view.origin.x + (side * p.x) / 1.8);
      const y = Math.round(view.origin.y - p.y / 1.8);
      return grey[y * width + x] ?? NaN;
    };
    const p = placesOf(drawn);
    const bone = tone(p('coffin.centre'));
    const horn = tone(at((p('wall.upper').x + p('wall.inner.upper').x) / 2, p('wall.inner.upper').y));
    const air = tone(at(p('toe.ground').x + 14, 80));
    expect(bone).toBeGreaterThan(horn + 40);
    expect(horn).toBeGreaterThan(air + 15);
  });
});

describe('truth.json', () => {
  const written = JSON.parse(readFileSync(new URL('../../examples/drawn/truth.json', import.meta.url), 'utf8')) as {
    films: Truth[];
  };

  it('agrees with the parametric foot, film by film', () => {
    expect(written.films).toEqual(films.map((film) => JSON.parse(JSON.stringify(truth(film))) as Truth));
  });

  it.each(written.films.map((t, i) => [t.file, t, i] as const))('%s gives back the foot in millimetres', (_, t, i) => {
    const film = films[i];
    if (!film) throw new Error('no film');
    const p = placesOf(foot(film.parameters));
    const mm = t.marker.mm / Math.hypot(t.marker.to[0] - t.marker.from[0], t.marker.to[1] - t.marker.from[1]);
    expect(mm).toBeCloseTo(t.mmPerPx, 6);
    // A shod foot stands on its bearing plane.
    const { from, to } = t.bearing ?? t.ground;
    const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
    const u = at((to[0] - from[0]) / length, (to[1] - from[1]) / length);
    const tip = t.landmarks['p3.tip'] ?? [NaN, NaN];
    for (const [name, [x, y]] of Object.entries(t.landmarks)) {
      const along = ((x - tip[0]) * u.x + (y - tip[1]) * u.y) * mm;
      const above = Math.abs((x - from[0]) * u.y - (y - from[1]) * u.x) * mm;
      expect(along, name).toBeCloseTo(p(name as LandmarkName).x, 3);
      expect(above, name).toBeCloseTo(Math.abs(p(name as LandmarkName).y), 3);
    }
  });

  it('has a shod foot on ground that its shoe raises the heel above', () => {
    const [shod, ...others] = written.films.filter(({ bearing }) => bearing);
    expect(others).toEqual([]);
    if (!shod?.bearing) throw new Error('no shod film');
    const angle = ({ from, to }: Truth['ground']): number => Math.atan((to[1] - from[1]) / (to[0] - from[0])) * degrees;
    expect(Math.abs(angle(shod.bearing) - angle(shod.ground))).toBeCloseTo(3, 3);
    // 10 mm below the toe's contact.
    const [x, y] = shod.landmarks['toe.ground'] ?? [NaN, NaN];
    const { from, to } = shod.ground;
    const below =
      Math.abs((x - from[0]) * (to[1] - from[1]) - (y - from[1]) * (to[0] - from[0])) /
      Math.hypot(to[0] - from[0], to[1] - from[1]);
    expect(below * shod.mmPerPx).toBeCloseTo(10 * Math.cos((3 * Math.PI) / 180), 2);
  });

  it('has the size of the picture beside it', () => {
    for (const t of written.films) {
      const header = readFileSync(new URL(`../../examples/${t.file}`, import.meta.url)).subarray(0, 24);
      expect([header.readUInt32BE(16), header.readUInt32BE(20)], t.file).toEqual([t.width, t.height]);
    }
  });
});
