import { t } from '../language/words.ts';
import { spoken } from '../language/rows.ts';
import { decimalComma } from './check-items.ts';
import { dateExists, readDate } from './dates.ts';
import { insert, list, quoted, replace, type ExpectedForm } from './mismatch.ts';
import { nearestMeaning } from './meanings.ts';
import { editDistance } from './nearest.ts';
import { spelledDate } from './spelled-date.ts';
import { isTooLong } from './number-length.ts';
import type { Fix, Problem } from './problems.ts';
import { writeArgument, type Argument, type Form } from './signature.ts';
import type { Arguments, Item } from './tree.ts';
import { unitsOf } from './units.ts';
import { feet } from './choices.ts';

/** What to say where a line stops short, holds something else, or goes on too long. */

const wantedWords: Readonly<Record<Argument['take'], string>> = spoken({
  text: 'a text in quotes',
  date: 'a date such as 2026-03-04',
  number: 'a number',
  quantity: 'a number with its unit',
  measured: 'a number with its unit',
  foot: 'a foot: LF, RF, LH or RH',
  choice: 'one of the known words',
  word: 'a word',
  code: 'letters and digits in one piece',
  measure: 'the name of a measure',
  finding: 'the code of a finding such as range/palmar-angle',
  relation: '>= or <=',
  point: 'a point such as 1382, 1201',
  segment: 'two points such as 180, 1388 .. 1650, 1392',
  spread: '+- and a number',
  mark: 'a sign',
});

/** What a line wants at a place, one thing for each form that it may still take. */
export function sayWanted(wants: readonly string[], asked: ExpectedForm): string {
  return t('Here «{0}» wants {1}. For example: {2}', asked.head.image, list(wants), asked.example);
}

export function wanted(argument: Argument): string {
  if (argument.take === 'choice') return list(argument.of);
  if (argument.take === 'mark') return `«${argument.text}»`;
  if (argument.take === 'quantity')
    return t('a number with its unit, such as 12 {0}', unitsOf(argument.dimension)[0]?.word);
  return wantedWords[argument.take];
}

/** `sign none`, `sign no fever`: where there is no sign, no line is written. */
export function denied(items: readonly Item[], index: number): Problem {
  const [head, item] = [items[0], items[index]];
  const at = { start: item?.start ?? 0, end: items.at(-1)?.end ?? 0 };
  const whole = head && index === 1;
  return {
    code: 'notation/unexpected',
    at,
    message: t(
      'A line of signs calls the vet, and nothing is written where there is none. Remove what says that there is none, or make it a line of prose: | no fever',
    ),
    fixes: whole
      ? [
          {
            title: t('Remove this line'),
            edits: [{ start: head.start, end: at.end, text: '', wholeLine: true }],
          },
          insert(t('Make it a line of prose'), head.start, '| '),
        ]
      : [],
  };
}

export function missing(argument: Argument, items: readonly Item[], asked: ExpectedForm): Problem {
  const last = items.at(-1) ?? asked.head;
  return {
    code: 'notation/missing-argument',
    at: { start: last.start, end: last.end },
    message: t('«{0}» still needs {1}. For example: {2}', asked.head.image, wanted(argument), asked.example),
    // A reason is never written for anybody, but the place for it can be.
    fixes:
      argument.take === 'mark' && argument.text === 'because'
        ? [insert(t('Add because'), last.end, ' because ""')]
        : [],
  };
}

