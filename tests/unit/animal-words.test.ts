import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { parse } from '../../shared/notation/parse.ts';
import { assemble } from '../../shared/record/assemble.ts';
import { caseRecordSchema } from '../../shared/record/schema.ts';
import { reportPage } from '../../shared/report/page.ts';
import { seenWords } from '../../shared/views/seen-words.ts';

const visit = (lines: string): string => `hoof 1\nvisit 2026-03-04\n${lines}\n`;

function read(lines: string) {
  const { record, problems } = assemble(parse(visit(lines)));
  expect(problems.map(({ message }) => message)).toEqual([]);
  expect(caseRecordSchema.parse(record)).toEqual(record);
  const [is] = record.visits.map((placed) => placed.is);
  if (!is) throw new Error('no visit');
  return is;
}

describe('what is said of the animal at a visit', () => {
  it.each([
    ['by "K. M."', 'By K. M.'],
    ['farrier "T. B."', 'Farrier: T. B.'],
    ['diagnosis "laminitis of both fore feet"', 'Diagnosis: laminitis of both fore feet'],
    ['owner "lies down more"', 'The owner says: lies down more'],
    ['insulin 38 uIU/mL', 'Insulin 38 uIU/mL'],
    ['insulin > 300 µIU/mL', 'Insulin over 300 uIU/mL'],
    ['insulin 12 mU/L fasting', 'Insulin 12 mU/L, fasting'],
    ['insulin > 200 uIU/mL 60 minutes after syrup', 'Insulin over 200 uIU/mL, 60 minutes after syrup'],
    ['acth 110 pg/mL 10 minutes after TRH', 'ACTH 110 pg/mL, 10 minutes after TRH'],
    ['glucose 5.2 mmol/L', 'Glucose 5.2 mmol/L'],
    ['triglycerides 80 mg/dL', 'Triglycerides 80 mg/dL'],
    ['hormone "adiponectin" 4.1 ug/mL', 'Adiponectin 4.1 ug/mL'],
    ['medicine "phenylbutazone"', 'Medicine: phenylbutazone'],
    [
      'medicine "phenylbutazone" dose "1 g twice a day" from 2026-03-04 until 2026-03-11',
      'Medicine: phenylbutazone, 1 g twice a day, from 2026-03-04 until 2026-03-11',
    ],
  ])('%s', (line, words) => {
    expect(seenWords(read(line))).toEqual([words]);
  });

  it('has every value of the blood, of each test one', () => {
    const is = read('insulin 12 uIU/mL fasting\n  insulin 90 uIU/mL 60 minutes after syrup\n  glucose 90 mg/dL');
    expect(is.laboratory).toMatchObject([
      { of: 'insulin', value: { base: 12 }, above: false, fasting: true, after: null },
      { of: 'insulin', value: { base: 90 }, fasting: false, after: 60 },
      { of: 'glucose', value: { value: 90, unit: 'mg/dL' } },
    ]);
    expect(is.insulin).toMatchObject({ base: 12 });
    const twice = assemble(parse(visit('insulin 12 uIU/mL fasting\ninsulin 14 uIU/mL fasting')));
    expect(twice.problems.map(({ message }) => message)).toEqual([
      '«insulin fasting» is said twice here; the first counts. Keep one of the two lines.',
    ]);
  });
});

describe('in the case', () => {
  const text =
    'hoof 1\n\ncase "X"\n  animal    pony mare\n  diagnosis "old laminitis"\n  vet       "Dr. A. N."\n  farrier   "T. B."\n';

  it('vet and farrier are who they are, and the report says so', () => {
    const inspection = inspect(text);
    expect(inspection.study.record.animal?.is).toMatchObject({
      diagnoses: [{ text: 'old laminitis' }],
      vet: [{ text: 'Dr. A. N.' }],
      farrier: { text: 'T. B.' },
    });
    expect(reportPage([{ file: 'x.hoof', inspection, pictures: new Map() }], '2026-03-04')).toContain(
      'old laminitis, vet: Dr. A. N., farrier: T. B.',
    );
  });

  it('the vet sees the animal at a visit, not in the case', () => {
    const { problems } = assemble(parse(text.replace('"Dr. A. N."', 'seen 2026-03-04')));
    expect(problems.map(({ code }) => code)).toEqual(['notation/unexpected']);
  });
});

describe('a line that is not right', () => {
  it.each([
    ['insulin > 300', 'The number 300 has no unit. Write 300 uIU/mL'],
    ['insulin 38 uIU/mL 60 minutes', '«insulin» still needs «after»'],
    ['insulin 38 uIU/mL 60 minutes after sugar', 'wants «syrup»'],
    [
      'insulin 38 uIU/mL 2000 minutes after syrup',
      '«insulin» goes from 1 to 600 minutes; 2000 minutes is more. Did you mean 200 minutes?',
    ],
    ['triglycerides 900 mmol/L', '«triglycerides» goes from 0.01 to 100 mmol/L'],
    ['hormone 12 nmol/L', 'Put the text in quotes'],
    ['medicine "x" dose 1', 'Put the text in quotes'],
    ['medicine "x" from March', 'a date such as 2026-03-04'],
    [
      'medicine "x" from 2026-03-11 until 2026-03-04',
      'This medicine ends on 2026-03-04, before it begins on 2026-03-11. Check both dates.',
    ],
  ])('%s', (line, says) => {
    const [told] = assemble(parse(visit(line))).problems;
    expect(told?.message).toContain(says);
  });
});

it('what is told of insulin fits its test', () => {
  const told = (line: string): string =>
    inspect(visit(line)).findings.find(({ code }) => code === 'visit/insulin')?.message ?? '';
  // The bands are those of the abstract, Knowles and others 2022; see shared/reference/insulin.ts.
  expect(told('insulin 60 uIU/mL')).toContain('6 % of those under 21.6');
  expect(told('insulin > 200 uIU/mL 60 minutes after syrup')).toMatch(/^Insulin over 200 .*3 % of those under 53\.4/);
  expect(told('insulin 60 uIU/mL fasting')).toContain('Fasting, as here, and after a sugar test other figures count');
});
