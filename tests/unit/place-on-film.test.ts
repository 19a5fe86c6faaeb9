import { describe, expect, it } from 'vitest';
import { format } from '../../shared/notation/format.ts';
import { parse } from '../../shared/notation/parse.ts';
import { placeOnFilm, type FilmAddress } from '../../shared/edits/place-on-film.ts';
import type { Placement } from '../../shared/edits/placing-schema.ts';

const address: FilmAddress = { line: 3, picture: 'a.png', foot: 'LF', view: 'lateral', reader: null };

function placed(text: string, placements: readonly Placement[], where: Partial<FilmAddress> = {}): string {
  const made = placeOnFilm(parse(text), { ...address, ...where }, placements);
  if ('refused' in made) throw new Error(made.refused);
  let result = '';
  let from = 0;
  for (const edit of made.edits) {
    expect(edit.start).toBeGreaterThanOrEqual(from);
    result += text.slice(from, edit.start) + edit.text;
    from = edit.end;
  }
  return result + text.slice(from);
}

function refused(text: string, placements: readonly Placement[], where: Partial<FilmAddress> = {}): string {
  const made = placeOnFilm(parse(text), { ...address, ...where }, placements);
  return 'refused' in made ? made.refused : `not refused: ${JSON.stringify(made.edits)}`;
}

const landmark = (name: string, x: number, y: number): Placement => ({ kind: 'landmark', name, at: { x, y } });
const without = (name: string): Placement => ({ kind: 'landmark', name, at: null });
const ends = [
  { x: 1, y: 2 },
  { x: 30.25, y: 4 },
] as const;

const bare = `hoof 1

visit 2026-03-04
  film LF lateral "a.png"
`;
const film = `hoof 1

visit 2026-03-04
  film LF lateral "a.png"
    taken   2026-03-03
    scale   100 mm = 1310, 1422 .. 2290, 1425
    ground  180, 1388 .. 1650, 1392
    p3.tip            @ 1382, 1201 +- 4  # blurred
    p3.extensor       @  900,   80.5
    coronet.heel      @ 1158,  796

  tape LF
    toe-length          92 mm
`;

