import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { openAlarms } from '../../shared/findings/open-alarms.ts';
import { courseText } from './course-text.ts';
import { sunk } from './moved-foot.ts';

/** A slip in the day on which the vet came must silence nothing, and a right one closes what could be known by then. */

const sheet = (visits: string): string => `hoof 1\n\ncase "X"\n  animal pony mare\n\n${visits}\n`;
const told = (text: string, code: string) => inspect(text).findings.filter((one) => one.code === code);
const alarms = (text: string): string[] => openAlarms(inspect(text).study).map(({ code }) => code);

describe('a visit of the vet that is dated after the visit it stands in', () => {
  it.each(['sign recumbent', 'obel 4'])('by a wrong year closes nothing: %s', (line) => {
    const text = sheet(`visit 2026-01-05\n  ${line}\n  vet seen 2062-01-05 "box rest"`);
    const [call] = told(text, 'visit/call-the-vet');
    expect(call?.severity).toBe('error');
    expect(alarms(text)).toEqual(['visit/call-the-vet']);
    const [slip, ...more] = told(text, 'visit/vet-seen-date');
    expect(more).toEqual([]);
    expect(slip).toMatchObject({ severity: 'error' });
    expect(text.slice(slip?.at.start, slip?.at.end)).toBe('vet seen 2062-01-05 "box rest"');
    expect(slip?.message).toContain('more than 14 days after 5 January 2026');
  });

  it('closes no sinking either, nor a lameness of a later visit', () => {
    const text = courseText([
      {
        date: '2026-01-05',
        places: sunk(0),
        film: { header: 'film LF lateral "a.png"' },
        more: ['  vet seen 2062-01-05'],
      },
      { date: '2026-02-05', places: sunk(6), film: { header: 'film LF lateral "b.png"' }, more: ['  obel 3'] },
    ]);
    expect(told(text, 'course/sinking')[0]?.severity).toBe('error');
    expect(alarms(text)).toEqual(expect.arrayContaining(['course/sinking', 'visit/call-the-vet']));
  });

  it('counts some days after it, but not on or past the day of a later visit', () => {
    const after = (seen: string, next = '') => sheet(`visit 2026-01-05\n  sign fever\n  vet seen ${seen}${next}`);
    for (const seen of ['2026-01-05', '2026-01-06', '2026-01-19']) expect(alarms(after(seen)), seen).toEqual([]);
    expect(alarms(after('2026-01-20'))).toEqual(['visit/call-the-vet']);
    const next = '\n\nvisit 2026-01-12\n  obel 1';
    expect(alarms(after('2026-01-11', next))).toEqual([]);
    expect(alarms(after('2026-01-12', next))).toEqual(['visit/call-the-vet']);
    expect(told(after('2026-01-12', next), 'visit/vet-seen-date')[0]?.message).toContain('there is a later visit');
    // Written where it belongs it counts, however long after.
    expect(alarms(after('2026-01-04', '\n\nvisit 2026-06-01\n  vet seen 2026-05-20'))).toEqual([]);
  });

  it('cannot be accepted, and holds for a visit without a day as for the one before it', () => {
    const text = sheet(
      'visit 2026-01-05\n  obel 0\n\nvisit 2026-01-32\n  sign fever\n  accept visit/vet-seen-date because "x"\n  vet seen 2062-01-05',
    );
    expect(alarms(text)).toEqual(['visit/call-the-vet']);
    expect(told(text, 'accept/never')).toHaveLength(1);
  });
});

describe('the call', () => {
  it('says when the signs were seen, in words as they are said, and how it is closed', () => {
    const text = sheet('visit 2021-05-01\n  vet seen 2021-01-04\n  sign recumbent coronet-gap sole-bulge\n  obel 1');
    expect(told(text, 'visit/call-the-vet')[0]?.message).toBe(
      'Call the vet now: lies and will not rise, a gap above the coronet and a bulging sole, seen on 1 May 2021. No visit of the vet since then is written; the one of 4 January 2021 was before. Do not trim before. When the vet has been, write: vet seen DATE.',
    );
  });
});

describe('a grade of lameness that is written as people write them', () => {
  const film = (line: string) => sheet(`visit 2026-03-04\n  ${line}\n  pulse LF RF bounding`);

  it.each([
    'obel 3.5',
    'obel 2-3',
    'obel 3/5',
    'obel 4/4',
    'obel 3,5',
    'obel "4"',
    'obel III',
    'obel iv',
    'obel grade 4',
    'obel four',
    'obel: 4',
    'obel = 4',
    'Obel 4',
    'obel 2.5',
    'obel 40',
    'obel 2+',
    'obel -4',
  ])('calls the vet, with and without pulses: %s', (line) => {
    for (const text of [film(line), sheet(`visit 2026-03-04\n  ${line}`)]) {
      const { findings } = inspect(text);
      expect(findings.some(({ code, severity }) => code.startsWith('notation/') && severity === 'error')).toBe(true);
      expect(told(text, 'visit/call-the-vet')).toMatchObject([{ severity: 'error' }]);
    }
  });

  it('calls for two with bounding pulses in two feet, as a two that can be read', () => {
    for (const line of ['obel "2"', 'obel II', 'obel two', 'obel 1.5', 'obel 2/5']) {
      expect(told(film(line), 'visit/call-the-vet'), line).toHaveLength(1);
      expect(told(sheet(`visit 2026-03-04\n  ${line}`), 'visit/call-the-vet'), line).toEqual([]);
    }
    for (const line of ['obel -1', 'obel "0"', 'obel sound', 'obel', 'obel 0.5'])
      expect(told(film(line), 'visit/call-the-vet'), line).toEqual([]);
  });

  it('makes nobody better, and is told to be written as a grade', () => {
    const text = sheet('visit 2026-01-05\n  obel 4\n\nvisit 2026-02-05\n  obel 1\n  obel grade 3\n');
    expect(told(text, 'visit/call-the-vet').map(({ severity }) => severity)).toEqual(['error', 'error']);
    expect(told(film('obel 3.5'), 'notation/number-range')[0]?.message).toBe(
      'Obel grades are 0, 1, 2, 3 or 4. Between two, write the higher.',
    );
  });
});
