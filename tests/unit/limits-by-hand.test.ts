import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { filmText } from './plain-foot.ts';

/**
 * A tape is taken to be good to 2 mm (J Equine Vet Sci 2022;115:104028, its abstract), so that a value may be off by
 * 1.96 × 2 = 3.92 mm, 19 times in 20. Only what lies beyond that is told.
 */
const told = (text: string, code: string): string[] =>
  inspect(text)
    .findings.filter((finding) => finding.code === code)
    .map(({ message }) => message);
const visit = (lines: readonly string[], limits = ''): string =>
  `hoof 1\n${limits}\nvisit 2026-03-04\n${lines.map((line) => `  ${line}`).join('\n')}\n`;
const cut = (taped: string, line: string, limits = '', kind = 'plan'): string[] =>
  told(visit(['tape LF', `  ${taped}`, `${kind} LF`, `  ${line}`], limits), 'trim/by-hand');

describe('a cut on a foot without a film', () => {
  it('is held against how far the heel stands beyond the live sole plane', () => {
    // 2 mm may be 5.92 mm.
    expect(cut('heel-surplus 2 mm', 'heel down 5.9 mm')).toEqual([]);
    expect(cut('heel-surplus 2 mm', 'heel down 6 mm')).toEqual([
      'A heel cut of 6.0 mm goes 4.0 mm below the live sole plane: by hand only 2.0 ± 2.0 mm of heel stand beyond it. To stop there is common practice, without a source.',
    ]);
    expect(cut('heel-surplus 2 mm', 'heel down 6 mm', '', 'trim')[0]).toMatch(/^6\.0 mm of heel were taken/);
  });

  it('is held against the height of the heel', () => {
    expect(cut('heel-height 8 mm', 'heel down 11.9 mm')).toEqual([]);
    expect(cut('heel-height 8 mm', 'heel down 12 mm')).toHaveLength(1);
  });

  it('is held against the bearing length, for how far the foot turns', () => {
    // 100 mm may be 103.92 mm: 10 mm turn it by atan(10 / 103.92) = 5.50°, 9 mm by 4.95°; a judgement puts the line at 5°.
    expect(cut('bearing-length 100 mm', 'heel down 9 mm')).toEqual([]);
    const [turned] = cut('bearing-length 100 mm', 'heel down 10 mm');
    // atan(10 / 100) = 5.71°.
    expect(turned).toContain('turns the foot by 5.7° in one visit, more than 5°');
  });

  it('is held against the limits of the case', () => {
    const limits = '\nlimits\n  heel-height >= 20 mm\n';
    // 25 - 8 = 17, at most 20.92; 25 - 10 = 15, at most 18.92.
    expect(cut('heel-height 25 mm', 'heel down 8 mm', limits)).toEqual([]);
    expect(cut('heel-height 25 mm', 'heel down 10 mm', limits)).toEqual([
      'This plan leaves at most 15.0 mm of heel height: by hand there were 25.0 ± 2.0 mm. The limit of this case is 20 mm.',
    ]);
  });

  it('is told once of one number, by what is gravest', () => {
    const both = (line: string): string[] =>
      told(
        visit([
          'tape LF',
          '  heel-height 8 mm',
          '  heel-surplus 2 mm',
          '  bearing-length 60 mm',
          'plan LF',
          `  ${line}`,
        ]),
        'trim/by-hand',
      );
    // Beyond the whole heel and below the sole plane; below the sole plane and turned by atan(11 / 63.92) = 9.8°.
    expect(both('heel down 13 mm')).toEqual([expect.stringContaining('One of the numbers is wrong.')]);
    expect(both('heel down 11 mm')).toEqual([expect.stringContaining('below the live sole plane')]);
  });

  it('leaves no less than nothing', () => {
    // 8 - 10 = -2, by the error of the tape at most 1.92.
    const limits = '\nlimits\n  heel-height >= 20 mm\n';
    expect(cut('heel-height 8 mm', 'heel down 10 mm', limits)).toEqual([
      expect.stringContaining('leaves at most 0.0 mm of heel height'),
    ]);
  });

  it('is predicted on the film alone where there is one, and on another foot’s tape never', () => {
    const film = filmText({}, { header: 'film LF lateral "x.png"' });
    const text = visit(['tape LF', '  heel-surplus 2 mm']).trimEnd();
    expect(told(`${text}\n${film}\n  plan LF\n    heel down 9 mm\n`, 'trim/by-hand')).toEqual([]);
    expect(told(`${text}\n  plan RF\n    heel down 9 mm\n`, 'trim/by-hand')).toEqual([]);
  });

  it('says that bone and sole are for a film to tell', () => {
    const taped = visit(['tape LF', '  heel-height 30 mm', 'plan LF', '  heel down 2 mm']);
    expect(told(taped, 'trim/no-film')[0]).toMatch(
      /held against what was taken by hand; where it leaves bone and sole only/,
    );
    expect(told(visit(['plan LF', '  heel down 2 mm']), 'trim/no-film')[0]).not.toContain('by hand');
  });
});

describe('a tape beyond a limit of the case', () => {
  const limits = '\nlimits\n  heel-height >= 30 mm\n  toe-length <= 80 mm\n';
  const taped = (line: string, more = ''): string[] =>
    told(`${visit(['tape LF', `  ${line}`], limits).trimEnd()}\n${more}`, 'tape/limit');

  it('is told where the error of the tape does not explain it', () => {
    expect(taped('heel-height 26.1 mm')).toEqual([]);
    expect(taped('heel-height 26 mm')).toEqual([
      'Heel height, left fore, by hand: 26.0 ± 2.0 mm, under 30 mm (limit of this case).',
    ]);
    expect(taped('toe-length 83.9 mm')).toEqual([]);
    expect(taped('toe-length 84 mm')).toHaveLength(1);
  });

  it('is left to the film where the foot was filmed at the visit', () => {
    expect(taped('heel-height 20 mm', `${filmText()}\n`)).toEqual([]);
    expect(taped('heel-height 20 mm', `${filmText({}, { header: 'film RF lateral "x.png"' })}\n`)).toHaveLength(1);
  });
});
