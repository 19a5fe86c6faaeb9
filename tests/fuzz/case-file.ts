import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { editBetween } from './one-edit.ts';
import type { Failure } from './sequence.ts';
import type { State } from './state.ts';

/** Which of the two comparisons failed. */
export type Kind = 'pipeline' | 'servers';

export interface Case {
  readonly kind: Kind;
  /** The seed of this one sequence. */
  readonly seed: number;
  readonly difference: string;
  readonly states: readonly State[];
}

/**
 * A failing sequence in a folder of its own: `case.json` to run again, the text to begin with as `start.hoof`, and what is
 * done to it, one step a paragraph, in `steps.txt`.
 */
export function writeCase(folder: string, name: string, one: Case, failure: Failure): string {
  const into = join(folder, name);
  mkdirSync(into, { recursive: true });
  const path = join(into, 'case.json');
  writeFileSync(path, `${JSON.stringify(one, null, 2)}\n`);
  writeFileSync(join(into, 'start.hoof'), one.states[0]?.text ?? '');
  const steps = one.states.slice(1).map((state, index) => stepWords(one.states[index] as State, state, index + 1));
  writeFileSync(
    join(into, 'steps.txt'),
    `${[...steps, `After step ${failure.at}: ${failure.difference}`].join('\n\n')}\n`,
  );
  return path;
}

export function readCase(path: string): Case {
  return JSON.parse(readFileSync(path, 'utf8')) as Case;
}

function stepWords(before: State, after: State, number: number): string {
  const words = [`Step ${number}`];
  if (after.text !== before.text) {
    const { start, end, text } = editBetween(before.text, after.text);
    words.push(`at ${start}: ${JSON.stringify(before.text.slice(start, end))} becomes ${JSON.stringify(text)}`);
  }
  for (const part of ['settings', 'scales'] as const) {
    const now = JSON.stringify(after[part]);
    if (now !== JSON.stringify(before[part])) words.push(`${part}: ${now}`);
  }
  return words.join('\n  ');
}
