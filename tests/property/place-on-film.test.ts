import fc from 'fast-check';
import { expect, it } from 'vitest';
import { parse } from '../../shared/notation/parse.ts';
import { landmarksOf } from '../../shared/notation/landmarks.ts';
import { assemble } from '../../shared/record/assemble.ts';
import type { CaseRecord, Film, Placing, Reading } from '../../shared/record/schema.ts';
import { placeOnFilm } from '../../shared/edits/place-on-film.ts';
import { tenth } from '../../shared/edits/tenth.ts';
import type { Placement } from '../../shared/edits/placing-schema.ts';

const place = fc.record({
  x: fc.double({ min: -50, max: 9000, noNaN: true }),
  y: fc.double({ min: -50, max: 9000, noNaN: true }),
});
const word = fc.constantFrom(...landmarksOf('lateral').map(({ word }) => word));
/** Apart as the ends of a marker of 65 to 300 mm are, where a pixel goes from 0.005 to 5 mm. */
const two = fc.tuple(place, place).filter(([a, b]) => Math.abs(a.x - b.x) > 61);
const placement: fc.Arbitrary<Placement> = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.record(
      {
        kind: fc.constant('landmark' as const),
        name: word,
        at: fc.option(place, { freq: 4 }),
        spread: fc.constantFrom(null, 0.6, 12),
        followed: fc.constant(true as const),
      },
      { requiredKeys: ['kind', 'name', 'at'] },
    ),
  },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('bearing' as const), ends: fc.option(two, { freq: 4 }) }) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('ground' as const), ends: fc.option(two, { freq: 4 }) }) },
  {
    weight: 1,
    arbitrary: fc.record({
      kind: fc.constant('marker' as const),
      ends: fc.option(two, { freq: 4 }),
      mm: fc.option(fc.integer({ min: 65, max: 300 })),
    }),
  },
);
/** One of a kind in one wish: what is asked twice at once has no order. */
const placements = fc.uniqueArray(placement, {
  minLength: 1,
  maxLength: 8,
  selector: (one) => (one.kind === 'landmark' ? one.name : one.kind),
});

/** Lines as hands write them, whole and broken. */
const filmLine = fc.oneof(
  fc
    .tuple(
      word,
      fc.integer({ min: 0, max: 2000 }),
      fc.constantFrom('', ' +- 3', '  # as seen', ' ± 2.5  # blurred', ' +- 0.7 followed', ' followed # seen'),
    )
    .map(([name, x, more]) => `    ${name} @ ${x}, ${x % 977}${more}`),
  fc.constantFrom(
    '    ground 1, 2 .. 900, 7  # the block',
    '    scale 100 mm = 0, 0 .. 0, 900',
    '\tscale   0.1 mm/px',
    '    magnify 1.04',
    '    taken 2026-03-03',
    '    | Seen on the yard.',
    '    # a remark of its own',
    '',
    '    p3.tip',
    '    p3.wing @',
    '    p3.tip @ 4,, 7',
    '    ground somewhere',
    '    what is this',
    '    expect palmar-angle 5 deg',
  ),
);
const lines = fc.array(filmLine, { maxLength: 12 });
const text = fc
  .record({
    unnamed: lines,
    one: fc.option(lines),
    other: fc.option(lines),
    end: fc.constantFrom('\n', '\r\n'),
    open: fc.boolean(),
  })
  .map(({ unnamed, one, other, end, open }) => {
    const read = (name: string, own: readonly string[] | null): string[] => (own ? [`    read "${name}"`, ...own] : []);
    const all = [
      'hoof 1',
      'visit 2026-03-04',
      '  weight 500 kg',
      '  film LF lateral "a.png"',
      ...unnamed,
      ...read('A', one),
      ...read('B', other),
      '  film LF lateral "b.png"',
      '    p3.tip @ 1, 2',
    ];
    return all.join(end) + (open ? '' : end);
  });

const reading = fc.constantFrom(null, 'A', 'B');

interface Meant {
  readonly places: ReadonlyMap<string, Pick<Placing, 'x' | 'y' | 'spread'> & { readonly followed: boolean }>;
  readonly ground: unknown;
  readonly bearing: unknown;
  readonly scale: unknown;
}

const filmOf = (record: CaseRecord): Film | undefined => record.visits[0]?.is.films[0];
const readingOf = (film: Film | undefined, reader: string | null): Reading | undefined =>
  film?.readings.find((one) => one.reader === reader);

