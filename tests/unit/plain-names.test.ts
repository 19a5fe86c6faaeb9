import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { landmarkNames } from '../../shared/notation/landmarks.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { withPlainNames } from '../../shared/views/plain-names.ts';
import { raised } from './raised-codes.ts';

describe('landmarks in the pane', () => {
  it('are called as the walk of placing calls them', () => {
    expect(withPlainNames('Begin with p3.tip and p3.wing, then «p3.wing.other».')).toBe(
      'Begin with “Tip of the pedal bone” and “Wing of the pedal bone”, then “The other wing”.',
    );
  });

  it('are not what only looks like one', () => {
    for (const same of ['The toe is long.', 'sole-depth.tip 9 mm', 'breakover 4 mm', 'p3.tips', 'x.p3.tip'])
      expect(withPlainNames(same)).toBe(same);
    expect(withPlainNames('Look at «toe».')).not.toContain('«');
  });

  it('stand under no name of the notation in any note on a film', () => {
    const dotted = landmarkNames.filter((name) => name.includes('.'));
    let notes = 0;
    for (const text of Object.values(raised))
      for (const sheet of filmSheets(inspect(text.replaceAll(/[⟦⟧]/g, ''))))
        for (const { code, message } of [...sheet.notes, ...sheet.cuts.flatMap((cut) => cut.notes)]) {
          // What is told of the writing speaks of the words that stand there.
          if (code.startsWith('notation/')) continue;
          notes++;
          // Whole words: the name of a measure may hold one.
          for (const name of dotted)
            expect(message).not.toMatch(new RegExp(`(?<![\\w.-])${name.replaceAll('.', '\\.')}(?![\\w.-])`));
        }
    expect(notes).toBeGreaterThan(60);
  });
});
