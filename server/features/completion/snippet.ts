import { notationVersion } from '../../../shared/record/assemble.ts';
import type { Argument, Form } from '../../../shared/notation/signature.ts';
import { feet } from '../../../shared/notation/choices.ts';
import { unitsOf } from '../../../shared/notation/units.ts';

/**
 * A line with a stop wherever something is to be filled in. Numbers and texts start empty: an invented value left
 * standing by mistake would look like a fact.
 */
export function snippetOf(word: string, form: Form, today: string): string {
  let stops = 0;
  const stop = (inside = ''): string => `\${${(stops += 1)}${inside && `:${escaped(inside)}`}}`;
  const choice = (words: readonly string[]): string => `\${${(stops += 1)}|${words.map(escapedChoice).join(',')}|}`;
  const parts: string[] = [];
  for (const argument of form) {
    if (argument.optional) continue;
    parts.push(piece(argument, { stop, choice, date: datesItself(word) ? today : '' }));
    // The measure decides the unit of what comes after it.
    if (argument.take === 'measure') break;
  }
  return [escaped(word), ...parts].join(' ');
}

/** Words whose date is most often the day on which they are written. */
export function datesItself(word: string): boolean {
  return word === 'visit' || word === 'taken';
}

interface Writer {
  stop(inside?: string): string;
  choice(words: readonly string[]): string;
  readonly date: string;
}

function piece(argument: Argument, { stop, choice, date }: Writer): string {
  switch (argument.take) {
    case 'text':
      return `"${stop()}"`;
    case 'date':
      return stop(date);
    case 'number':
      return argument.name === 'version' ? String(notationVersion) : stop();
    case 'quantity':
      return `${stop()} ${choice(unitsOf(argument.dimension).map((unit) => unit.word))}`;
    case 'foot':
      return choice(feet);
    case 'choice':
      return choice(argument.of);
    case 'point':
      return `${stop()}, ${stop()}`;
    case 'segment':
      return `${stop()}, ${stop()} .. ${stop()}, ${stop()}`;
    case 'relation':
      return choice(['>=', '<=']);
    case 'mark':
      return escaped(argument.text);
    default:
      return stop();
  }
}

export function escaped(text: string): string {
  return text.replace(/[\\$}]/g, '\\$&');
}

function escapedChoice(text: string): string {
  return escaped(text).replace(/[,|]/g, '\\$&');
}
