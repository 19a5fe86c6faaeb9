import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { courseSheet } from '../../shared/views/course-sheet.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { useWords } from '../../shared/language/words.ts';
import { madeUpLanguage } from './made-up-language.ts';
import { wordyCases } from './wordy-cases.ts';

const examples = join(import.meta.dirname, '..', '..', 'examples');
const cases = new Map([
  ...wordyCases(),
  ...readdirSync(examples)
    .filter((name) => name.endsWith('.hoof'))
    .map((name): [string, string] => [name, readFileSync(join(examples, name), 'utf8')]),
]);

afterEach(() => useWords(undefined));

/** All that is no word: what is told, where and how gravely, and every number. A text of its own, so that nothing is remembered. */
function withoutWords(text: string) {
  const inspection = inspect(text);
  const numbers = (value: unknown): unknown => {
    if (typeof value === 'number' || typeof value === 'boolean' || value === null) return value;
    if (Array.isArray(value)) return value.map(numbers);
    if (typeof value === 'object') return Object.entries(value ?? {}).map(([key, part]) => [key, numbers(part)]);
    return null;
  };
  return {
    findings: inspection.findings.map(({ code, severity, at, value, limit, past, measure, fixes }) => ({
      code,
      severity,
      at,
      value,
      limit,
      past,
      measure,
      fixes: fixes.map(({ edits }) => edits.map(({ start, end }) => [start, end])),
    })),
    films: numbers(filmSheets(inspection).map(({ rows, cuts, missing, scale }) => ({ rows, cuts, missing, scale }))),
    course: numbers(
      courseSheet(inspection).feet.map(({ rows }) =>
        rows.map(({ points, changes, trend }) => [points, changes, trend]),
      ),
    ),
  };
}

it.each([...cases])('what is told and every number of %s are the same in every language', (_, text) => {
  const english = withoutWords(`${text}\n`);
  useWords(madeUpLanguage(), 'qaa');
  expect(withoutWords(`${text}\n\n`)).toEqual(english);
});
