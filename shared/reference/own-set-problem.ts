import { t } from '../language/words.ts';
import type * as z from 'zod/mini';
import type { KnownMeasure } from './own-set-schema.ts';

type Issue = z.core.$ZodIssue;

/** What is wrong with a set, as one sentence that begins with its place in the JSON. */
export function sentenceOf(issues: readonly Issue[], measures: readonly KnownMeasure[]): string {
  const [first] = issues;
  if (!first) return t('this is no set of reference values.');
  const path = pathOf(first.path);
  const more = issues.length > 1 ? t(' (and {0} more)', issues.length - 1) : '';
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
      return issue.input === undefined
        ? t('this is missing')
        : t('this wants {0}', kinds[issue.expected] ?? issue.expected);
    case 'invalid_value':
      return issue.path.at(-1) === 'measure' ? measureWords(issue.input, measures) : valueWords(issue);
    case 'unrecognized_keys':
      return t('«{0}» is not known here', issue.keys[0]);
    case 'too_small':
      return issue.origin === 'string'
        ? t('this is empty')
        : t('this wants a number {0} {1}', issue.inclusive === false ? t('above') : t('from'), issue.minimum);
    case 'too_big':
      return issue.origin === 'string'
        ? t('this is longer than {0} signs', issue.maximum)
        : t('this is more than {0}', issue.maximum);
    default:
      return issue.code === 'custom' ? t('this {0}', issue.message) : t('this cannot be read');
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
  if (typeof input !== 'string')
    return input === undefined ? t('this is missing') : t('this wants the name of a measure');
  const named = measures.find(({ alias }) => alias === input);
  return named
    ? t('«{0}» is written {1} here, with feet', input, named.name)
    : t('«{0}» is no measure that Ungula knows', input.slice(0, 60));
}

function valueWords({ input, values }: Extract<Issue, { code: 'invalid_value' }>): string {
  return input === undefined ? t('this is missing') : t('this takes {0}', values.map(String).join(', '));
}
