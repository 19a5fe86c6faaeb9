import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { bibtex } from '../../shared/export/bibtex.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { readReference } from '../../shared/findings/limits/read-reference.ts';
import type { CourseSource } from '../../shared/course/course-sources.ts';
import type { OwnSet } from '../../shared/reference/own-set.ts';
import { MethodsFacts } from '../../shared/series/methods.ts';
import { methodsDocument } from '../../shared/series/methods-data.ts';
import { methodsParagraph } from '../../shared/series/methods-words.ts';
import { reportedMeasures } from '../../shared/series/reported-measures.ts';
import { usualStudy } from '../../shared/trim/study.ts';
import { caseText, filmText } from './plain-foot.ts';

interface Given {
  readonly named?: readonly string[];
  readonly source?: CourseSource;
  readonly reference?: readonly OwnSet[];
}

function methodsOf(
  texts: readonly string[],
  { named = ['palmar-angle'], source = 'film', reference = [] }: Given = {},
) {
  const facts = new MethodsFacts(source, reportedMeasures(named, false, source).measures ?? []);
  texts.forEach((text, place) => facts.add(inspect(text, { ...usualStudy, reference }).study, `folder-${place}/`));
  const paragraph = methodsParagraph(facts, reference);
  return {
    text: paragraph.sentences.join(' '),
    facts: methodsDocument(facts, paragraph),
    keys: paragraph.citing.cited.map(({ work }) => work.key),
    bibtex: bibtex(paragraph.citing.cited),
  };
}

const plain = caseText(filmText());
const twoFilms = `${plain}\nvisit 2026-04-01\n${filmText({}, { header: 'film LF lateral "y.png"' })}\n`;

describe('one film of one foot', () => {
  const { text, keys, facts } = methodsOf([plain]);

  it('is said with its reader, its scale, its landmarks and how the measure is computed', () => {
    expect(text).toBe(
      [
        'The measures are from one radiograph of one foot of one animal (one horse), at one visit.',
        'One reader placed the landmarks by hand (one reading).',
        'The measures rest on “Tip of the pedal bone” (p3.tip) and “Wing of the pedal bone” (p3.wing) (in one reading by one reader).',
        'The pictures were put to scale by a stated size of the pixel (1).',
        'Each was measured in the foot’s own axes, X along the plane that the wall bears on and to the toe, Y square to it and up, in millimetres and degrees.',
        'Palmar angle (palmar-angle, slope(p3.tip, p3.wing); one value, one foot): Angle of the pedal bone’s solar margin to the ground: positive where the wing is higher than the tip.',
        'Each value has one standard deviation, carried to first order from those of the placings and of the scale; that of a placing is 0.5 mm where nothing else is written (25 placings). It holds no error of the beam or of how the animal stood.',
        'Values are told where they lie beyond these lines: palmar angle under 2° (fore feet; Equine Clinical Medicine, Surgery and Reproduction, 2nd ed., p. 88) and over 10° (fore feet; Equine Clinical Medicine, Surgery and Reproduction, 2nd ed., p. 88).',
        'All was computed with Ungula 0.1.0.',
      ].join(' '),
    );
  });

  it('mentions nothing that was not used', () => {
    expect(text).not.toMatch(/clear|Agreement|proposed|average|mean is|marker|donkey|Collins|magnification|ICC/);
    expect(keys).toEqual(['ecmsr2', 'ungula']);
    expect(facts).toMatchObject({ agreement: { byTwo: 0, repeated: 0 }, followed: { placings: 0, films: 0 } });
  });
});