export function wrong(argument: Argument, items: readonly Item[], index: number, asked: ExpectedForm): Problem {
  const item = items[index] as Item;
  const foot = strayFoot(items, index);
  if (foot) return foot;
  const numeric = ['number', 'quantity', 'measured'].includes(argument.take);
  if (numeric && item.kind === 'point') return decimalComma(item).problem;
  if (argument.take === 'segment' && item.kind === 'point' && isComma(items[index + 1]))
    return strayComma(items, index + 1);
  if (item.kind === 'broken' && item.image.startsWith('"'))
    return {
      code: 'notation/open-text',
      at: item,
      message: t('This text has no closing quote. A text ends on the line on which it begins.'),
      fixes: [insert(t('Close the quote'), item.start + item.image.trimEnd().length, '"')],
    };
  if (argument.take === 'text' && (item.kind === 'word' || item.kind === 'number')) {
    const at = { start: item.start, end: (items.at(-1) ?? item).end };
    return {
      code: 'notation/unexpected',
      at: item,
      message: t('Put the text in quotes. For example: {0}', asked.example),
      fixes: [
        {
          title: t('Put it in quotes'),
          edits: [
            { start: at.start, end: at.start, text: '"' },
            { start: at.end, end: at.end, text: '"' },
          ],
        },
      ],
    };
  }
  if (item.kind === 'sign' && /^[<≤]/.test(item.image) && items[index + 1]?.kind === 'number')
    return {
      code: 'notation/unexpected',
      at: item,
      message: t(
        'There is no sign for less than. Write the lowest value that the laboratory measures, and in prose that it was below it. For example: {0}',
        asked.example,
      ),
      fixes: [],
    };
  if (argument.take === 'foot' && argument.many && item.kind === 'word') {
    const meant = severalFeet(item.image);
    if (meant)
      return {
        code: 'notation/unknown-choice',
        at: item,
        message: t('«{0}» is not one of {1}. Name each foot: {2}.', quoted(item.image), list(feet), meant),
        fixes: [replace(t('Write {0}', meant), item, meant)],
      };
  }
  if (argument.take === 'mark' && item.kind === 'word' && nearestMeaning(item.image, [argument.text]) !== undefined)
    return {
      code: 'notation/unknown-choice',
      at: item,
      message: t('Did you mean {0}? For example: {1}', argument.text, asked.example),
      fixes: [replace(t('Write {0}', argument.text), item, argument.text)],
    };
  if (item.kind === 'word' && (argument.take === 'choice' || argument.take === 'foot')) {
    const known: readonly string[] = argument.take === 'choice' ? argument.of : feet;
    const near = nearestMeaning(item.image, known);
    return {
      code: 'notation/unknown-choice',
      at: item,
      message: t(
        '«{0}» is not one of {1}.{2}',
        quoted(item.image),
        list(known),
        near ? t(' Did you mean {0}?', near) : '',
      ),
      fixes: (near ? [near] : known.slice(0, 6)).map((word) => replace(t('Write {0}', word), item, word)),
    };
  }
  const spelled = argument.take === 'date' ? spelledDate(items, index, argument.partial === true) : null;
  if (spelled)
    return {
      code: 'notation/date-form',
      at: { start: spelled.start, end: spelled.end },
      message: t('Write the date as year-month-day: {0}.', spelled.date),
      fixes: [replace(t('Write {0}', spelled.date), spelled, spelled.date)],
    };
  if (argument.take === 'date' && (item.kind === 'number' || item.kind === 'broken'))
    return {
      code: 'notation/date-form',
      at: item,
      message: argument.partial
        ? t('Write the year, or year and month: 2010-05.')
        : t('Write the date as year, month, day: 2026-03-04.'),
      fixes: dateInOnePiece(item),
    };
  const fixes =
    argument.take === 'mark'
      ? [insert(t('Write «{0}» before it', argument.text), item.start, `${argument.text} `)]
      : [];
  return {
    code: 'notation/unexpected',
    at: item,
    message: sayWanted([wanted(argument)], asked),
    fixes,
  };
}

/** The feet that one word names together; null for every other word. */
function severalFeet(word: string): string | null {
  switch (word.toLowerCase()) {
    case 'all':
    case 'all-four':
      return feet.join(' ');
    case 'fores':
    case 'fronts':
      return 'LF RF';
    case 'hinds':
      return 'LH RH';
    default:
      return null;
  }
}

/** 20260304, as file names have it. */
function dateInOnePiece(item: Item): Fix[] {
  const digits = item.kind === 'number' && !item.unit ? /^(\d{4})(\d\d)(\d\d)$/.exec(item.number.image) : null;
  const date = digits?.slice(1).join('-') ?? '';
  const parts = readDate(date);
  return parts && dateExists(parts) ? [replace(t('Write {0}', date), item, date)] : [];
}

const isComma = (item: Item | undefined): boolean => item?.kind === 'sign' && item.image === ',';

function strayComma(items: readonly Item[], comma: number): Problem {
  return {
    code: 'notation/decimal-comma',
    at: items[comma] as Item,
    message: t(
      'One comma too many: a point is x, y, and a fraction is written with a decimal point, as in 1382.5, 1201.',
    ),
    fixes: pointsMeant(items, comma),
  };
}