function meant(of: string, reader: string | null): Meant {
  const film = filmOf(assemble(parse(of)).record);
  const { ground = null, bearing = null, scale = null } = film ?? {};
  return {
    places: new Map(
      (readingOf(film, reader)?.placings ?? []).map(({ name, x, y, spread, followed }) => [
        name,
        { x, y, spread, followed: followed !== undefined },
      ]),
    ),
    ground: ground && [ground.from, ground.to],
    bearing: bearing && [bearing.from, bearing.to],
    scale:
      scale?.kind === 'marker'
        ? [scale.length.base, scale.marker.from, scale.marker.to]
        : scale?.kind === 'pixel'
          ? scale.mmPerPx
          : null,
  };
}

/** The record without the reading that is placed on, and without where things stand. */
function rest(of: string, reader: string | null): unknown {
  const { record } = assemble(parse(of));
  const film = filmOf(record);
  if (film) {
    film.ground = null;
    film.bearing = null;
    film.scale = null;
    film.readings = film.readings.filter((one) => one.reader !== reader);
  }
  return JSON.parse(
    JSON.stringify(record, (key, value: unknown) =>
      // What is placed anew over a line that was not understood mends it.
      ['at', 'line', 'head', 'start', 'end', 'measureAt', 'dateAt', 'unreadAt'].includes(key) ? undefined : value,
    ),
  );
}

it('a file that was placed on has exactly these places, and everything else as it was', () => {
  fc.assert(
    fc.property(text, reading, placements, (before, reader, wish) => {
      const made = placeOnFilm(parse(before), { line: 3, picture: 'a.png', foot: 'LF', view: 'lateral', reader }, wish);
      if ('refused' in made) {
        if (made.refused.includes('no reading by')) expect(before).not.toContain(`read "${reader}"`);
        else if (made.refused.startsWith('Nothing says how long')) {
          expect(wish.some((one) => one.kind === 'marker' && one.ends && one.mm === null)).toBe(true);
          expect(Array.isArray(meant(before, reader).scale)).toBe(false);
        } else {
          expect(made.refused).toMatch(/^Without the (?:ground|bearing|scale) line/);
          expect(wish.some((one) => one.kind !== 'landmark' && !one.ends)).toBe(true);
        }
        return;
      }
      const { edits } = made;
      for (const [at, edit] of edits.entries()) expect(edit.start).toBeGreaterThanOrEqual(edits[at - 1]?.end ?? 0);
      let after = '';
      let from = 0;
      for (const edit of edits) {
        after += before.slice(from, edit.start) + edit.text;
        from = edit.end;
      }
      after += before.slice(from);
      const was = meant(before, reader);
      const is = meant(after, reader);
      const places = new Map(was.places);
      let { ground, bearing, scale } = was;
      const twice = new Set<string>();
      for (const one of wish)
        if (one.kind === 'landmark') {
          if (one.at) {
            const before = was.places.get(one.name);
            const kept = before?.followed && !one.followed ? null : (before?.spread ?? null);
            const spread = one.spread === undefined ? kept : one.spread;
            places.set(one.name, { ...tenth(one.at), spread, followed: one.followed === true });
          } else {
            places.delete(one.name);
            // Where it stood twice the second comes to count, which is what the file then says.
            twice.add(one.name);
          }
        } else if (one.kind === 'ground') ground = one.ends && one.ends.map(tenth);
        else if (one.kind === 'bearing') bearing = one.ends && one.ends.map(tenth);
        else if (one.ends) {
          const known = Array.isArray(was.scale) ? (was.scale[0] as number) : Number.NaN;
          scale = [one.mm ?? known, ...one.ends.map(tenth)];
        } else scale = null;
      for (const name of twice) {
        const second = is.places.get(name);
        if (second && was.places.has(name) && before.split(name).length > 2) places.set(name, second);
      }
      expect(Object.fromEntries(is.places)).toEqual(Object.fromEntries(places));
      const removed = (kind: 'ground' | 'bearing' | 'marker'): boolean =>
        wish.some((one) => one.kind === kind && !one.ends);
      if (!removed('ground')) expect(is.ground).toEqual(ground);
      if (!removed('bearing')) expect(is.bearing).toEqual(bearing);
      if (!removed('marker')) expect(is.scale).toEqual(scale);
      expect(rest(after, reader)).toEqual(rest(before, reader));
      // No remark and no prose is lost, and line ends stay of one kind.
      const remarks = (of: string): number => of.split('#').length + of.split('|').length;
      expect(remarks(after)).toBe(remarks(before));
      if (before.includes('\r\n')) expect(after.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
      else expect(after).not.toContain('\r');
    }),
    { numRuns: 600 },
  );
});