describe('what is mentioned once it is used', () => {
  it.each<[string, string[], Given, string, string[]]>([
    [
      'a second day',
      [twoFilms],
      {},
      'Of one foot with values of two days or more a change between two days is called clear where it is more than 1.96 of its standard deviations and more than 2° of an angle (Collins and others, Equine Vet J 2011;43, as quoted by others).',
      ['collins2011'],
    ],
    [
      'a thickness',
      [twoFilms],
      { named: ['sole-depth.tip'] },
      'more than 1 mm of the thickness of sole, horn or lamellae (a judgement).',
      ['taylor2014'],
    ],
    [
      'a marker',
      [plain.replace('scale 0.1 mm/px', 'scale 100 mm = 100, 100 .. 1100, 100')],
      {},
      'put to scale by a marker of known length (1).',
      [],
    ],
    ['no scale', [plain.replace('    scale 0.1 mm/px\n', '')], {}, 'One picture has no scale and gives no length.', []],
    [
      'no scale, its deviations',
      [plain.replace('    scale 0.1 mm/px\n', '')],
      {},
      '5 px on films without a scale where nothing else is written (25 placings)',
      [],
    ],
    [
      'a deviation of a placing',
      [plain.replace(/(p3\.tip @ .*)/, '$1 +- 4')],
      {},
      '(24 placings) and what is written at the placing itself (one placing)',
      [],
    ],
    [
      'a magnification',
      [plain.replace('    ground', '    magnify 1.04\n    ground')],
      {},
      'Of one picture the scale was divided by a stated magnification.',
      [],
    ],
    [
      'two animals',
      [plain, plain.replace('horse mare', 'pony mare'), plain.replace('horse mare', 'donkey jenny')],
      {},
      'from 3 radiographs of 3 feet of 3 animals (one horse, one pony and one donkey), at 3 visits.',
      ['collins2011'],
    ],
    [
      'a donkey’s line',
      [plain.replace('horse mare', 'donkey jenny')],
      {},
      'palmar angle over 10° (fore feet of donkeys; Collins and others, Equine Vet J 2011;43, as quoted by others).',
      ['collins2011'],
    ],
    [
      'one line for all feet',
      [plain, plain.replace('horse mare', 'donkey jenny'), plain.replace('film LF', 'film LH')],
      { named: ['sole-depth.tip'] },
      'sole depth at the tip under 7 mm (fore and hind feet; Taylor',
      [],
    ],
    [
      'a pony’s height',
      [plain.replace('horse mare', 'pony mare\n  height 120 cm')],
      { named: ['founder-distance'] },
      'a line that shrinks with the height at the withers below 148 cm (fore feet; Eustace and Cripps, Equine Vet J 1999;31:433-442, from memory)',
      ['eustace1999'],
    ],
    [
      'a limit of the case',
      [caseText(filmText(), { limits: '\nlimits\n  palmar-angle <= 8 deg\n' })],
      {},
      'In one case a limit of its own stands in their place.',
      [],
    ],
    [
      'what was followed',
      [twoFilms.replace(/(p3\.tip @ .*)$/m, '$1').replace(/(y\.png[^]*p3\.tip @ [^\n]*)/, '$1 +- 6 followed')],
      {},
      'One placing on one film was proposed by the film before',
      [],
    ],
    [
      'a shoe',
      [plain.replace('  film', '  shoe LF 10 mm\n\n  film')],
      {},
      'On one picture the foot wears something',
      [],
    ],
    [
      'two films of a day',
      [plain.replace(/\n$/, `\n\n${filmText({}, { header: 'film LF lateral "y.png"' })}\n`)],
      {},
      'Where a foot has several films of a day their mean is its value of that day.',
      [],
    ],
  ])('%s', (_, texts, given, said, keys) => {
    const found = methodsOf(texts, given);
    expect(found.text).toContain(said);
    expect(found.keys).toEqual(expect.arrayContaining(keys));
    // What is said rests on something that the film alone does not have.
    expect(methodsOf([plain], given).text).not.toContain(said);
  });

  it('readers who read the same films: their agreement, with the papers', () => {
    const folder = join(import.meta.dirname, '..', 'agreement');
    const { text, keys, facts } = methodsOf([readFileSync(join(folder, 'three-readers.hoof'), 'utf8')]);
    expect(text).toContain('Agreement between readers as ICC(2,1) (Shrout and Fleiss,');
    // As R has it: tests/unit/agree-command.test.ts holds the same figures.
    expect(text).toMatch(
      /: palmar angle 0\.97 \(95 % interval 0\.85 to 1\.00\), standard error of one reading 0\.58°, 5 films by 3 readers/,
    );
    expect(keys).toEqual(expect.arrayContaining(['shrout1979', 'mcgraw1996']));
    expect(facts.agreement.byTwo).toBeGreaterThan(4);
  });

  it('values by hand have no films, no landmarks and no scale', () => {
    const taped = 'hoof 1\n\ncase "X"\n  animal horse mare\n\nvisit 2026-03-04\n  tape LF\n    toe-length 90 mm\n';
    const { text } = methodsOf([taped], { named: ['toe-length'], source: 'hand' });
    expect(text).toMatch(/^The measures are from one set of values taken by hand of one foot of one animal/);
    expect(text).toContain('2 mm for a tape');
    expect(text).not.toMatch(/landmark|scale|radiograph/);
  });

  it('a set of reference values of one’s own, in the text and in the list', () => {
    const set = readReference(
      JSON.stringify({
        'ungula-reference': 1,
        name: 'Our yard',
        source: { cite: 'our films of 2025', doi: '10.5555/12345' },
        bands: [{ measure: 'palmar-angle', low: 3 }],
      }),
    ).set as OwnSet;
    const { text, bibtex: list } = methodsOf([plain], { reference: [set] });
    expect(text).toContain('palmar angle under 3° (fore feet; Our yard: our films of 2025)');
    expect(text).toContain('with reference values of one’s own: Our yard.');
    expect(list).toContain('  doi = {10.5555/12345},');
  });
});

