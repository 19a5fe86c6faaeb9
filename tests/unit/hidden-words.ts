import {
  formsIn,
  blocks,
  limitForms,
  statements,
  type Container,
  type WordRow,
} from '../../shared/notation/vocabulary.ts';
import type { Argument, Form } from '../../shared/notation/signature.ts';
import { soundFoot } from './plain-foot.ts';

/**
 * A case in which every word of the notation that takes what nobody can foresee says something that identifies, each another thing. Made
 * from the vocabulary: a word that is added to it is in here the same day.
 */
export interface HidingCase {
  readonly text: string;
  /** What must not be found in a package, each with the word that says it. */
  readonly hidden: readonly { readonly by: string; readonly secret: string }[];
  /** Days on which something happened, which leave only where they are asked for. */
  readonly dates: readonly string[];
  readonly names: { readonly animal: string; readonly readers: readonly string[]; readonly microchip: string };
}

/** A case with this word is a lesson, and never leaves. */
const ofLessons = 'key';

/** Not in any word of the program, whatever its letters are turned into. */
const letters = 'qxzvkwjy';

class Secrets {
  readonly all: { by: string; secret: string }[] = [];
  readonly dates: string[] = [];

  text(by: string): string {
    const number = this.all.length;
    const secret = `Q${letters[number % 8]}${letters[Math.floor(number / 8) % 8]}x${letters[Math.floor(number / 64)]}zq`;
    this.all.push({ by, secret });
    return secret;
  }

  /** Of the fifties, in which no other date of the text lies. */
  date(by: string): string {
    const number = this.dates.length;
    const date = `${1951 + (number % 9)}-${String(1 + (number % 12)).padStart(2, '0')}-${String(11 + (number % 17))}`;
    this.dates.push(date);
    this.all.push({ by, secret: date });
    return date;
  }
}

/** As short an argument as the form takes, with something hidden in each that can hide anything. */
function argument(one: Argument, row: WordRow, secrets: Secrets): string {
  switch (one.take) {
    case 'text':
      return `"${secrets.text(row.word)} and more"`;
    case 'word':
      return `${one.known[0]} ${secrets.text(row.word).toLowerCase()}`;
    case 'date':
      return secrets.date(row.word);
    default:
      return '';
  }
}

/** Arguments that hold only what the notation knows, as the row's own examples write them. */
const plain: Readonly<Partial<Record<Argument['take'], (one: Argument) => string>>> = {
  foot: () => 'LF',
  choice: (one) => (one.take === 'choice' ? (one.of[0] ?? '') : ''),
  mark: (one) => (one.take === 'mark' ? one.text : ''),
  number: (one) => (one.take === 'number' ? String(Math.ceil(one.range.low)) : ''),
  quantity: (one) => (one.take === 'quantity' ? `${Math.max(1, Math.ceil(one.range.low))} ${one.range.unit}` : ''),
  measure: () => 'palmar-angle',
  measured: () => '5 deg',
  finding: () => 'range/palmar-angle',
  relation: () => '>=',
  point: () => '640, 480',
  segment: () => '0, 1000 .. 2000, 1000',
  spread: () => '',
};

function line(row: WordRow, form: Form, secrets: Secrets): string {
  const written = form.map((one) => plain[one.take]?.(one) ?? argument(one, row, secrets));
  return [row.word, ...written].filter((part) => part !== '').join(' ');
}

const hides = (form: Form): boolean => form.some(({ take }) => take === 'text' || take === 'word' || take === 'date');

/** A line for each form that can hide something; of a word that stands once in its block the first. */
function linesIn(place: Container, secrets: Secrets): string[] {
  return statements
    .filter((row) => row.in.includes(place) && row.word !== ofLessons)
    .flatMap((row) => {
      const forms = formsIn(row, place).filter(hides);
      return (row.repeats ? forms : forms.slice(0, 1)).map((form) => `  ${line(row, form, secrets)}`);
    });
}

export function hidingCase(): HidingCase {
  const secrets = new Secrets();
  const microchip = '985141000987654';
  const ueln = '25009QVJZK55928';
  secrets.all.push({ by: 'microchip', secret: microchip }, { by: 'ueln', secret: ueln });
  const animal = secrets.text('case');
  const readers = [secrets.text('read'), secrets.text('read')];
  const places = Object.entries(soundFoot).map(
    ([name, [x, y]]) => `      ${name} @ ${2000 + x * 10}, ${1000 - y * 10}`,
  );
  const picture = (word: string): string[] => [
    `  ${word} LF lateral "${secrets.text(word)}/${secrets.text(word)}.png"`,
    '    scale 0.1 mm/px',
    '    ground 0, 1000 .. 2000, 1000',
    ...linesIn('film', secrets).map((one) => `  ${one}`),
    ...readers.flatMap((name) => [
      `    read "${name}" +- 3`,
      ...places,
      ...linesIn('read', secrets).map((one) => `    ${one}`),
    ]),
  ];
  const lines = [
    'hoof 1',
    `# ${secrets.text('remark')}`,
    `case "${animal}"`,
    '  animal horse mare',
    '  code H1',
    '  sharing series',
    `  microchip ${microchip}`,
    `  ueln ${ueln}`,
    ...linesIn('case', secrets),
    `  | ${secrets.text('prose')}`,
    'limits',
    `  sole-depth.tip >= 16 mm because "${secrets.text('limits')}"`,
    `  ${secrets.text('unknown line')} something`,
    `visit ${secrets.date('visit')} "${secrets.text('visit')}"`,
    ...linesIn('visit', secrets),
    `  hormone "${secrets.text('hormone')}" 4 ng/mL`,
    `  obel "${secrets.text('broken line')}"`,
    `  | ${secrets.text('prose')}`,
    ...picture('film'),
    ...picture('photo'),
    `  film LF venogram "${secrets.text('venogram')}.png"`,
    `    paste "${secrets.text('paste')}"`,
    '  tape LF',
    '    toe-length 80 mm',
    ...linesIn('tape', secrets).map((one) => `  ${one}`),
    ...['plan', 'trim'].flatMap((word) => [
      `  ${word} LF`,
      '    heel down 2 mm',
      ...linesIn(word as Container, secrets).map((one) => `  ${one}`),
      `    # ${secrets.text('remark')}`,
    ]),
    `visits ${secrets.date('misspelt visit')} "${secrets.text('misspelt visit')}"`,
    `  ${secrets.text('unknown line')}`,
  ];
  return {
    text: `${lines.join('\n')}\n`,
    hidden: secrets.all,
    dates: secrets.dates,
    names: { animal, readers, microchip },
  };
}

/** Every word of the notation that takes a text, a word of any kind, a date or a code of its own. */
export const wordsThatHide: readonly string[] = [
  ...new Set(
    [...blocks, ...statements]
      .filter(({ takes, takesIn = {} }) =>
        [...takes, ...Object.values(takesIn).flat()].some(
          (form) => hides(form) || form.some(({ take }) => take === 'code'),
        ),
      )
      .map(({ word }) => word)
      .filter((word) => word !== 'code' && word !== ofLessons),
  ),
  ...(limitForms.some(hides) ? ['limits'] : []),
];
