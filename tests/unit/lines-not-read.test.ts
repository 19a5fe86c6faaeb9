import { expect, it } from 'vitest';
import { doubtsOf } from '../../shared/export/structured/doubts.ts';
import { readLevels } from '../../shared/findings/engine/severity-levels.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { usualStudy } from '../../shared/trim/study.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { unreadLines } from '../../shared/views/unread-lines.ts';

const text = `hoof 1

case "Clover"
  animal horse

visit 2026-03-04
  next soonish
  film LF lateral "a.png"
    scale 0.2 mm/px
    p3.tpi @ 100, 200
    p3.tip @ 300, 200
    p3.tip @ 310, 200
`;

it('no level that somebody gives hides a line that was not read', () => {
  const usual = unreadLines(inspect(text));
  expect(usual).toEqual(expect.arrayContaining([7, 10]));
  for (const level of ['off', 'hint', 'info']) {
    const wishes = ['notation/*', 'record/*', 'measure/*'].map((name) => [name, level] as const);
    const { levels } = readLevels(wishes);
    expect(unreadLines(inspect(text, { ...usualStudy, levels }))).toEqual(usual);
  }
});

it('a report for the archive says which they are, and what is told against its numbers', () => {
  const inspection = inspect(text);
  const [film] = inspection.study.films;
  if (!film) throw new Error('no film');
  const doubts = doubtsOf(inspection, film);
  expect(doubts.at(-1)).toMatch(/^Lines 7, 10.* of the case could not be read as they stand\.$/);
  expect(doubts.length).toBeGreaterThan(1);
  const sound = inspect(text.replace(/^ +(?:next soonish|p3\.tpi.*|p3\.tip @ 310.*)\n/gm, ''));
  const [clean] = sound.study.films;
  expect(clean && doubtsOf(sound, clean)).toEqual([]);
});

it('what is told of the writing speaks of the words that stand there', () => {
  const [sheet] = filmSheets(inspect(text));
  const told = sheet?.notes.find(({ code }) => code === 'notation/unknown-landmark');
  expect(told?.message).toContain('p3.tip');
});
