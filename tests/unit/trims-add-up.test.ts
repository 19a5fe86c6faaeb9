import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { caseText, filmText } from './plain-foot.ts';

/**
 * The plain foot: heel contact (-110, 0), toe contact (28, 0), tip of the bone (0, 16), wing (-80, 23), so a palmar angle of
 * atan2(7, 80). The angles are worked out here by hand with the line that each trim leaves, 138 mm long at first.
 */
const film = filmText();
const palmar = (Math.atan2(7, 80) * 180) / Math.PI;
const turn = (heel: number, length: number): number => (Math.atan2(heel, length) * 180) / Math.PI;
/** The line from heel to toe once a trim has taken so much at the heel: the next one is laid on it. */
const lineAfter = (heel: number, length: number): number => Math.hypot(heel, length);

const cuts = (text: string) => inspect(text).study.cuts;
const angleAfter = (text: string): number | undefined => cuts(text).at(-1)?.prediction?.value('palmar-angle')?.value;
const later = (trim: string, date = '2026-03-20'): string => `visit ${date}\n  ${trim}\n`;

describe('trims since a film', () => {
  it('add up: each is laid on the foot that the one before has left', () => {
    const two = `${caseText(`${film}\n\n  trim LF\n    heel down 4 mm`)}\n${later('trim LF\n    heel down 3 mm')}`;
    const first = turn(4, 138);
    const second = turn(3, lineAfter(4, 138));
    expect(cuts(two)[0]?.prediction?.value('palmar-angle')?.value).toBeCloseTo(palmar - first, 9);
    expect(angleAfter(two)).toBeCloseTo(palmar - first - second, 9);
    expect(cuts(two)[1]?.before?.get('palmar-angle')?.value).toBeCloseTo(palmar - first, 9);
    // The cut itself turns the bone by its own part alone.
    expect(cuts(two)[1]?.prediction?.delta).toBeCloseTo(second, 9);
  });

  it('count for a plan too, and plans for nothing', () => {
    const trimmed = `${caseText(`${film}\n\n  trim LF\n    heel down 2 mm`)}\n${later('plan LF\n    heel down 2 mm')}`;
    const planned = trimmed.replace('trim LF', 'plan LF');
    const codes = (text: string) => inspect(text).findings.map(({ code }) => code);
    // 3 mm of heel stand above the live sole: 2 and 2 are too much, 2 alone is not.
    expect(codes(trimmed)).toContain('trim/below-sole-plane');
    expect(codes(planned)).not.toContain('trim/below-sole-plane');
  });

  it('are those of the same foot, and after the film by the order of the text within a day', () => {
    const of = (body: string): number => cuts(caseText(body)).at(-1)?.earlier.length ?? NaN;
    const trim = '  trim LF\n    heel down 1 mm\n';
    expect(of(`${film}\n\n${trim}\n${trim}`)).toBe(1);
    expect(of(`${film}\n\n${trim.replace('LF', 'RF')}\n${trim}`)).toBe(0);
    // A film that stands below the trim was taken after it.
    expect(of(`${film}\n\n${trim}\n${filmText({}, { header: 'film LF lateral "y.png"' })}\n\n${trim}`)).toBe(0);
    const above = cuts(caseText(`${trim}\n${film}`));
    expect(above[0]?.film).toBeNull();
  });

  it('without millimetres change nothing, and are told', () => {
    const text = `${caseText(`${film}\n\n  trim LF\n    work "edges rounded"`)}\n${later('plan LF\n    heel down 1 mm')}`;
    expect(angleAfter(text)).toBeCloseTo(palmar - turn(1, 138), 9);
    const told = inspect(text).findings.filter(({ code }) => code === 'trim/unmeasured');
    expect(told.map(({ message, severity }) => [severity, message])).toEqual([
      ['info', expect.stringMatching(/^The trim of 4 March 2026 gives no millimetres/)],
    ]);
  });

  it('foretell together what the next film shows: told once, at the last of them', () => {
    const two = `${caseText(`${film}\n\n  trim LF\n    heel down 1 mm`)}\n${later('trim LF\n    heel down 1 mm')}\nvisit 2026-04-04\n${film}\n`;
    const told = inspect(two).findings.filter(({ code }) => code === 'trim/outcome');
    const both = palmar - turn(1, 138) - turn(1, lineAfter(1, 138));
    expect(told.map(({ message }) => message)).toEqual([
      expect.stringMatching(
        new RegExp(`^With the trim of 4 March 2026 before it\\..*palmar angle ${both.toFixed(1)}° predicted`),
      ),
    ]);
    expect(two.slice(0, told[0]?.at.start).split('visit ').length - 1).toBe(2);
  });

  it('more than a foot can be followed through are not reckoned with, and that is said', () => {
    const trims = Array.from({ length: 22 }, () => '\n  trim LF\n    heel down 0.1 mm\n').join('');
    const text = caseText(`${film}\n${trims}`);
    expect(cuts(text)[19]?.prediction).not.toBeNull();
    expect(cuts(text)[21]?.prediction).toBeNull();
    expect(
      inspect(text).findings.some(({ message }) =>
        message.includes('more trims than the foot can be followed through'),
      ),
    ).toBe(true);
  });
});
