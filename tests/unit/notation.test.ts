import { describe, expect, it } from 'vitest';
import { landmarks } from '../../shared/notation/landmarks.ts';
import { nearest } from '../../shared/notation/nearest.ts';
import { parse } from '../../shared/notation/parse.ts';
import { isGroup, type Entry } from '../../shared/notation/tree.ts';
import { findUnit, toBase } from '../../shared/notation/units.ts';
import { blocks, formsIn, statements, type Container } from '../../shared/notation/vocabulary.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { assemble } from '../../shared/record/assemble.ts';
import { caseRecordSchema } from '../../shared/record/schema.ts';

function shape(entries: readonly Entry[]): unknown[] {
  return entries.map((entry) =>
    isGroup(entry) ? [entry.row.word, shape(entry.entries)] : entry.kind === 'prose' ? '|' : entry.word,
  );
}

const shapeOf = (text: string): unknown[] =>
  parse(text).blocks.map(({ block }) => [block.row?.word ?? null, shape(block.entries)]);
const problemsOf = (text: string) => assemble(parse(text)).problems.map(({ code, message }) => `${code}: ${message}`);

/** The lines that open a place, so that a word can be tried in it. */
const openings: Readonly<Record<Container, string>> = {
  file: 'hoof 1\n',
  hoof: 'hoof 1\n',
  case: 'hoof 1\ncase "X"\n',
  limits: 'hoof 1\nlimits\n',
  visit: 'hoof 1\nvisit 2026-03-04\n',
  film: 'hoof 1\nvisit 2026-03-04\nfilm LF lateral "x.png"\n',
  photo: 'hoof 1\nvisit 2026-03-04\nphoto LF lateral "x.png"\n',
  tape: 'hoof 1\nvisit 2026-03-04\ntape LF\n',
  plan: 'hoof 1\nvisit 2026-03-04\nplan LF\n',
  trim: 'hoof 1\nvisit 2026-03-04\ntrim LF\n',
  read: 'hoof 1\nvisit 2026-03-04\nfilm LF lateral "x.png"\nread "A"\n',
};

describe('the vocabulary', () => {
  const rows = [...blocks, ...statements]
    .filter((row) => row.word !== 'hoof')
    .flatMap((row) => row.in.map((place) => ({ word: row.word, place, example: row.example })));

  it.each(rows)('reads the example of $word in $place', ({ place, example }) => {
    expect(problemsOf(openings[place] + example)).toEqual([]);
  });

  it.each([...blocks, ...statements].map((row) => [row.word, row] as const))(
    '%s reads every form that it says it takes',
    (_word, row) => {
      const samples: Readonly<Record<string, string>> = {
        text: '"a text"',
        date: '2026-03-05',
        number: '1',
        foot: 'LF',
        measure: 'palmar-angle',
        relation: '>=',
        point: '1, 2',
        segment: '1, 2 .. 3, 4',
        word: 'fever',
        measured: '5 deg',
      };
      const places = row.takesIn ? row.in : row.in.slice(0, 1);
      const forms = places.flatMap((place) => formsIn(row, place).map((form) => ({ place, form })));
      for (const { place, form } of forms) {
        if (form.length === 0 || row.word === 'hoof') continue;
        const written = form.map((argument) => {
          switch (argument.take) {
            case 'quantity':
              return `${argument.range.low} ${argument.range.unit}`;
            case 'choice':
              return argument.of[0] ?? '';
            case 'mark':
              return argument.text;
            case 'spread':
              return argument.measured ? '+- 1 deg' : '+- 1';
            case 'code':
              return argument.characters ? '9'.repeat(3) + '0'.repeat(argument.characters - 3) : 'S07';
            default:
              return samples[argument.take] ?? '';
          }
        });
        expect(problemsOf(`${openings[place]}${row.word} ${written.join(' ')}`)).toEqual([]);
      }
    },
  );

  it('places every landmark in its view', () => {
    for (const { word, view } of landmarks)
      expect(problemsOf(`hoof 1\nvisit 2026-03-04\nfilm LF ${view} "x.png"\n${word} @ 10, 20.5 +- 3\n`)).toEqual([]);
  });

  it('says each word once and in one place of the table', () => {
    const words = [...blocks, ...statements].map((row) => row.word);
    expect(new Set(words).size).toBe(words.length);
    for (const row of [...blocks, ...statements]) expect(row.doc).toMatch(/\.$/);
  });
});

describe('blocks', () => {
  it('end where a word that belongs further out appears', () => {
    const text =
      'hoof 1\nvisit 2026-03-04\nfilm LF lateral "x.png"\nread "A"\np3.tip @ 1, 2\ntaken 2026-03-03\np3.wing @ 3, 4\nweight 512 kg\ntape LF\ntoe-length 90 mm\nplan LF\nheel down 2 mm\nnext 4 weeks\n';
    expect(shapeOf(text)).toEqual([
      ['hoof', []],
      [
        'visit',
        [
          ['film', [['read', ['p3.tip']], 'taken', 'p3.wing']],
          'weight',
          ['tape', ['toe-length']],
          ['plan', ['heel']],
          'next',
        ],
      ],
    ]);
  });

  it('need no indentation, and indentation means nothing', () => {
    const flat = 'hoof 1\ncase "X"\nbreed "cob"\nvisit 2026-03-04\nplan LF\nheel down 2 mm\n';
    const deep = 'hoof 1\n      case "X"\nbreed "cob"\n  visit 2026-03-04\n              plan LF\n heel down 2 mm\n';
    expect(shapeOf(deep)).toEqual(shapeOf(flat));
  });

  it('keep prose word for word in the block that takes it', () => {
    const text = 'hoof 1\nvisit 2026-03-04\n| said # not a remark, "no text\nplan LF\n|  two  spaces \n';
    expect(problemsOf(text)).toEqual([]);
    expect(shapeOf(text)).toEqual([
      ['hoof', []],
      ['visit', ['|', ['plan', ['|']]]],
    ]);
  });

  it('cost one line where a line is broken', () => {
    const { record } = assemble(
      parse(
        'hoof 1\nvisit 2026-03-04\nweight 512\ncondition 7\nplan XX\nheel down 2 mm\nplan LF\nheel 3\nheel down 3 mm\n',
      ),
    );
    const visit = record.visits[0]?.is;
    expect(visit?.weight).toBeNull();
    expect(visit?.condition?.value).toBe(7);
    expect(visit?.cuts.map((cut) => [cut.foot, cut.heelDown?.base])).toEqual([['LF', 3]]);
  });
});

