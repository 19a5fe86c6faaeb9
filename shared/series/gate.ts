import { spoken } from '../language/rows.ts';
import type { Tree } from '../notation/tree.ts';
import { notationVersion } from '../record/assemble.ts';
import type { CaseRecord } from '../record/schema.ts';
import type { SeriesView } from './series-view.ts';
import { namesItself } from './code-of-case.ts';
import { codePattern } from './tables.ts';

/** Why a case does not leave. */
export const stays = [
  'private',
  'lesson',
  'unclear',
  'no code',
  'code form',
  'code names',
  'same code',
  'no case',
  'newer',
  'changed',
] as const;
export type Stays = (typeof stays)[number];

/** Said of several cases, behind how many they are. */
export const staysWords: Readonly<Record<Stays, string>> = spoken({
  private: 'private: the case says so, or says nothing of sharing',
  lesson: 'a lesson: its films are those of its key, and a foot would count twice',
  unclear: 'sharing or code is said more than once, or the file holds two cases: nobody can tell what is meant',
  'no code': 'may leave and has no study code: write one, such as code S07',
  'code form': 'the study code is no plain one: letters, digits, dot, dash or underscore, at most 32',
  'code names': 'the study code holds a name, number or date of the case itself',
  'same code': 'the study code is that of another case too: give each its own',
  'no case': 'no case stands in the file',
  newer: 'written in a version of the notation that this build does not read',
  changed: 'the file was changed while it was exported',
});

/** A case that may leave; or why it may not. */
export type Gate = Pick<SeriesView, 'code' | 'sharing'> | { readonly stays: Stays };

const code = new RegExp(codePattern, 'u');

/** Whether a case leaves in a series, and under which code. In doubt it stays. Whether another has its code is not known here. */
export function gateOf(tree: Tree, { animal, version }: Pick<CaseRecord, 'animal' | 'version'>): Gate {
  if (!animal) return { stays: 'no case' };
  if (version !== null && version !== notationVersion) return { stays: 'newer' };
  const { sharing, code: own } = animal.is;
  if (sharing === 'private' && saysOf(tree, /^\s*shar\w*/i) < 2) return { stays: 'private' };
  const cases = tree.blocks.filter(({ block }) => block.row?.word === 'case');
  // A second line may be the one that was meant; nearly the word is one too.
  if (cases.length > 1 || saysOf(tree, /^\s*shar\w*/i) > 1 || saysOf(tree, /^\s*code\b/i) > 1)
    return { stays: 'unclear' };
  if (sharing === 'private') return { stays: 'private' };
  if (animal.is.key) return { stays: 'lesson' };
  if (own === null) return { stays: 'no code' };
  if (!code.test(own)) return { stays: 'code form' };
  return namesItself(own, tree) ? { stays: 'code names' } : { code: own, sharing };
}

/** How many lines of the file begin so. */
const saysOf = ({ text }: Tree, beginning: RegExp): number =>
  text.split(/\r\n|\r|\n/).filter((line) => beginning.test(line)).length;
