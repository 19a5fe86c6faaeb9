import type { Animal } from '../record/schema.ts';
import { codePattern } from './tables.ts';

const isCode = new RegExp(codePattern);

/** Whether a case is one that leaves in an export: shared, under a code that can stand in a table. */
export const leavesUnderCode = (animal: Pick<Animal, 'sharing' | 'code'> | null | undefined): boolean =>
  !!animal && animal.sharing !== 'private' && animal.code !== null && isCode.test(animal.code);