describe('text as it comes', () => {
  const text = 'hoof 1\ncase "Møhre 𝔥"\nvisit 2026-03-04\nweight 512 kg\n';

  it('is read alike with CR LF, LF and a byte order mark', () => {
    const plain = JSON.stringify(assemble(parse(text)).record.animal?.is.name);
    expect(JSON.stringify(assemble(parse(text.replaceAll('\n', '\r\n'))).record.animal?.is.name)).toBe(plain);
    expect(problemsOf(`\ufeff${text}`)).toEqual([]);
    expect(problemsOf(text.replaceAll('\n', '\r\n'))).toEqual([]);
  });

  it('is read without an end to its last line', () => {
    expect(assemble(parse(text.trimEnd())).record.visits[0]?.is.weight?.base).toBe(512);
  });

  it('may be nothing at all', () => {
    for (const nothing of ['', '\n', '  \n\n'])
      expect(inspect(nothing).findings.map(({ code, severity }) => [code, severity])).toEqual([
        ['notation/empty', 'error'],
      ]);
  });

  it('gives a record that its schema accepts', () => {
    expect(caseRecordSchema.safeParse(assemble(parse(text)).record).success).toBe(true);
  });

  it('counts problem places in UTF-16 units of the whole file', () => {
    const broken = text.replace('512 kg', '512');
    const [problem] = assemble(parse(broken)).problems;
    expect(broken.slice(problem?.at.start, problem?.at.end)).toBe('512');
  });
});

describe('messages', () => {
  it.each([
    ['condition 6,5', 'Write 6.5', 'condition 6.5'],
    ['weight 512', 'Write 512 kg', 'weight 512 kg'],
    ['wieght 512 kg', 'Write «weight»', 'weight 512 kg'],
    ['pulse lf bounding', 'Write LF', 'pulse LF bounding'],
    ['feed soaked hay', 'Put it in quotes', 'feed "soaked hay"'],
    ['feed "hay', 'Close the quote', 'feed "hay"'],
    ['feed "hay \\ straw"', 'Double the backslash', 'feed "hay \\\\ straw"'],
    ['next 4.3.2026', 'Write 2026-03-04', 'next 2026-03-04'],
  ])('mend «%s» by «%s»', (line, title, mended) => {
    const text = `hoof 1\nvisit 2026-03-01\n${line}\n`;
    const fixes = inspect(text).findings.flatMap((finding) => finding.fixes);
    const fix = fixes.find((one) => one.title === title);
    expect(fixes.map((one) => one.title)).toContain(title);
    const applied = [...(fix?.edits ?? [])]
      .sort((a, b) => b.start - a.start)
      .reduce((now, edit) => now.slice(0, edit.start) + edit.text + now.slice(edit.end), text);
    expect(applied).toBe(text.replace(line, mended));
    expect(inspect(applied).findings).toEqual([]);
  });

  it('name every way a line may go on', () => {
    const [told] = inspect('hoof 1\nvisit 2026-03-01\nplan LF\ntoe 4 mm\n').findings;
    expect(told?.message).toBe('Here «toe» wants «down» or «back». For example: toe back 3 mm');
    expect(told?.fixes.map(({ title }) => title)).toEqual(['Write «down» before it', 'Write «back» before it']);
  });

  it('accept what is escaped rightly', () => {
    expect(inspect('hoof 1\nvisit 2026-03-01\nfeed "a \\\\ b \\"c\\" \\\\"\n').findings).toEqual([]);
  });

  it('name the nearest known word, and none where none is near', () => {
    expect(nearest('heigth', ['height', 'weight', 'length'])).toBe('height');
    expect(
      nearest(
        'wal.uper',
        landmarks.map(({ word }) => word),
      ),
    ).toBe('wall.upper');
    expect(nearest('xyzzy', ['height', 'weight'])).toBeUndefined();
  });

  it('name the version that is read where a file is newer', () => {
    const [finding] = inspect('hoof 7\n').findings;
    expect(finding?.message).toContain('version 7');
    expect(finding?.message).toContain('reads version 1');
  });
});

describe('units', () => {
  // Exact by definition: international yard and pound agreement, 1959; a hand is 4 inches.
  it('are those of the agreement of 1959', () => {
    const value = (image: string, word: string, dimension: 'length' | 'mass' | 'stature') =>
      toBase(image, findUnit(word, dimension) as NonNullable<ReturnType<typeof findUnit>>);
    expect(value('1', 'in', 'length')).toBe(25.4);
    expect(value('1', 'lb', 'mass')).toBe(0.45359237);
    expect(value('14.2', 'hh', 'stature')).toBeCloseTo(58 * 25.4, 9);
    expect(value('14.4', 'hh', 'stature')).toBeUndefined();
  });

  it('may be written in the singular', () => {
    expect(problemsOf('hoof 1\nvisit 2026-03-04\nnext 1 week\n')).toEqual([]);
  });
});
