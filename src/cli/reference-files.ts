import { readReference } from '../../shared/findings/limits/read-reference.ts';
import type { OwnSet } from '../../shared/reference/own-set.ts';
import { usualStudy, type StudySettings } from '../../shared/trim/study.ts';
import { readText } from './case-files.ts';
import { Unusable, type OptionValue } from './command.ts';
import { reason } from './problem.ts';

export const referenceOption = { type: 'string', multiple: true } as const;

/** The settings with the sets of reference values that the option names; without all of them nothing is worth computing. */
export async function settingsWith(named: OptionValue): Promise<StudySettings> {
  const names = Array.isArray(named) ? (named as readonly string[]) : [];
  const reference: OwnSet[] = [];
  for (const name of names) {
    const { set, problem } = readReference(await textOf(name));
    if (!set) throw new Unusable(`${name}: ${problem}`);
    reference.push(set);
  }
  return { ...usualStudy, reference };
}

async function textOf(name: string): Promise<string> {
  try {
    return await readText(name);
  } catch (error) {
    throw new Unusable(`${name}: ${reason(error)}`);
  }
}
