import { describe, expect, it } from 'vitest';
import { inspect, type Inspection } from '../../shared/findings/inspect.ts';
import { format } from '../../shared/notation/format.ts';
import { nearPartAt } from '../../shared/notation/near-part.ts';
import { caseText, filmText } from './plain-foot.ts';

/** What docs/notation.md says of the beginning of a block that is not quite one: its lines are told of no other day and of no other foot. */

const before = 'hoof 1\n\ncase "T"\n  animal horse gelding\n\nvisit 2026-03-04\n  obel 0\n';
const read = (text: string): Inspection => inspect(`${before}${text}\n`);
const visits = ({ study }: Inspection) => study.record.visits.map(({ is }) => is);
const told = ({ findings }: Inspection, code: string) => findings.filter((one) => one.code === code);

/** The text with the first fix of the first error of the notation. */
function mended(text: string): string {
  const whole = `${before}${text}\n`;
  const [problem] = inspect(whole).findings.filter(({ code }) => code.startsWith('notation/'));
  const edits = [...(problem?.fixes?.[0]?.edits ?? [])].sort((a, b) => b.start - a.start);
  return edits.reduce((all, edit) => all.slice(0, edit.start) + edit.text + all.slice(edit.end), whole);
}

describe('the head of a visit that is nearly one', () => {
  const heads = [
    'vist 2026-04-04',
    'Visit 2026-04-04',
    'VISIT 2026-04-04',
    'visits 2026-04-04',
    'visti 2026-04-04',
    'v1sit 2026-04-04',
    '2026-04-04',
    '4 April 2026',
    'visit: 2026-04-04',
    'Visit - 2026-04-04',
    '- visit 2026-04-04',
    'visit2026-04-04',
    'visit-2026-04-04',
    'vist 4 April 2026',
    'vist April 4th, 2026',
    'vist on 2026-04-04',
    'vist 2026/4/4',
    'vist 4.4.2026',
    'vist 20260404',
    'vist "a second look" 2026-04-04',
    'recheck 2026-04-04',
    'visi t2026-04-04',
    'visit2 026-04-04',
    '\tvist 2026-04-04',
  ];

  it.each(heads)('begins a visit of its own day: %s', (head) => {
    const inspection = read(`${head}\n  obel 4\n  sign fever`);
    expect(visits(inspection)).toMatchObject([
      { date: '2026-03-04', obel: { value: 0 }, signs: [] },
      { date: '2026-04-04', obel: { value: 4 }, signs: [{ word: 'fever' }] },
    ]);
    const calls = told(inspection, 'visit/call-the-vet').map(({ message }) => message);
    expect(calls).toHaveLength(2);
    for (const message of calls) expect(message).toContain('seen on 4 April 2026');
    const [error] = told(inspection, 'notation/unknown-word');
    expect(error).toMatchObject({ severity: 'error' });
    expect(error?.message).toContain('is read as «visit 2026-04-04», and the lines below as its lines.');
    expect(mended(head)).toMatch(/\n\s*visit 2026-04-04/);
    expect(told(inspect(mended(head)), 'notation/unknown-word')).toEqual([]);
    // A broken line stays as it is, to the letter.
    expect(format(`${before}${head}\n`)).toContain(head.trim());
  });

  it.each(['visit 4 April 2026', 'visit 2026-4-4', 'visit 2026/04/04', 'visit on 2026-04-04', 'visit = 2026-04-04'])(
    'and whose date alone is wrong has its day where there can be only one: %s',
    (head) => {
      expect(visits(read(`${head}\n  obel 4`))).toMatchObject([{ obel: { value: 0 } }, { date: '2026-04-04' }]);
    },
  );

  it('has no day where there can be two, and calls all the same', () => {
    const inspection = read('vist 4/3/2026\n  obel 4');
    expect(visits(inspection)).toMatchObject([{ date: '2026-03-04' }, { date: null, obel: { value: 4 } }]);
    expect(told(inspection, 'visit/call-the-vet')).toHaveLength(1);
    expect(told(inspection, 'notation/date-form')[0]?.fixes?.map(({ title }) => title)).toEqual([
      'Write 2026-03-04',
      'Write 2026-04-03',
    ]);
  });

  it('with a grade or a sign on its own line calls', () => {
    expect(told(read('2026-04-04: obel 4'), 'visit/call-the-vet')[0]?.message).toContain('Obel grade 4 (as written');
    expect(told(read('visit 2026-04-04 sign fever'), 'visit/call-the-vet')[0]?.message).toContain('fever');
  });

  it.each([
    'next 2026-04-04',
    'nxt 2026-04-04',
    'vetseen 2026-04-04',
    'foalled 2015-04-04',
    'takn 2026-04-04',
    '12 mm',
  ])('is no other line that has a date: %s', (line) => {
    expect(nearPartAt(line, 0)).toBeNull();
  });

  it('among the lines of a case, whose lines go on below it, begins none', () => {
    const text = 'hoof 1\n\ncase "T"\n  animal horse mare\nvist 2026-04-04\n  height 150 cm\n  foaled 2012\n';
    expect(inspect(text).study.record).toMatchObject({ animal: { is: { foaled: '2012' } }, visits: [] });
  });

  it('lets no plan be written until it is mended', () => {
    const film = filmText({});
    const [right, wrong] = ['visit', 'vist'].map((word) => caseText(film).replace(/visit (?=\d)/, `${word} `));
    expect(inspect(right ?? '').study.record.visits[0]?.is.unreadAt).toBeNull();
    expect(inspect(wrong ?? '').study.record.visits[0]?.is.unreadAt).not.toBeNull();
  });
});

