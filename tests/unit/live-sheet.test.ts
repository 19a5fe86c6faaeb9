import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { usualStudy } from '../../shared/trim/study.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { liveSheet } from '../../shared/views/live-sheet.ts';
import { placeOnFilm } from '../../shared/edits/place-on-film.ts';
import { Dice } from '../property/dice.ts';
import { randomPlacements, sheetNumbers } from '../property/live-sheets.ts';

const examples = ['juniper', 'bramble', 'thistle', 'mistakes'].map((name) =>
  readFileSync(new URL(`../../examples/${name}.hoof`, import.meta.url), 'utf8'),
);
const views = `hoof 1

visit 2026-03-04
  film LH front "front.png"
    scale   0.1 mm/px
    magnify 1.04
    ground  0, 900 .. 800, 905
    p3.medial         @  100,  700
    p3.lateral        @  600,  705 +- 3
    joint.medial      @  150,  500
  photo LH solar "sole.jpg"
    scale   dicom
    toe               @  400,  100
    heel.medial       @  300,  900
    heel.lateral      @  500,  905
    wide.medial       @  150,  400
  film LF lateral "two.png"
    scale   10 cm = 0, 0 .. 1000, 30
    p3.tip            @  432,  967 +- 1.5 followed
    p3.wing           @  874,  877 followed
    read "A" +- 2.5
      p3.tip            @  430,  967 +- 8 followed
      p3.wing           @  870,  877
      toe.ground        @  232, 1024
      heel.ground       @  946, 1044
  tape LF
    toe-length          9 cm

limits
  palmar-angle        <= 8 deg
`;

describe('the sheet of a film that is being placed on', () => {
  it.each([...examples, views].map((text, index) => [index, text] as const))(
    'says what the server says of the text once it is written (text %i)',
    (index, text) => {
      const settings = { ...usualStudy, spread: { mm: 0.7, px: 6 } };
      const before = inspect(text, settings);
      const dice = new Dice(index + 1);
      let told = 0;
      const sheets = filmSheets(before);
      for (const [place, sheet] of sheets.entries())
        for (let round = 0; round < 5; round++) {
          const placements = randomPlacements(dice, sheet);
          const made = placeOnFilm(before.tree, sheet, placements);
          if ('refused' in made) throw new Error(made.refused);
          let after = text;
          for (const edit of [...made.edits].reverse())
            after = after.slice(0, edit.start) + edit.text + after.slice(edit.end);
          const server = filmSheets(inspect(after, settings)).find(
            (one) => one.reader === sheet.reader && one.line === sheets[place]?.line,
          );
          // An unnamed reading without a landmark is none where others read the film.
          if (!server && !Object.keys(liveSheet(sheet, placements).placed).length) continue;
          if (!server) throw new Error(`no sheet of ${sheet.title} in\n${after}`);
          expect(sheetNumbers(liveSheet(sheet, placements))).toEqual(sheetNumbers(server));
          told += server.rows.length;
        }
      expect(told).toBeGreaterThan(0);
    },
  );

  it('is the sheet itself where nothing is placed', () => {
    const [sheet] = filmSheets(inspect(views));
    if (!sheet) throw new Error('no sheet');
    expect(liveSheet(sheet, [])).toBe(sheet);
  });
});
