import type * as z from 'zod/mini';
import type { KnownMeasure } from './own-set-schema.ts';

type Issue = z.core.$ZodIssue;

/** What is wrong with a set, as one sentence that begins with its place in the JSON. */
export function sentenceOf(issues: readonly Issue[], measures: readonly KnownMeasure[]): string {
  const [first] = issues;
  if (!first) return 'this is no set of reference values.';
  const path = pathOf(first.path);
  const more = issues.length > 1 ? ` (and ${issues.length - 1} more)` : '';
  return `${path ? `${path}: ` : ''}${wordsOf(first, measures)}${more}.`;
}

function pathOf(path: readonly PropertyKey[]): string {
  return path
    .map((step) => (typeof step === 'number' ? `[${step}]` : `.${String(step)}`))
    .join('')
    .replace(/^\./, '');
}

function wordsOf(issue: Issue, measures: readonly KnownMeasure[]): string {
  switch (issue.code) {
    case 'invalid_type':
      return issue.input === undefined ? 'this is missing' : `this wants ${kinds[issue.expected] ?? issue.expected}`;
    case 'invalid_value':
      return issue.path.at(-1) === 'measure' ? measureWords(issue.input, measures) : valueWords(issue);
    case 'unrecognized_keys':
      return `«${issue.keys[0]}» is not known here`;
    case 'too_small':
      return issue.origin === 'string'
        ? 'this is empty'
        : `this wants a number ${issue.inclusive === false ? 'above' : 'from'} ${issue.minimum}`;
    case 'too_big':
      return issue.origin === 'string'
        ? `this is longer than ${issue.maximum} signs`
        : `this is more than ${issue.maximum}`;
    default:
      return issue.code === 'custom' ? `this ${issue.message}` : 'this cannot be read';
  }
}

const kinds: Readonly<Record<string, string>> = {
  string: 'a text',
  number: 'a number',
  int: 'a whole number',
  array: 'a list',
  object: 'an object',
};

function measureWords(input: unknown, measures: readonly KnownMeasure[]): string {
  if (typeof input !== 'string') return input === undefined ? 'this is missing' : 'this wants the name of a measure';
  const named = measures.find(({ alias }) => alias === input);
  return named
    ? `«${input}» is written ${named.name} here, with feet`
    : `«${input.slice(0, 60)}» is no measure that Ungula knows`;
}

function valueWords({ input, values }: Extract<Issue, { code: 'invalid_value' }>): string {
  return input === undefined ? 'this is missing' : `this takes ${values.map(String).join(', ')}`;
}
