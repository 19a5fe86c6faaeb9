import type { Problem } from '../notation/problems.ts';

export type RecordCode =
  | 'record/duplicate-landmark'
  | 'record/duplicate-word'
  | 'record/duplicate-case'
  | 'record/contradiction'
  | 'record/dates-backwards'
  | 'record/next-date'
  | 'record/microchip'
  | 'record/not-measured'
  | 'record/scale';

export type RecordProblem = Problem<RecordCode>;
