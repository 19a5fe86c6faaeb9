import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import type { Finding } from '../../shared/findings/finding.ts';

/**
 * docs/notation.md, "What is broken costs its own line": a line that is misread is told at its place, and every error and warning that the
 * case gives without it is given with it too, wherever it stands.
 */

/** A case of our own with what alarms in each kind of block, the example cases having few. */
const sick = `hoof 1

case "Madder"
  animal    horse gelding
  foaled    2012
  height    150 cm
  onset     2026-02-20 "short on hard ground"
  vet       "the practice in the next village"

limits
  sole-depth.tip      >= 16 mm because "agreed with the treating vet"
  toe-length          <= 82 mm

visit 2026-03-04 "first visit"
  weight     512 kg
  obel       3
  pulse      LF RF bounding
  sign       fever
  | Stood with both fore feet well out in front.

  tape LF
    toe-length          91 mm
    heel-height         26 mm
    coronet-girth       330 mm

  plan LF
    heel  down 14 mm
    leave toe sole

visit 2026-04-01
  obel       4
  testers    LF toe severe
  sign       discharge
  medicine   "phenylbutazone" from 2026-04-09 until 2026-04-02

  tape LF
    toe-length          93 mm
    heel-height         31 mm

  trim LF RF
    heel  down 12 mm
    toe   back 3 mm
  next       2026-03-01
`;

/** A film with its landmarks is read first: nothing of it may be lost. */
const examples = ['mistakes', 'larch', 'thistle', 'fennel'].map((name) => ({
  name,
  text: readFileSync(new URL(`../../examples/${name}.hoof`, import.meta.url), 'utf8'),
}));

/** Lines that mean nothing wherever they stand. */
const broken = [
  'case LF',
  'case LF "cloth, four weeks"',
  'hoof LF sound',
  'limits LF',
  'visit',
  'visit "with the vet"',
  'film',
  'film lateral',
  'photo "films/lf.png"',
  'tape toe 92 mm',
  'plan',
  'plan heel down 3 mm',
  'trim',
  'read',
  'slipper LF',
  'vetseen 2026-03-04',
  'girth 190',
  'condition 12',
  'sign',
  'next Tuesday',
  'heel down',
  'scale 100',
  'ground 1, 2',
  'bearing none',
  'nose.tip @ 100, 200',
  'p3.tip @ here',
  'sole-depth.tip >= thick',
  'accept range/palmar-angle',
  'animal cow',
  '"films/lf.png"',
  '12 mm',
];

/** Lines that are right in a visit, and stand among the lines of whatever other block. */
const elsewhere = ['limits', 'feed "soaked hay"', 'lameness LF 2', '| He was quiet.'];

const alarms = (findings: readonly Finding[]): Finding[] =>
  findings.filter(({ severity }) => severity === 'error' || severity === 'warning');

function lost(text: string, given: readonly Finding[], at: number, line: string): string[] {
  const moved = (offset: number): number => (offset >= at ? offset + line.length + 1 : offset);
  const told = new Set(
    inspect(`${text.slice(0, at)}${line}\n${text.slice(at)}`).findings.map((one) => `${one.code} ${one.at.start}`),
  );
  return given.map(({ code, at: place }) => `${code} ${moved(place.start)}`).filter((one) => !told.has(one));
}

const lineStarts = (text: string): number[] => [0, ...[...text.matchAll(/\n/g)].map(({ index }) => index + 1)];

describe('one wrong line', () => {
  const cases = [{ name: 'a sick horse', text: sick }, ...examples];

  it('has cases that raise alarms of many kinds', () => {
    const codes = cases.flatMap(({ text }) => alarms(inspect(text).findings).map(({ code }) => code));
    expect(new Set(codes).size).toBeGreaterThan(25);
  });

  it.each(cases)('in $name costs no alarm, wherever it stands', ({ text }) => {
    const given = alarms(inspect(text).findings);
    // In a long case each line stands at every seventh place, and at each place some do.
    const every = text.length > 2000 ? 7 : 1;
    for (const [number, line] of [...broken, ...elsewhere].entries())
      for (const [place, at] of lineStarts(text).entries()) {
        if ((place + number) % every !== 0) continue;
        const where = `«${line}» above «${text.slice(at, text.indexOf('\n', at))}»`;
        expect(lost(text, given, at, line), where).toEqual([]);
      }
  });

  it('is told where it stands', () => {
    for (const line of broken)
      for (const at of lineStarts(sick)) {
        const { findings } = inspect(`${sick.slice(0, at)}${line}\n${sick.slice(at)}`);
        const there = findings.filter((one) => one.at.start >= at && one.at.end <= at + line.length);
        expect(alarms(there).length, `«${line}» above «${sick.slice(at, sick.indexOf('\n', at))}»`).toBeGreaterThan(0);
      }
  });
});