/** What `a, b, c` and `a, b, c, d` may mean as one point with fractions; nothing where a piece cannot be a fraction. */
function pointsMeant(items: readonly Item[], comma: number): Fix[] {
  const [point, rest] = [items[comma - 1], items[comma + 1]];
  if (point?.kind !== 'point' || (rest?.kind !== 'number' && rest?.kind !== 'point')) return [];
  if (rest.kind === 'number' && rest.unit) return [];
  const numbers = [point.x, point.y, ...(rest.kind === 'number' ? [rest.number] : [rest.x, rest.y])];
  if (numbers.some(isTooLong)) return [];
  const images = numbers.map(({ image }) => image);
  const joins = images.length === 4 ? [[0, 2]] : [[0], [1]];
  return joins.flatMap((at) => {
    const whole = at.every((one) => /^-?\d+$/.test(images[one] ?? '') && /^\d+$/.test(images[one + 1] ?? ''));
    if (!whole) return [];
    const text = images
      .map((image, one) => image + (at.includes(one) ? '.' : ', '))
      .join('')
      .slice(0, -2);
    return [replace(t('Write {0}', text), { start: point.start, end: rest.end }, text)];
  });
}

/** What stands right behind a foot, and is meant for another or leads to one: `LF RF LR`, `LF rf`, `LF and RF`. */
function strayFoot(items: readonly Item[], index: number): Problem | null {
  const [before, item, next] = [items[index - 1], items[index], items[index + 1]];
  const isFoot = (one: Item | undefined): boolean =>
    one?.kind === 'word' && (feet as readonly string[]).includes(one.image);
  // A foot where no other belongs is one too many, which is told as that.
  if (item?.kind !== 'word' || !isFoot(before) || isFoot(item)) return null;
  const at = { start: item.start, end: item.end };
  if (item.image.toLowerCase() === 'and' && isFoot(next))
    return {
      code: 'notation/unexpected',
      at,
      message: t('Feet are named one behind the other, without a word between.'),
      fixes: [replace(t('Remove «{0}»', item.image), { start: at.start, end: next?.start ?? at.end }, '')],
    };
  const large = item.image.toUpperCase();
  if (!/^[A-Z]{2}$/.test(large)) return null;
  const named = new Set(items.flatMap((one) => (isFoot(one) && one.kind === 'word' ? [one.image] : [])));
  const meant = feet.filter((one) => one === large || (!named.has(one) && editDistance(one, large) === 1));
  const only = meant.includes(large as (typeof feet)[number]) ? [large] : meant;
  if (only.length === 0) return null;
  return {
    code: 'notation/unknown-choice',
    at,
    message: t('«{0}» is no foot. The feet are {1}; did you mean {2}?', quoted(item.image), list(feet), list(only)),
    fixes: only.map((word) => replace(t('Write {0}', word), at, word)),
  };
}

export function leftover(
  form: Form,
  args: Arguments,
  items: readonly Item[],
  index: number,
  asked: ExpectedForm,
): Problem {
  const item = items[index] as Item;
  const before = items[index - 1];
  if (isComma(item) && (before?.kind === 'point' || before?.kind === 'segment')) return strayComma(items, index);
  if (item.kind === 'broken' && item.image.startsWith('"'))
    return wrong({ take: 'text', name: 'text' }, items, index, asked);
  const foot = strayFoot(items, index);
  if (foot) return foot;
  const untaken = form.find((argument) => argument.take === 'choice' && argument.optional && !args.has(argument.name));
  if (untaken && item.kind === 'word') return wrong(untaken, items, index, asked);
  const near = form.find(
    (argument) =>
      argument.take === 'mark' &&
      argument.optional &&
      item.kind === 'word' &&
      nearestMeaning(item.image, [argument.text]) !== undefined,
  );
  if (near && !args.has(near.name)) return wrong(near, items, index, asked);
  const optional = form.filter((argument) => argument.optional);
  const may = optional.length > 0 ? t(' After it may come only {0}.', optional.map(writeArgument).join(' ')) : '';
  return {
    code: 'notation/unexpected',
    at: { start: item.start, end: (items.at(-1) ?? item).end },
    message: t('«{0}» is complete before this.{1} For a remark put # before it.', asked.head.image, may),
    fixes: [insert(t('Make it a remark'), item.start, '# ')],
  };
}
