import type { Argument, Range } from '../../shared/notation/signature.ts';
import { feet } from '../../shared/notation/choices.ts';
import { units, unitsOf } from '../../shared/notation/units.ts';
import { formsIn, statements, type Container } from '../../shared/notation/vocabulary.ts';

/** Lines that the vocabulary lets a block take, drawn from its own table, so that a new word is drawn as well. */

type Random = (below: number) => number;

const pick = <T>(random: Random, from: readonly T[]): T => from[random(from.length)] as T;

/** Without what a case is not to change by chance: what is measured, accepted and stated. */
const left: readonly string[] = ['accept', 'expect', 'scale', 'magnify', 'ground', 'taken'];

export function randomLine(random: Random, place: Container): string {
  const row = pick(
    random,
    statements.filter(({ in: places, word }) => places.includes(place) && !left.includes(word)),
  );
  const form = pick(random, formsIn(row, place));
  let marked = true;
  const pieces = form.flatMap((argument, at) => {
    const led = at > 0 && form[at - 1]?.name === argument.name;
    if (led ? !marked : argument.optional && random(2) === 0) {
      marked = false;
      return [];
    }
    marked = true;
    return argument.many && random(2) === 0
      ? [piece(random, argument), piece(random, argument)]
      : [piece(random, argument)];
  });
  return [row.word, ...pieces].join(' ');
}

function within(random: Random, { low, high }: Range, step = 0): number {
  if (step > 0) return low + step * random(Math.round((high - low) / step) + 1);
  return Number((low + ((high - low) * random(1001)) / 1000).toFixed(2));
}

function piece(random: Random, argument: Argument): string {
  switch (argument.take) {
    case 'text':
      return pick(random, ['"seen"', '"a \\"word\\""', '""', '"10 mm, LF"']);
    case 'date':
      return `2026-0${1 + random(9)}-1${random(9)}`;
    case 'number':
      return String(within(random, argument.range, argument.step));
    case 'quantity': {
      // Mostly its own unit; another may put it out of its range, which is a line too.
      const unit = random(8) > 0 ? argument.range.unit : pick(random, unitsOf(argument.dimension)).word;
      return `${within(random, argument.range)} ${unit}`;
    }
    case 'measured':
      return `${random(90)} ${pick(random, units).word}`;
    case 'foot':
      return pick(random, feet);
    case 'choice':
      return pick(random, argument.of);
    case 'word':
      return pick(random, argument.known);
    case 'code':
      return 'S07';
    case 'measure':
      return 'palmar-angle';
    case 'finding':
      return 'range/palmar-angle';
    case 'relation':
      return '>=';
    case 'point':
      return `${random(2000)}, ${random(2000)}`;
    case 'segment':
      return `${random(2000)}, ${random(2000)} .. ${random(2000)}, ${random(2000)}`;
    case 'spread':
      return '+- 2';
    case 'mark':
      return argument.text;
  }
}
