import * as z from 'zod/mini';
import { courseSources } from '../../shared/course/course-sources.ts';
import { growthSources } from '../../shared/course/growth-sources.ts';
import { rangeStates } from '../../shared/findings/limits/range-state.ts';
import { measureUnits } from '../../shared/measures/unit.ts';
import { feet } from '../../shared/notation/choices.ts';
import { views } from '../../shared/notation/landmarks.ts';
import { scaleOrigins } from '../../shared/views/scale-origin.ts';
import { address, line, list, text, type Alike } from './bounds.ts';
import { readingsOf } from '../../shared/protocol/readings.ts';
import type { CourseSheet } from '../../shared/views/course-sheet.ts';
import type { PairSheet } from '../../shared/views/pair-sheet.ts';
import type { TapeSheet } from '../../shared/views/tape-sheet.ts';
import type { VisitSheet } from '../../shared/views/visit-sheet.ts';

/** The course of a case and its visits, and what the page wants written, as extension and page tell them each other. */

const view = z.enum(views);
const state = z.enum(rangeStates);

const change = z.object({
  from: line,
  to: line,
  difference: z.number(),
  sd: z.number(),
  clear: z.boolean(),
  doubted: z.boolean(),
  shoe: text,
  byShoe: z.nullable(z.union([z.number(), z.literal('unknown')])),
  text,
});

const trend = z.object({
  n: z.number(),
  slope: z.number(),
  low: z.number(),
  high: z.number(),
  level: z.number(),
  p: z.number(),
  middle: z.object({ day: z.number(), value: z.number() }),
  text,
});

const row = z.object({
  measure: text,
  words: text,
  unit: z.enum(measureUnits),
  source: z.enum(courseSources),
  sourceWords: text,
  view: z.nullable(view),
  family: text,
  usual: z.nullable(z.object({ low: z.nullable(z.number()), high: z.nullable(z.number()) })),
  usualText: text,
  points: list(
    z.object({
      date: text,
      day: z.number(),
      line,
      value: z.number(),
      sd: z.number(),
      text,
      state,
    }),
  ),
  changes: list(change),
  overall: z.nullable(change),
  trend: z.nullable(trend),
  growOut: z.nullable(
    z.object({
      by: z.enum(growthSources),
      toeLength: z.number(),
      date: z.nullable(text),
      early: z.nullable(text),
      late: z.nullable(text),
      text,
    }),
  ),
});

export const footCourseSchema = z.object({
  foot: z.enum(feet),
  words: text,
  films: list(
    z.object({
      date: text,
      day: z.number(),
      line,
      view,
      scaleFrom: z.nullable(z.enum(scaleOrigins)),
      doubted: z.boolean(),
    }),
  ),
  others: list(z.object({ source: z.enum(['photo', 'hand']), date: text, day: z.number(), line })),
  trims: list(z.object({ date: text, day: z.number(), line, words: text })),
  sinking: z.nullable(z.object({ told: z.boolean(), text })),
  doubt: text,
  scales: text,
  rows: list(row),
});

export const visitSheetSchema = z.object({
  date: z.nullable(text),
  day: z.nullable(z.number()),
  title: z.nullable(text),
  line,
  endLine: line,
  comfort: z.nullable(text),
  weight: z.nullable(text),
  done: list(text),
  seen: list(text),
  picture: z.nullable(text),
});

export const tapeSheetSchema = z.object({
  title: text,
  foot: z.enum(feet),
  date: z.nullable(text),
  line,
  rows: list(
    z.object({
      measure: text,
      words: text,
      value: z.number(),
      sd: z.number(),
      unit: z.enum(measureUnits),
      text,
      since: text,
      line,
    }),
  ),
});

export const pairSheetSchema = z.object({
  title: text,
  date: z.nullable(text),
  view,
  left: z.enum(feet),
  right: z.enum(feet),
  line,
  rows: list(
    z.object({
      measure: text,
      words: text,
      left: text,
      right: text,
      difference: z.nullable(z.number()),
      sd: z.nullable(z.number()),
      text,
      clear: z.boolean(),
      doubted: z.boolean(),
      said: text,
    }),
  ),
});

// The page is built against these types; that the schemas let through the same, the compiler sees here.
type FootSheet = CourseSheet['feet'][number];
export type CheckedCourse = Alike<z.infer<typeof footCourseSchema>, FootSheet> &
  Alike<FootSheet, z.infer<typeof footCourseSchema>>;
export type CheckedTape = Alike<z.infer<typeof tapeSheetSchema>, TapeSheet> &
  Alike<TapeSheet, z.infer<typeof tapeSheetSchema>>;
export type CheckedPair = Alike<z.infer<typeof pairSheetSchema>, PairSheet> &
  Alike<PairSheet, z.infer<typeof pairSheetSchema>>;
export type CheckedVisit = Alike<z.infer<typeof visitSheetSchema>, VisitSheet> &
  Alike<VisitSheet, z.infer<typeof visitSheetSchema>>;

export const courseMessage = z.object({ type: z.literal('course'), uri: address, feet: list(footCourseSchema) });
/** How a thing that the page asked for went, as a sentence. */
export const saidMessage = z.object({ type: z.literal('said'), says: text });

/** What the page is to be told of a case. */
export const wants = z.object({
  /** Of which case; null for whichever comes. */
  uri: z.nullable(address),
  /** Key of the film that is chosen, and of the one laid over it. */
  film: z.nullable(address),
  over: z.nullable(address),
  /** The cursor leads to another film; not while somebody places. */
  follows: z.boolean(),
  /** The course is shown, so that it is computed. */
  course: z.boolean(),
  /** Keys of the films of a lesson whose key is shown. */
  shown: z.exactOptional(list(address)),
  /** Agreement is shown: of whose readings. */
  agreement: z.exactOptional(z.enum(readingsOf)),
});
export type Wants = z.infer<typeof wants>;

/** How a drawing of the page goes along: copied as a picture, saved as a picture or a drawing, or laid on a page for print. */
const ways = ['copy', 'png', 'svg', 'print'] as const;
export type Way = (typeof ways)[number];

/** The drawing that is shown is to go along: what a menu of the editor asks for. */
export const takeMessage = z.object({ type: z.literal('take'), way: z.enum(ways) });

/** More than any picture of a page takes; base64 is a third longer than what it holds. */
export const LARGEST_SAVED = 16_000_000;

/** `png` in base64, the others as text; `print` is a drawing as `svg` is. */
export const saveMessage = z.object({
  type: z.literal('save'),
  uri: address,
  kind: z.enum(['svg', 'png', 'csv', 'print']),
  /** What the file is called where a person does not say otherwise, without its ending. */
  name: z.string().check(z.regex(/^[\p{L}\p{N}][\p{L}\p{N} _-]{0,79}$/u)),
  content: z.string().check(z.maxLength(LARGEST_SAVED)),
});
export type SaveMessage = z.infer<typeof saveMessage>;

/** What of the course a person has chosen to see; null where nothing was chosen. */
export const courseChoice = z.object({ foot: z.nullable(text), measures: z.nullable(list(text)) });
export type CourseChoice = z.infer<typeof courseChoice>;
