import { describe, expect, it } from 'vitest';
import { parse } from '../../shared/notation/parse.ts';
import { assemble } from '../../shared/record/assemble.ts';
import { caseRecordSchema } from '../../shared/record/schema.ts';

const whole = `hoof 1

case "Sorrel"
  animal    pony mare
  breed     "hill pony"
  foaled    2011-13
  foaled    2011-04
  height    12.2 hh
  microchip 985000000000001
  ueln      25000100155928M
  code      S07
  sharing   series
  onset     2025-11 "short on stones"
  | Came with her dam.

limits
  sole-depth.tip  >= 1.2 cm  because "agreed with the vet"
  palmar-angle    <= 8 deg

visit 2026-03-04 "first visit"
  by         "K. M."
  weight     700 lb
  girth      150 cm
  length     50 in
  condition  7.5
  crest      3.5
  obel       2
  pulse      LF RF bounding
  pulse      LH normal
  insulin    38 µIU/mL
  acth       24 pg/mL
  glucose    5.2 mmol/L
  feed       "hay \\"second cut\\", soaked"
  turnout    "dry paddock"
  vet        "agrees"
  sign       fever
  | Quiet.

  film RF lateral "films/a b.png"
    taken    2026-03-03
    scale    10 cm = 1310, 1422 .. 2290, 1425
    magnify  1.04
    ground   180, 1388.5 .. 1650, 1392
    expect   palmar-angle 5 deg +- 1 deg
    p3.tip   @ 1382, 1201 +- 4
    read "B" +- 2.5
      p3.tip @ 1380, 1200

  photo RF solar "p.jpg"
    toe @ 10, 20

  tape RF
    toe-length 9.2 cm

  plan RF
    heel  down 8 mm
    toe   down 1 mm
    toe   back 3 mm
    leave sole toe
    boots "pads"
    why   "steps"
    work  "flare"

  trim RF
    heel down 6 mm

  next 4 weeks
`;

const { record, problems } = assemble(parse(whole));
const visit = record.visits[0]?.is;

