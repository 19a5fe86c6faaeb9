import { describe, expect, it } from 'vitest';
import { codes } from '../../shared/findings/catalogue.ts';
import { caseText, filmText } from './plain-foot.ts';
import { findingsOf, foundAtMark, unmark } from './marked-text.ts';
import { beyondOneText, raised } from './raised-codes.ts';

describe('every code of the catalogue', () => {
  it.each(Object.entries(beyondOneText))('%s is told in a sentence', (code, told) => {
    const found = told();
    expect(found.length).toBeGreaterThan(0);
    for (const one of found) {
      expect(one.code).toBe(code);
      expect(one.message.length).toBeGreaterThan(20);
    }
  });

  it.each(codes.map(({ code }) => code).filter((code) => !(code in beyondOneText)))(
    '%s is raised at its place',
    (code) => {
      const marked = raised[code];
      if (marked === undefined) throw new Error(`${code} has no text that raises it`);
      const found = foundAtMark(marked, code);
      expect(
        found,
        `told instead: ${findingsOf(unmark(marked).text)
          .map(
            (finding) =>
              `${finding.code} at ${JSON.stringify(unmark(marked).text.slice(finding.at.start, finding.at.end))}`,
          )
          .join('; ')}`,
      ).toHaveLength(1);
      expect(found[0]?.message.length).toBeGreaterThan(20);
    },
  );

  it('has a title and says what it is about', () => {
    for (const { title, about } of codes) {
      expect(title.length).toBeGreaterThan(3);
      expect(about).toMatch(/\.$/);
    }
    expect(new Set(codes.map(({ code }) => code)).size).toBe(codes.length);
  });

  it('no text here raises a code that the catalogue does not have', () => {
    expect([...Object.keys(raised), ...Object.keys(beyondOneText)].sort()).toEqual(
      codes.map(({ code }) => code).sort(),
    );
  });
});

describe('a sound foot', () => {
  it('gives no finding', () => {
    expect(findingsOf(caseText(filmText()))).toEqual([]);
  });
});