describe('placing on a film', () => {
  it('writes a first landmark below what the film begins with', () => {
    expect(placed(bare, [landmark('p3.tip', 5, 12.345)])).toBe(`${bare}    p3.tip            @    5,   12.3\n`);
  });

  it('puts a new landmark where the order of landmarks wants it', () => {
    const text = placed(film, [landmark('p3.wing', 874.46, 877)]);
    expect(text).toBe(film.replace('    p3.extensor ', '    p3.wing           @  874.5,  877\n    p3.extensor '));
    expect(format(text)).toBe(text);
  });

  it('puts one before all others where it comes first', () => {
    const text = `${bare}    p3.wing           @    1,    2\n`;
    expect(placed(text, [landmark('p3.tip', 3, 4)])).toBe(
      `${bare}    p3.tip            @    3,    4\n    p3.wing           @    1,    2\n`,
    );
  });

  it('writes several at once in their order, whatever the order they are asked in', () => {
    const text = placed(bare, [
      landmark('sole.tip', 5, 6),
      landmark('p3.tip', 1, 2),
      { kind: 'ground', ends },
      { kind: 'marker', ends, mm: 50 },
    ]);
    expect(text).toBe(`${bare}    scale   50 mm = 1, 2 .. 30.3, 4
    ground  1, 2 .. 30.3, 4
    p3.tip            @    1,    2
    sole.tip          @    5,    6
`);
    expect(format(text)).toBe(text);
  });

  it('replaces coordinates where they stand; spread and remark stay, in their columns', () => {
    const text = placed(film, [landmark('p3.tip', 82, 1201.55)]);
    expect(text).toBe(film.replace('@ 1382, 1201 +- 4  # blurred', '@   82, 1201.6 +- 4  # blurred'));
    expect(format(text)).toBe(text);
  });

  it('writes a spread, another one, or none, where it is asked for', () => {
    const spread = (one: number | null, name = 'p3.tip'): Placement => ({
      kind: 'landmark',
      name,
      at: { x: 1382, y: 1201 },
      spread: one,
    });
    expect(placed(film, [spread(0.62)])).toBe(film.replace('1201 +- 4  # blurred', '1201 +- 0.6  # blurred'));
    expect(placed(film, [spread(null)])).toContain('p3.tip            @ 1382, 1201       # blurred\n');
    // Never none: no place is known that well.
    expect(placed(bare, [spread(0.01)])).toBe(`${bare}    p3.tip            @ 1382, 1201 +- 0.1\n`);
    const byHand = `${bare}\tp3.tip @ 10,20\t# mine\n`;
    expect(placed(byHand, [spread(2)])).toBe(`${bare}\tp3.tip @ 1382, 1201 +- 2\t# mine\n`);
    const text = placed(film, [spread(1.25, 'p3.extensor')]);
    expect(text).toContain('p3.extensor       @ 1382, 1201 +- 1.3\n');
    expect(format(text)).toBe(text);
  });

  it('writes that a place was followed, and takes it away with its spread where a hand moves it', () => {
    const followed = (name: string, spread?: number): Placement => ({
      kind: 'landmark',
      name,
      at: { x: 512, y: 288 },
      followed: true,
      ...(spread !== undefined && { spread }),
    });
    const text = placed(film, [followed('p3.extensor', 0.6), followed('p3.tip')]);
    expect(text).toContain('    p3.tip            @  512,  288 +- 4 followed  # blurred\n');
    expect(text).toContain('    p3.extensor       @  512,  288 +- 0.6 followed\n');
    expect(format(text)).toBe(text);
    expect(placed(text, [landmark('p3.extensor', 900, 80.5), landmark('p3.tip', 1, 2)])).toMatch(
      / {4}p3\.tip {12}@ {4}1, {4}2 +# blurred\n {4}p3\.extensor {7}@ {2}900, {3}80\.5\n/,
    );
    expect(placed(text, [{ kind: 'landmark', name: 'p3.extensor', at: { x: 1, y: 2 }, spread: 2 }])).toContain(
      '@    1,    2 +- 2\n',
    );
    expect(placed(text, [followed('p3.extensor', 0.9)])).toContain('@  512,  288 +- 0.9 followed\n');
    expect(placed(bare, [followed('p3.wing', 1.2)])).toBe(
      `${bare}    p3.wing           @  512,  288 +- 1.2 followed\n`,
    );
  });

  it('leaves a line laid out by hand as it was laid out', () => {
    const text = `${bare}\tp3.tip @ 10,20\t# mine\n`;
    expect(placed(text, [landmark('p3.tip', 1000.04, 3)])).toBe(`${bare}\tp3.tip @ 1000, 3\t# mine\n`);
  });

  it('moves ground and scale, and leaves the length of the marker and its unit as written', () => {
    const text = film.replace('100 mm', '10 cm');
    expect(placed(text, [{ kind: 'ground', ends }])).toBe(text.replace('180, 1388 .. 1650, 1392', '1, 2 .. 30.3, 4'));
    expect(placed(text, [{ kind: 'marker', ends, mm: null }])).toBe(
      text.replace('1310, 1422 .. 2290, 1425', '1, 2 .. 30.3, 4'),
    );
    expect(placed(text, [{ kind: 'marker', ends, mm: 30 }])).toBe(
      text.replace('10 cm = 1310, 1422 .. 2290, 1425', '30 mm = 1, 2 .. 30.3, 4'),
    );
  });

  it('puts a marker in the place of a scale that is stated', () => {
    const text = `${bare}    scale   0.1 mm/px  # by the vet\n`;
    expect(placed(text, [{ kind: 'marker', ends, mm: 100 }])).toBe(
      `${bare}    scale   100 mm = 1, 2 .. 30.3, 4  # by the vet\n`,
    );
  });

  it('puts scale and ground among what stands there already', () => {
    const text = `${bare}    taken   2026-03-03\n    magnify 1.04\n    | Seen in the yard.\n    p3.tip            @    1,    2\n`;
    const both = placed(text, [
      { kind: 'marker', ends, mm: 100 },
      { kind: 'ground', ends },
    ]);
    expect(both).toBe(
      text
        .replace('    magnify', '    scale   100 mm = 1, 2 .. 30.3, 4\n    magnify')
        .replace('    |', '    ground  1, 2 .. 30.3, 4\n    |'),
    );
  });

  it('takes a line away, and keeps what was remarked behind it', () => {
    expect(placed(film, [without('p3.extensor')])).toBe(film.replace('    p3.extensor       @  900,   80.5\n', ''));
    expect(placed(film, [without('p3.tip')])).toBe(
      film.replace('p3.tip            @ 1382, 1201 +- 4  # blurred', '# blurred'),
    );
    expect(placed(film, [{ kind: 'ground', ends: null }])).toBe(
      film.replace('    ground  180, 1388 .. 1650, 1392\n', ''),
    );
    expect(placed(film, [without('sole.tip')])).toBe(film);
  });

  it('keeps CR LF, and a last line without an end', () => {
    const text = bare.replaceAll('\n', '\r\n').trimEnd();
    expect(placed(text, [landmark('p3.tip', 1, 2), landmark('p3.wing', 3, 4)])).toBe(
      `${text}\r\n    p3.tip            @    1,    2\r\n    p3.wing           @    3,    4`,
    );
    expect(placed(`${text}\r\n`, [landmark('p3.tip', 1, 2)])).toBe(`${text}\r\n    p3.tip            @    1,    2\r\n`);
  });

  it('writes into the block of the right reader', () => {
    const text = `${bare}    p3.tip            @    1,    2
    read "A"
      p3.tip            @    3,    4
    read "B" +- 3
    ground  0, 9 .. 9, 9
`;
    expect(placed(text, [landmark('p3.wing', 7, 8)], { reader: 'A' })).toBe(
      text.replace('    read "B"', '      p3.wing           @    7,    8\n    read "B"'),
    );
    expect(placed(text, [landmark('p3.tip', 7, 8)], { reader: 'B' })).toBe(
      text.replace('    ground', '      p3.tip            @    7,    8\n    ground'),
    );
    expect(placed(text, [landmark('p3.wing', 7, 8)])).toBe(
      text.replace('    read "A"', '    p3.wing           @    7,    8\n    read "A"'),
    );
    const readersOnly = text.replace('    p3.tip            @    1,    2\n', '').replace(/ {4}ground.*\n/, '');
    expect(placed(readersOnly, [landmark('p3.wing', 7, 8)])).toBe(
      readersOnly.replace('    read "A"', '    p3.wing           @    7,    8\n    read "A"'),
    );
    expect(refused(text, [landmark('p3.tip', 1, 2)], { reader: 'C' })).toContain('no reading by “C”');
    expect(refused(text.replace('"B"', '"A"'), [landmark('p3.tip', 1, 2)], { reader: 'A' })).toContain('both by “A”');
  });

  it('takes no line away that parts a reader from what follows', () => {
    const text = `${bare}    read "A"
      p3.tip            @    3,    4
    ground  0, 9 .. 9, 9
`;
    const without: Placement = { kind: 'ground', ends: null };
    expect(refused(`${text}    p3.wing           @    1,    2\n`, [without])).toContain('reading by “A”');
    expect(placed(text, [without])).toBe(text.replace('    ground  0, 9 .. 9, 9\n', ''));
  });

  it('leaves broken lines around it as they are', () => {
    const text = `${bare}    p3.tip            @ 12,5 7
    p3.wing @ 4
    nonsense here
    coffin.centre     @    1,    2
`;
    expect(placed(text, [landmark('p3.tip', 1, 2)])).toBe(
      text.replace('    coffin', '    p3.tip            @    1,    2\n    coffin'),
    );
  });

  it('gives its place to a name that waits for one', () => {
    for (const waiting of ['p3.tip', 'p3.tip @'])
      expect(placed(`${bare}    ${waiting}  # soon\n`, [landmark('p3.tip', 1, 2)])).toBe(
        `${bare}    p3.tip            @    1,    2  # soon\n`,
      );
    expect(placed(`${bare}    ground\n`, [{ kind: 'ground', ends }])).toBe(`${bare}    ground  1, 2 .. 30.3, 4\n`);
  });

  it('finds a film whose line has moved, and refuses where it cannot tell', () => {
    const moved = bare.replace('hoof 1\n', 'hoof 1\n# one\n# two\n');
    expect(placed(moved, [landmark('p3.tip', 1, 2)])).toBe(`${moved}    p3.tip            @    1,    2\n`);
    const twice = `${moved}  film LF lateral "a.png"\n`;
    expect(refused(twice, [landmark('p3.tip', 1, 2)])).toContain('not where it was');
    expect(refused(bare, [landmark('p3.tip', 1, 2)], { picture: 'b.png' })).toContain('“b.png” is not where it was');
  });

  it.each([
    [landmark('toe', 1, 2), 'no landmark “toe” in the lateral view'],
    [landmark('p3.tip', Number.NaN, 2), 'no place on a picture'],
    [landmark('p3.tip', 1e12, 2), 'no place on a picture'],
    [{ kind: 'ground', ends: [ends[0], { x: 1.01, y: 2 }] }, 'ground line are the same point'],
    [{ kind: 'marker', ends, mm: 0 }, 'from 1 mm to 1000 mm'],
    [{ kind: 'marker', ends, mm: Number.NaN }, 'from 1 mm to 1000 mm'],
    [{ kind: 'marker', ends, mm: 5000 }, 'from 1 mm to 1000 mm'],
    [
      {
        kind: 'marker',
        ends: [
          { x: 1, y: 1 },
          { x: 3, y: 1 },
        ],
        mm: 100,
      },
      'no pixel',
    ],
    [{ kind: 'landmark', name: 'p3.tip', at: { x: 1_000_000, y: 1 } }, 'no place'],
  ] satisfies [Placement, string][])('refuses %j in words', (placement, says) => {
    expect(refused(film, [placement])).toContain(says);
  });
});
