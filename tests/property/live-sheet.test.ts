/**
 * The page shows what is being placed before the text has it. Here the text is written and told anew by the server's own way, and
 * the two must be one: every place, number, deviation and predicted cut.
 */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { footFrame } from '../../shared/geometry/frame.ts';
import { filmSheets, type FilmSheet } from '../../shared/views/film-sheet.ts';
import { liveSheet, triedCut } from '../../shared/views/live-sheet.ts';
import { placeOnFilm } from '../../shared/edits/place-on-film.ts';
import { predictAtOnce, type Prediction } from '../../shared/trim/predict.ts';
import { usualStudy } from '../../shared/trim/study.ts';
import { Dice } from './dice.ts';
import { plain, randomPlacements, sheetNumbers } from './live-sheets.ts';
import { anyFoot, toNotation, type RandomFoot } from './random-foot.ts';

const settings = { ...usualStudy, spread: { mm: 0.7, px: 6 } };

interface Placed {
  /** As the page has it, which was told the sheet as JSON. */
  readonly live: FilmSheet;
  readonly server: FilmSheet;
  readonly prediction: Prediction | null;
}

function placed(foot: RandomFoot): Placed {
  const text = toNotation(foot);
  const before = inspect(text, settings);
  const [told] = filmSheets(before);
  if (!told) throw new Error('a film has its sheet');
  const sheet = JSON.parse(JSON.stringify(told)) as FilmSheet;
  const placements = randomPlacements(new Dice(foot.seed ^ 0x11fe), sheet);
  const made = placeOnFilm(before.tree, sheet, placements);
  if ('refused' in made) throw new Error(made.refused);
  let after = text;
  for (const edit of [...made.edits].reverse()) after = after.slice(0, edit.start) + edit.text + after.slice(edit.end);
  const written = inspect(after, settings);
  const [server] = filmSheets(written);
  if (!server) throw new Error(`no sheet in\n${after}`);
  const live = liveSheet(sheet, placements);
  return { live, server, prediction: written.study.cuts[0]?.prediction ?? null };
}

const numbers = (one: Prediction | null): unknown =>
  one && {
    delta: plain(one.delta),
    soleCutSd: Object.values(one.soleCutSd).map(plain),
    wallLeftSd: one.wallLeftSd === null ? null : plain(one.wallLeftSd),
    values: [...one.values].map(([name, { value, sd }]) => [name, plain(value), plain(sd)]),
  };

describe('the sheet of a film that is being placed on', () => {
  it('is the one that the text will have, its predicted cuts included', () => {
    let cuts = 0;
    fc.assert(
      fc.property(anyFoot(), (foot) => {
        const { live, server, prediction } = placed(foot);
        expect(sheetNumbers(live)).toEqual(sheetNumbers(server));
        for (const { size } of live.cuts) {
          const { frame } = footFrame(() => live.input);
          expect(numbers(frame && predictAtOnce({ frame, earlier: [] }, size))).toEqual(numbers(prediction));
          if (prediction) cuts++;
        }
      }),
      { numRuns: 150 },
    );
    expect(cuts).toBeGreaterThan(30);
  });

  it('has the cut of the slider as it has the cut that is written', () => {
    fc.assert(
      fc.property(anyFoot({ complete: true }), (foot) => {
        const { live } = placed(foot);
        for (const cut of live.cuts) {
          const { cut: _words, notes: _notes, ...tried } = triedCut(live, cut, cut.size);
          expect(cut).toMatchObject(tried);
        }
      }),
      { numRuns: 60 },
    );
  });
});
