import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { filmBefore, type FilmBefore } from '../../shared/views/film-before.ts';

const basis = `    scale   100 mm = 90, 993 .. 90, 493
    ground  1100, 1048 .. 144, 1022
    p3.tip   @ 432, 967
    p3.wing  @ 874, 877
`;
const visit = (date: string, ...films: string[]): string => `visit ${date}\n${films.join('')}\n`;
const film = (head: string, rest = basis): string => `  film ${head}\n${rest}`;

/** The picture that the last film of the case may be followed from, read by `reader`. */
const before = (text: string, reader: string | null = null): string | null =>
  filmBeforeLast(text, reader)?.picture ?? null;

function filmBeforeLast(text: string, reader: string | null): FilmBefore | null {
  const { study } = inspect(`hoof 1\n\n${text}`);
  const last = study.films.at(-1);
  const reading = last?.readings.find((one) => one.reading.reader === reader);
  if (!last || !reading) throw new Error('no such film');
  return filmBefore(study, last, reading);
}

const now = visit('2026-06-01', film('LF lateral "now.png"', ''));

describe('the film before', () => {
  it('is the last of the foot from an earlier day, wherever it stands in the text', () => {
    const older = visit('2026-03-01', film('LF lateral "older.png"'));
    const last = visit('2026-05-01', film('LF lateral "last.png"'));
    expect(before(`${older}${last}${now}`)).toBe('last.png');
    expect(before(`${last}${older}${now}`)).toBe('last.png');
    expect(before(`${visit('2026-07-01', film('LF lateral "later.png"'))}${now}`)).toBeNull();
  });

  it('is of the same foot and view, a film, and carries what proposals rest on', () => {
    const old = (head: string, rest?: string): string => visit('2026-05-01', film(head, rest));
    expect(before(`${old('RF lateral "a.png"')}${now}`)).toBeNull();
    expect(
      before(`${visit('2026-05-01', `  photo LF lateral "a.png"\n${basis.replace(/ {4}p3.*\n/g, '')}`)}${now}`),
    ).toBeNull();
    for (const line of ['scale', 'ground', 'p3.tip', 'p3.wing'])
      expect(before(`${old('LF lateral "a.png"', basis.replace(new RegExp(` +${line}.*\n`), ''))}${now}`)).toBeNull();
    expect(before(`${old('LF lateral "a.png"')}${now}`)).toBe('a.png');
  });

  it('is never of the same day: what is repeated tells how well a film is measured', () => {
    expect(before(visit('2026-06-01', film('LF lateral "one.png"'), film('LF lateral "two.png"', '')))).toBeNull();
    const taken = film('LF lateral "one.png"', `    taken 2026-06-01\n${basis}`);
    expect(before(`${visit('2026-05-30', taken)}${now}`)).toBeNull();
  });

  it('of one reader is that reader’s own', () => {
    const read = (reader: string): string =>
      `    read "${reader}"\n${basis
        .split('\n')
        .slice(2, 4)
        .map((one) => `  ${one}\n`)
        .join('')}`;
    const lines = basis
      .split('\n')
      .slice(0, 2)
      .map((one) => `${one}\n`)
      .join('');
    const old = visit('2026-05-01', film('LF lateral "a.png"', `${lines}${read('Ash')}`));
    const mine = (reader: string): string =>
      visit('2026-06-01', film('LF lateral "now.png"', `    read "${reader}"\n      p3.tip @ 1, 2\n`));
    expect(before(`${old}${mine('Ash')}`, 'Ash')).toBe('a.png');
    expect(before(`${old}${mine('Rowan')}`, 'Rowan')).toBeNull();
  });

  it('of the unnamed reader is what has no name, and else the first with a frame', () => {
    const [scale = '', ground = '', tip = '', wing = ''] = basis.split('\n');
    const lines = (...all: readonly string[]): string => all.map((one) => `${one}\n`).join('');
    const named = lines('    read "Ash"', '      p3.tip @ 440, 960', '      p3.wing @ 880, 870');
    const tipOf = (...unnamed: readonly string[]): number | undefined => {
      // Ash's reading stands first, and the unnamed one has what stands on the film itself.
      const old = visit('2026-05-01', film('LF lateral "a.png"', lines(scale, ground, ...unnamed) + named));
      return filmBeforeLast(old + now, null)?.input.landmarks.find(({ name }) => name === 'p3.tip')?.x;
    };
    expect(tipOf(tip, wing)).toBe(432);
    expect(tipOf(tip)).toBe(440);
    expect(tipOf()).toBe(440);
  });
});
