import { describe, expect, it } from 'vitest';
import { measuredCase } from '../../shared/export/measured.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { parse } from '../../shared/notation/parse.ts';
import { assemble } from '../../shared/record/assemble.ts';
import { caseRecordSchema } from '../../shared/record/schema.ts';
import { reportPage } from '../../shared/report/page.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { visitSheets } from '../../shared/views/visit-sheet.ts';

const film = (lines: string, view = 'lateral'): string =>
  `hoof 1\nvisit 2026-03-04\nfilm LF ${view} "a.png"\n  ${lines}\n`;
const problems = (text: string) => assemble(parse(text)).problems;

describe('how a film was taken', () => {
  const text = film(
    'block 60 mm\n  focus 90 cm\n  beam 640, 1180\n  standing "square, cannon upright"\n  paste "from the frog to the toe"',
  );

  it('is in the record, in mm and pixels', () => {
    const { record, problems: told } = assemble(parse(text));
    expect(told).toEqual([]);
    expect(caseRecordSchema.parse(record)).toEqual(record);
    expect(record.visits[0]?.is.films[0]?.setup).toMatchObject({
      block: { base: 60 },
      focus: { base: 900 },
      beam: { x: 640, y: 1180 },
      standing: 'square, cannon upright',
      paste: 'from the frog to the toe',
    });
    expect(assemble(parse(film('paste'))).record.visits[0]?.is.films[0]?.setup).toMatchObject({
      paste: '',
      block: null,
    });
    expect(assemble(parse(film(''))).record.visits[0]?.is.films[0]?.setup).toBeNull();
  });

  it('is said with the film and in the JSON', () => {
    const inspection = inspect(text);
    expect(filmSheets(inspection)[0]?.said).toEqual([
      'Block 60 mm, focus 90 cm, beam centre at 640, 1180, standing square, cannon upright.',
      'Paste on the sole: from the frog to the toe.',
    ]);
    expect(measuredCase('x', inspection).visits[0]?.films[0]?.setup).toEqual({
      paste: 'from the frog to the toe',
      block: 60,
      focus: 900,
      beam: { x: 640, y: 1180 },
      standing: 'square, cannon upright',
    });
  });

  it.each([
    ['block 6 m', '6 m'],
    ['block 600 mm', '«block» goes from 1 to 500 mm; 600 mm is more. Did you mean 60 mm?'],
    ['focus 90', 'The number 90 has no unit.'],
    ['beam 640', 'wants a point such as 1382, 1201'],
    ['standing square', 'Put the text in quotes'],
  ])('%s is told', (line, says) => {
    expect(problems(film(line))[0]?.message).toContain(says.replace('6 m', 'm'));
  });
});

describe('a picture of a view that is not measured', () => {
  const text = film('taken 2026-03-03\n  paste', 'venogram');

  it.each(['venogram', 'skyline', 'heel'])('%s is read', (view) => {
    const { record, problems: told } = assemble(parse(film('block 60 mm', view)));
    expect(told).toEqual([]);
    expect(caseRecordSchema.parse(record)).toEqual(record);
    expect(record.visits[0]?.is).toMatchObject({
      films: [],
      pictures: [{ view, foot: 'LF', setup: { block: { base: 60 } } }],
    });
  });

  it('is listed and shown, and nothing is measured on it', () => {
    const inspection = inspect(text);
    expect(filmSheets(inspection)).toEqual([]);
    expect(visitSheets(inspection)[0]).toMatchObject({
      picture: 'a.png',
      seen: ['Venogram, left fore, 2026-03-03: a.png (Paste on the sole.)'],
    });
    expect(measuredCase('x', inspection).visits[0]).toMatchObject({
      films: [],
      pictures: [{ foot: 'LF', view: 'venogram', line: 3, picture: 'a.png' }],
    });
    const picture = { href: 'data:image/png;base64,AA', width: 10, height: 20 };
    const page = reportPage([{ file: 'x', inspection, pictures: new Map([['a.png', picture]]) }], '2026-03-04');
    expect(page).toContain('<img src="data:image/png;base64,AA" alt="Venogram, left fore, 2026-03-03: a.png');
  });

  it('tells what would be measured from, and what is no landmark of it', () => {
    const [scale] = problems(film('scale 0.1 mm/px', 'skyline'));
    expect(scale).toMatchObject({ code: 'record/not-measured' });
    expect(scale?.message).toContain('«scale» counts for nothing here');
    expect(problems(film('p3.tip @ 1, 2', 'venogram'))[0]?.message).toBe(
      '«p3.tip» is a landmark of the lateral view; this picture is venogram.',
    );
    expect(problems(film('p3.tpi @ 1, 2', 'venogram'))[0]?.message).toBe(
      'There is no landmark «p3.tpi» in the venogram view.',
    );
  });

  it('a view with a slip is named', () => {
    expect(problems(film('', 'venogramm'))[0]?.message).toContain('Did you mean venogram?');
  });
});