describe('the head of another part that is nearly one', () => {
  it.each(['Limits', 'limts', 'limit', 'limits:'])('of limits: %s', (head) => {
    const inspection = read(`${head}\n  toe-length <= 82 mm`);
    expect(inspection.study.record.limits).toMatchObject([{ is: { measure: 'toe-length' } }]);
  });

  it.each(['Case "T"', 'cse "T"', 'case: "T"', 'name "T"'])('of the case: %s', (head) => {
    const { study } = inspect(`hoof 1\n\n${head}\n  animal horse mare\n\nvisit 2026-03-04\n`);
    expect(study.record.animal?.is).toMatchObject({ name: 'T', kind: 'horse' });
  });
});

describe('the head of a block within a visit that is nearly one', () => {
  const film = '  film LF lateral "a.png"\n    p3.tip @ 1, 2\n';

  it.each([
    'fillm RF lateral b.png',
    'Film RF lateral',
    'film: RF lateral "b.png"',
    'filmRF lateral "b.png"',
    'RF lateral "b.png"',
    'radiografie RF lateral "b.png"',
    'fillm',
    'Film',
    'film',
    'RF',
  ])('leaves its landmarks to no other film: %s', (head) => {
    const inspection = read(`${film}  ${head}\n    p3.tip @ 3, 4\n    p3.wing @ 5, 6\n  sign fever`);
    expect(visits(inspection)[0]?.films.map(({ readings }) => readings[0]?.placings)).toMatchObject([
      [{ name: 'p3.tip', x: 1 }],
    ]);
    expect(told(inspection, 'visit/call-the-vet')).toHaveLength(1);
    expect(visits(inspection)[0]?.unreadAt).not.toBeNull();
  });

  it.each(['tape: RF', 'tpe rf', 'tapeRF', 'Tape RF 92', 'RF', 'RF tape'])(
    'leaves its values to no other foot: %s',
    (head) => {
      const inspection = read(
        `  tape LF\n    toe-length 80 mm\n  ${head}\n    heel-height 30 mm\n    toe-length 95 mm`,
      );
      expect(visits(inspection)[0]?.tapes).toMatchObject([
        { foot: 'LF', values: [{ measure: 'toe-length', quantity: { value: 80 } }] },
      ]);
    },
  );

  it.each(['trimm RF and LF', 'trim: RF', 'trimRF', 'plna rf'])('leaves its cut to no other: %s', (head) => {
    const inspection = read(`  plan LF\n    heel down 2 mm\n  ${head}\n    heel down 9 mm\n    toe back 3 mm`);
    expect(visits(inspection)[0]?.cuts).toMatchObject([{ foot: 'LF', heelDown: { value: 2 }, toeBack: null }]);
    expect(visits(inspection)[0]?.unreadAt).not.toBeNull();
  });

  it('says what it is taken for, and mends it', () => {
    expect(told(read(`${film}  tapeRF`), 'notation/unknown-word')[0]).toMatchObject({
      message: expect.stringContaining('«tapeRF» is taken for the beginning of a tape'),
      fixes: [{ title: 'Write «tape RF»' }],
    });
  });
});