describe('what no reported measure is from is not told of', () => {
  const tip = (header: string, reader = ''): string =>
    `  ${header}\n    scale 0.1 mm/px\n${reader}    p3.tip @ 100, 100\n`;

  it.each<[string, string, CourseSource]>([
    ['a film', tip('film RF lateral "tip.png"'), 'film'],
    ['a photo', tip('photo RF lateral "tip.png"'), 'photo'],
    ['a tape', '  tape RF\n    grown-out 8 mm\n', 'hand'],
  ])('%s', (_what, lines, source) => {
    const alone = methodsOf([caseText(lines)], {
      source,
      named: source === 'hand' ? ['toe-length'] : ['palmar-angle'],
    });
    expect(alone.facts).toMatchObject({ feet: 0, films: 0, visits: 0, readings: 0, animals: {} });
    expect(alone.text).toContain('No case has anything of this kind to measure.');
    expect(alone.text).not.toContain('The measures are from');
  });

  it('a reading without a value beside one that has it: no second reader, and no mean', () => {
    const film = filmText({}, { header: 'film LF lateral "y.png"' });
    const more = `${film}\n    read "Other"\n      p3.tip @ 100, 100\n`;
    const { text, facts } = methodsOf([caseText(more)]);
    expect(facts).toMatchObject({ films: 1, readings: 1, readers: { all: 1 } });
    expect(text).not.toMatch(/their mean|2 readers/);
  });
});

it('nothing at all is said as that', () => {
  const { text, keys } = methodsOf(['hoof 1\n']);
  expect(text).toBe('No case has anything of this kind to measure. All was computed with Ungula 0.1.0.');
  expect(keys).toEqual(['ungula']);
});

it('no name of a case, a reader or a file is in it', () => {
  const named = twoFilms.replace('"Test"', '"Secretname"').replace('    p3.tip', '    read "Readername"\n    p3.tip');
  const { text, facts, bibtex: list } = methodsOf([named]);
  expect(`${text}${JSON.stringify(facts)}${list}`).not.toMatch(/Secretname|Readername|x\.png/);
});
