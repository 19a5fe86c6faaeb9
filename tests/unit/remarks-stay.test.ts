import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { parse } from '../../shared/notation/parse.ts';
import type { Edit } from '../../shared/notation/problems.ts';
import { placeOnFilm } from '../../shared/edits/place-on-film.ts';
import type { Placement } from '../../shared/edits/placing-schema.ts';
import { usualStudy } from '../../shared/trim/study.ts';
import { caseText, filmText } from './plain-foot.ts';

/** What adds a line leaves every remark with the line that it speaks of. */

function applied(text: string, edits: readonly Edit[]): string {
  return edits
    .toSorted((a, b) => b.start - a.start)
    .reduce((now, { start, end, text: put }) => now.slice(0, start) + put + now.slice(end), text);
}

/** With little turn a visit, so that a sound foot can be trimmed in steps, at even odds. */
const settings = { ...usualStudy, trim: { ...usualStudy.trim, turnPerVisit: 1, sure: 50 } };

function mended(text: string, title: RegExp): string {
  const fix = inspect(text, settings)
    .findings.flatMap(({ fixes }) => fixes)
    .find((one) => title.test(one.title));
  if (!fix) throw new Error(`no fix ${String(title)}`);
  return applied(text, fix.edits);
}

const grave = (obel: string): string =>
  `hoof 1\n\ncase "X"\n\nvisit 2026-03-04\n${obel}\n  plan LF\n    heel down 1 mm\n`;

describe('a fix that adds a line below', () => {
  it.each([
    ['  obel 3 # both fores', '  obel 3 # both fores\n  vet        ""'],
    ['\tobel 3   # both fores', '\tobel 3   # both fores\n\tvet        ""'],
    ['  obel 3', '  obel 3\n  vet        ""'],
  ])('for the vet: %j', (line, expected) => {
    expect(mended(grave(line), /^Add a vet line$/)).toBe(grave(expected));
  });

  it('for the steps of a cut, at the end of a file without a line end too', () => {
    const text = (heel: string): string => caseText(`${filmText({ 'sole.heel': [-104, 20] })}\n\n  plan LF\n${heel}`);
    const written = mended(text('      heel down 4 mm # as agreed'), /^Take it in steps/);
    expect(written).toMatch(/\n {6}heel down [\d.]+ mm # as agreed\n {6}why {3}"a first step, [^"]*"\n$/);
    const open = text('    heel down 4 mm # so').trimEnd();
    expect(mended(open, /^Take it in steps/)).toMatch(/mm # so\n {4}why {3}"a first step, [^"]*"$/);
  });
});

describe('a fix that adds a line above', () => {
  it('goes over the remarks of the line', () => {
    const text = (above: string): string =>
      caseText(`  weight 500 kg # in the morning\n${above}  # agreed\n  plan LF\n    heel down 4 mm`);
    expect(mended(text('\n'), /^Add a film above it$/)).toBe(text('\n  film LF lateral ""\n\n'));
    expect(mended(text(''), /^Add a film above it$/)).toBe(text('  film LF lateral ""\n\n'));
  });

  it('goes behind a byte order mark', () => {
    expect(mended('\ufeff# remark\ncase "X"\n', /^Write hoof 1 at the top$/)).toBe(
      '\ufeffhoof 1\n\n# remark\ncase "X"\n',
    );
  });
});

describe('placing', () => {
  const address = { line: 3, picture: 'a.png', foot: 'LF', view: 'lateral', reader: null };
  const film = (lines: string): string => `hoof 1\n\nvisit 2026-03-04\n  film LF lateral "a.png"\n${lines}`;
  const place = (text: string, placement: Placement): string => {
    const made = placeOnFilm(parse(text), address, [placement]);
    return 'refused' in made ? made.refused : applied(text, made.edits);
  };

  it('puts a landmark before another one over that one’s remarks', () => {
    const remarks = '    # blurred\n    # see the other film\n    p3.extensor       @  900,   80 # so so\n';
    expect(place(film(remarks), { kind: 'landmark', name: 'p3.tip', at: { x: 1, y: 2 } })).toBe(
      film(`    p3.tip            @    1,    2\n${remarks}`),
    );
  });

  it('puts a line behind another one behind the remark that it ends with', () => {
    const scale = '    scale   0.1 mm/px # by the plate\n';
    const ends = [
      { x: 1, y: 2 },
      { x: 3, y: 2 },
    ] as const;
    expect(place(film(scale), { kind: 'ground', ends })).toBe(film(`${scale}    ground  1, 2 .. 3, 2\n`));
  });
});
