import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { parse } from '../../shared/notation/parse.ts';
import { assemble } from '../../shared/record/assemble.ts';
import { filmText } from './plain-foot.ts';

/** The items are those of CARE 2013 (Gagnier and others, J Med Case Rep 2013;7:223): 5 to 10, 12 and 13. */

const told = (text: string) => inspect(text).findings.filter(({ code }) => code === 'case/report-lacks');
const lacks = (text: string): string => told(text)[0]?.message ?? '';

/** An ill animal with all that is asked for, a line for each thing. */
const whole = `hoof 1

case "Sedge"
  animal    horse mare
  breed     "cob"
  foaled    2014-04
  code      A1
  sharing   series
  onset     2026-01 "short on stones"
  diagnosis "laminitis of both fore feet"
  consent   2026-03-04 "in a series under the code"

visit 2026-03-04
  obel 1
  owner "lies down more"
${filmText()}

  trim LF
    heel down 1 mm

visit 2026-04-01
  obel 0
  adverse "none"
`;

describe('a case that is to be reported', () => {
  it('lacks nothing where all is written', () => {
    expect(told(whole)).toEqual([]);
  });

  it.each([
    ['  foaled    2014-04\n', '', 'its age (foaled)'],
    [' mare\n', '\n', 'its kind and sex (animal)'],
    ['  breed     "cob"\n', '', 'its breed (breed)'],
    ['  onset     2026-01 "short on stones"\n', '', 'what brought it, and when (onset)'],
    ['  diagnosis "laminitis of both fore feet"\n', '', 'what the vet diagnosed (diagnosis)'],
    ['    scale 0.1 mm/px\n', '', 'the scale of films: 1 of 1 have none (scale)'],
    ['    heel down 1 mm', '    work "edges"', 'how much was taken off (heel down, toe back and others)'],
    ['  trim LF\n    heel down 1 mm\n', '', 'what was done (trim, medicine, shoe and others)'],
    ['  adverse "none"\n', '', 'what went wrong or did harm, or that nothing did (adverse)'],
    ['  owner "lies down more"\n', '', 'what the owner says (owner)'],
    ['  consent   2026-03-04 "in a series under the code"\n', '', 'the owner’s consent (consent)'],
  ])('without %j', (line, other, said) => {
    expect(whole).toContain(line);
    expect(lacks(whole.replace(line, other))).toBe(
      `A report of this case would lack ${said}. The list is that of CARE 2013.`,
    );
  });

  it('is told of in one finding, a hint, at the line that shares it', () => {
    const text = whole.replace(/ {2}(?:breed|foaled|onset|consent).*\n/g, '');
    const [finding, ...others] = told(text);
    expect(others).toEqual([]);
    expect(finding).toMatchObject({ severity: 'hint' });
    expect(text.slice(finding?.at.start, finding?.at.end)).toBe('sharing   series');
    expect(finding?.message).toContain('its age (foaled), its breed (breed), what brought it');
  });

  it('may be lived with, where the case says why', () => {
    const text = whole.replace(/ {2}consent.*\n/, '  accept case/report-lacks because "nobody knows the owner"\n');
    expect(told(text)).toMatchObject([{ accepted: 'nobody knows the owner' }]);
  });
});

describe('nothing is told', () => {
  const poor = whole.replace(/ {2}(?:breed|foaled|consent|onset|diagnosis).*\n/g, '');

  it('of a private case, nor where nothing is said of sharing', () => {
    expect(told(poor)).toHaveLength(1);
    expect(told(poor.replace('series', 'private'))).toEqual([]);
    expect(told(poor.replace(/ {2}sharing.*\n/, ''))).toEqual([]);
  });

  it('before the second visit', () => {
    expect(told(poor.slice(0, poor.indexOf('visit 2026-04-01')))).toEqual([]);
  });

  it('of a sound animal that is kept to compare with, but who it is, what was measured and the consent', () => {
    const sound = whole
      .replace('obel 1', 'obel 0')
      .replace(/ {2}(?:onset|diagnosis|owner|adverse).*\n/g, '')
      .replace(/ {2}trim LF\n.*\n/, '');
    expect(told(sound)).toEqual([]);
    expect(lacks(sound.replace(/ {2}(?:consent|foaled).*\n/g, ''))).toBe(
      'A report of this case would lack its age (foaled) and the owner’s consent (consent). The list is that of CARE 2013.',
    );
  });

  it('of the examples, but of the one whose trims and owner say nothing', () => {
    const folder = join(import.meta.dirname, '..', '..', 'examples');
    const files = readdirSync(folder).filter((name) => name.endsWith('.hoof'));
    expect(files.length).toBeGreaterThan(6);
    expect(files.filter((name) => told(readFileSync(join(folder, name), 'utf8')).length > 0)).toEqual(['teasel.hoof']);
  });
});

describe('the two words that a report needs', () => {
  it('are in the record', () => {
    const { record, problems } = assemble(parse(whole));
    expect(problems).toEqual([]);
    expect(record.animal?.is.consent).toEqual({ date: '2026-03-04', text: 'in a series under the code' });
    expect(record.visits[1]?.is.adverse).toMatchObject([{ text: 'none' }]);
  });

  it('a consent without a day is none', () => {
    const { record, problems } = assemble(parse(whole.replace('consent   2026-03-04', 'consent')));
    expect(problems.map(({ code }) => code)).toEqual(['notation/unexpected']);
    expect(record.animal?.is.consent).toBeNull();
  });
});
