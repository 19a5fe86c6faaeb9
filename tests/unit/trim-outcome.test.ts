import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { commandLine } from '../../src/cli/command-line.ts';
import { courseText, wing, type CourseVisit } from './course-text.ts';
import type { Places } from './plain-foot.ts';

/** A film, a trim of `heel` mm on its day, and the next film four weeks later. */
function trimmed(heel: number, next: Places, scale = 'scale 0.1 mm/px'): string {
  return courseText([
    { date: '2026-03-03', film: { header: 'film LF lateral "a.png"' }, more: [`  trim LF\n    heel down ${heel} mm`] },
    { date: '2026-03-31', places: next, film: { header: 'film LF lateral "b.png"', scale } },
  ]);
}
const outcome = (text: string): string | undefined =>
  inspect(text).findings.find(({ code }) => code === 'trim/outcome')?.message;

describe('what became of a trim', () => {
  it('is a difference only beyond the floor of a clear change', () => {
    // The plain foot stands at 5.0°: 1 mm of heel over a base of 138 mm lowers it by 0.4°.
    expect(outcome(trimmed(1, wing(8.1)))).toMatch(/palmar angle 4\.6° predicted, 5\.8° found \(within the error\)/);
    expect(outcome(trimmed(1, wing(11)))).toMatch(/palmar angle 4\.6° predicted, 7\.8° found \(3\.2° more\)/);
  });

  it('names what may have grown, and the day as it is said aloud', () => {
    // 28 days at 0.20 to 0.33 mm (a textbook’s 6 to 10 mm a month): 5.6 to 9.2 mm.
    expect(outcome(trimmed(1, {}))).toMatch(
      /^On the next film, of 31 March 2026: .*; in 28 days 6 to 9 mm may have grown\)/,
    );
  });

  it('begins with the doubt where the scale of one of the films is off, and judges no length of it', () => {
    const films: CourseVisit[] = [0, 1, 2].map((index) => ({
      date: `2026-0${index + 1}-03`,
      film: { header: `film LF lateral "${index}.png"`, scale: index === 2 ? 'scale 0.13 mm/px' : 'scale 0.1 mm/px' },
      more: index === 1 ? ['  trim LF\n    heel down 1 mm'] : [],
    }));
    expect(outcome(courseText(films))).toMatch(
      /^The scale of the film of 3 March 2026 is in doubt, as its bones are 30 % larger than on the others\. On the next film, of 3 March 2026: palmar angle .* \(within the error\), .*sole depth at the tip .* \(scale in doubt\).*heel height .* \(scale in doubt; in 28 days/,
    );
  });
});

describe('a plan on a film whose scale is in doubt', () => {
  const doubted = courseText(
    [0, 1, 2].map((index) => ({
      date: `2026-0${index + 1}-03`,
      film: { header: `film LF lateral "${index}.png"`, scale: index === 2 ? 'scale 0.13 mm/px' : 'scale 0.1 mm/px' },
      more: index === 2 ? ['  plan LF\n    heel down 1 mm'] : [],
    })),
  );
  const folder = mkdtempSync(join(tmpdir(), 'ungula-doubt-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('is told at the plan', () => {
    const [found, ...others] = inspect(doubted).findings.filter(({ code }) => code === 'trim/scale-in-doubt');
    expect(others).toEqual([]);
    expect(found).toMatchObject({
      severity: 'warning',
      message:
        'The scale of the film of 3 March 2026 is in doubt, as its bones are 30 % larger than on the others: no millimetre of this plan can be relied on. Mend the scale first.',
    });
    const sound = doubted.replace('0.13', '0.1');
    expect(inspect(sound).findings.filter(({ code }) => code === 'trim/scale-in-doubt')).toEqual([]);
    const past = `${doubted}\nvisit 2026-04-03\n  film LF lateral "n.png"\n`;
    expect(inspect(past).findings.find(({ code }) => code === 'trim/scale-in-doubt')?.severity).toBe('hint');
  });

  it('begins with it on the command line, which writes nothing down', async () => {
    const file = join(folder, 'doubted.hoof');
    writeFileSync(file, doubted);
    const run = async (...more: string[]) => {
      let out = '';
      await commandLine(['plan', file, '--foot', 'LF', ...more], { out: (text) => (out += text), err: () => {} });
      return out;
    };
    for (const asked of [
      ['--to', 'most'],
      ['--heel', '1'],
    ]) {
      expect(await run(...asked)).toMatch(/(?:^|\n)Scale in doubt: the scale of the film of 3 March 2026 is in doubt/);
      expect(await run(...asked)).not.toMatch(/^visit /m);
      expect(JSON.parse(await run(...asked, '--format', 'json'))).toMatchObject({
        notation: '',
        doubt: expect.stringMatching(/^Scale in doubt/) as string,
      });
    }
    writeFileSync(file, doubted.replace('0.13', '0.1'));
    const evenly = ['--to', 'most', '--sure', '50'];
    expect(await run(...evenly)).toMatch(/\nvisit 2026-03-03 "planned"/);
    expect(JSON.parse(await run(...evenly, '--format', 'json'))).not.toHaveProperty('doubt');
  });
});