describe('the record of a whole file', () => {
  it('is what its schema says', () => {
    expect(caseRecordSchema.parse(record)).toEqual(record);
  });

  it('has told what was wrong: a year has twelve months', () => {
    expect(problems.map(({ code }) => code)).toEqual(['notation/no-such-date']);
  });

  it('knows the animal', () => {
    expect(record.animal?.is).toMatchObject({
      name: 'Sorrel',
      kind: 'pony',
      sex: 'mare',
      breed: 'hill pony',
      foaled: '2011-04',
      microchip: '985000000000001',
      ueln: '25000100155928M',
      code: 'S07',
      sharing: 'series',
      onset: { date: '2025-11', text: 'short on stones' },
    });
    expect(record.animal?.is.height?.base).toBeCloseTo(50 * 25.4, 9);
    expect(record.animal?.is.prose.map(({ text }) => text)).toEqual(['Came with her dam.']);
  });

  it('has lengths in mm, masses in kg, times in days, and what was written beside them', () => {
    expect(record.limits.map(({ is }) => [is.measure, is.relation, is.quantity.base, is.because])).toEqual([
      ['sole-depth.tip', '>=', 12, 'agreed with the vet'],
      ['palmar-angle', '<=', 8, null],
    ]);
    expect(visit?.weight).toMatchObject({ value: 700, unit: 'lb', base: 700 * 0.45359237 });
    expect(visit?.length?.base).toBeCloseTo(1270, 9);
    expect(visit?.next).toMatchObject({ after: { value: 4, unit: 'weeks', base: 28 } });
    expect(visit?.tapes[0]?.values[0]?.quantity.base).toBe(92);
  });

  it('has what was seen', () => {
    expect(visit).toMatchObject({
      date: '2026-03-04',
      title: 'first visit',
      by: { text: 'K. M.' },
      condition: { value: 7.5 },
      crest: { value: 3.5 },
      obel: { value: 2 },
      pulses: [
        { feet: ['LF', 'RF'], pulse: 'bounding' },
        { feet: ['LH'], pulse: 'normal' },
      ],
      insulin: { value: 38, unit: 'uIU/mL' },
      feed: [{ text: 'hay "second cut", soaked' }],
      signs: [{ word: 'fever' }],
    });
  });

  it('has the film with each reader apart', () => {
    const film = visit?.films[0];
    expect(film).toMatchObject({
      kind: 'film',
      foot: 'RF',
      view: 'lateral',
      path: { text: 'films/a b.png' },
      taken: '2026-03-03',
      magnify: { value: 1.04 },
      scale: {
        kind: 'marker',
        length: { base: 100 },
        marker: { from: { x: 1310, y: 1422 }, to: { x: 2290, y: 1425 } },
      },
      ground: { from: { x: 180, y: 1388.5 }, to: { x: 1650, y: 1392 } },
      expects: [{ measure: 'palmar-angle', quantity: { base: 5 }, tolerance: { base: 1 } }],
    });
    expect(
      film?.readings.map(({ reader, spread, placings }) => [
        reader,
        spread,
        placings.map(({ name, x, y, spread: own }) => [name, x, y, own]),
      ]),
    ).toEqual([
      [null, null, [['p3.tip', 1382, 1201, 4]]],
      ['B', 2.5, [['p3.tip', 1380, 1200, null]]],
    ]);
    expect(visit?.films[1]).toMatchObject({ kind: 'photo', view: 'solar' });
  });

  it('has the plan and the trim', () => {
    expect(visit?.cuts).toMatchObject([
      {
        kind: 'plan',
        foot: 'RF',
        heelDown: { base: 8 },
        toeDown: { base: 1 },
        toeBack: { base: 3 },
        leave: ['sole', 'toe'],
        boots: { text: 'pads' },
        why: [{ text: 'steps' }],
        work: [{ text: 'flare' }],
      },
      { kind: 'trim', heelDown: { base: 6 }, toeBack: null },
    ]);
  });
});

describe('what is said twice', () => {
  it('counts once, the first time', () => {
    const twice = assemble(
      parse(
        'hoof 1\nvisit 2026-03-04\nweight 500 kg\nweight 600 kg\nfilm LF lateral "x"\np3.tip @ 1, 2\np3.tip @ 3, 4\nplan LF\ntoe down 1 mm\ntoe back 2 mm\ntoe back 3 mm\n',
      ),
    );
    const [is] = twice.record.visits.map((placed) => placed.is);
    expect(is?.weight?.base).toBe(500);
    expect(is?.films[0]?.readings[0]?.placings.map(({ x }) => x)).toEqual([1]);
    expect(is?.cuts[0]).toMatchObject({ toeDown: { base: 1 }, toeBack: { base: 2 } });
    expect(twice.problems.map(({ code }) => code).sort()).toEqual([
      'record/duplicate-landmark',
      'record/duplicate-word',
      'record/duplicate-word',
    ]);
  });

  it.each([
    ['obel 1', 'obel 4'],
    ['obel 4', 'obel 1'],
  ])('of two grades counts the graver, whichever stands first: %s, %s', (one, other) => {
    const { record, problems } = assemble(parse(`hoof 1\nvisit 2026-03-04\n${one}\n${other}\n`));
    expect(record.visits[0]?.is.obel?.value).toBe(4);
    expect(problems.map(({ code }) => code)).toEqual(['record/duplicate-word']);
    // The line that may be removed by a press is never the graver one.
    expect(problems[0]?.fixes.map(({ edits }) => edits.map(({ start }) => start))).toEqual(
      one === 'obel 4' ? [[problems[0]?.at.start]] : [],
    );
  });

  it('lets dates stand still but not go back', () => {
    expect(assemble(parse('hoof 1\nvisit 2026-03-04\nvisit 2026-03-04\n')).problems).toEqual([]);
  });
});
