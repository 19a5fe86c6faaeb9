import * as z from 'zod/mini';
import type { FilmSheet } from '../../shared/report/film-sheet.ts';
import { basis, historyMessage, placedMessage, placeMessage, placingState, yardsticks } from './placing-messages.ts';
import {
  courseChoice,
  courseMessage,
  saidMessage,
  saveMessage,
  visitSheetSchema,
  wantsMessage,
} from './course-messages.ts';

/** What the extension and the page in the preview pane tell each other. Either side looks before it believes. */

const list = <T extends z.ZodMiniType>(item: T) => z.readonly(z.array(item));
const point = z.object({ x: z.number(), y: z.number() });
const pair = z.readonly(z.tuple([point, point]));
const line = z.number().check(z.int(), z.nonnegative());

const note = z.object({
  severity: z.enum(['error', 'warning', 'info', 'hint']),
  code: z.string(),
  message: z.string(),
  accepted: z.exactOptional(z.string()),
  line,
});

const row = z.object({
  measure: z.string(),
  words: z.string(),
  value: z.number(),
  sd: z.number(),
  unit: z.enum(['deg', 'mm', '%', '1']),
  text: z.string(),
  usual: z.nullable(z.object({ low: z.nullable(z.number()), high: z.nullable(z.number()) })),
  usualText: z.string(),
  source: z.string(),
  published: list(z.string()),
  tape: z.nullable(z.string()),
  state: z.enum(['within', 'low', 'high', 'act', 'unsure', 'none']),
  line: z.nullable(line),
});

const sliver = z.object({
  part: z.enum(['heel', 'toe', 'sole']),
  outline: list(point),
  face: list(point),
  text: z.string(),
});

const cut = z.object({
  kind: z.enum(['plan', 'trim']),
  line,
  endLine: line,
  date: z.nullable(z.string()),
  cut: z.string(),
  size: z.object({ heelDown: z.number(), toeDown: z.number(), toeBack: z.number() }),
  leave: list(z.string()),
  delta: z.nullable(z.number()),
  after: z.nullable(z.object({ ground: pair, slivers: list(sliver), turned: z.record(z.string(), point) })),
  foretold: z.record(z.string(), z.object({ value: z.number(), text: z.string() })),
  rows: list(z.object({ measure: z.string(), words: z.string(), before: z.string(), after: z.string() })),
  notes: list(note),
});

export const filmSheetSchema = z.object({
  title: z.string(),
  foot: z.enum(['LF', 'RF', 'LH', 'RH']),
  view: z.enum(['lateral', 'front', 'solar']),
  kind: z.enum(['film', 'photo']),
  date: z.nullable(z.string()),
  reader: z.nullable(z.string()),
  line,
  endLine: line,
  picture: z.string(),
  placed: z.record(z.string(), z.object({ x: z.number(), y: z.number(), line })),
  ground: z.nullable(pair),
  marker: z.nullable(pair),
  markerWords: z.nullable(z.string()),
  scale: z.nullable(z.number()),
  rows: list(row),
  missing: list(z.string()),
  notes: list(note),
  cuts: list(cut),
  basis,
});

// The page is built against FilmSheet; that the schema lets through the same, the compiler sees here.
type Alike<A extends B, B> = A;
export type CheckedSheet = Alike<z.infer<typeof filmSheetSchema>, FilmSheet> &
  Alike<FilmSheet, z.infer<typeof filmSheetSchema>>;

/** A picture as the page may show it, or a sentence that says why not. */
const picture = z.union([
  z.object({ kind: z.literal('found'), href: z.string() }),
  z.object({ kind: z.literal('absent'), says: z.string() }),
]);
export type Picture = z.infer<typeof picture>;

const hostMessage = z.discriminatedUnion('type', [
  z.object({
    type: z.literal('sheets'),
    uri: z.string(),
    fileName: z.string(),
    caseName: z.nullable(z.string()),
    animal: z.object({
      kind: z.nullable(z.enum(['horse', 'pony', 'donkey', 'mule', 'hinny'])),
      heightMm: z.nullable(z.number()),
    }),
    /** Of the document; null where it is not open. */
    version: z.nullable(z.number()),
    sheets: list(filmSheetSchema),
    yardsticks,
    visits: list(visitSheetSchema),
    /** By path as the film writes it. */
    pictures: z.record(z.string(), picture),
    cursor: z.nullable(line),
  }),
  z.object({ type: z.literal('cursor'), uri: z.string(), line }),
  /** Nothing to show, and the one next step. */
  z.object({ type: z.literal('nothing'), says: z.string() }),
  /** What was shown stays, with this said above it. */
  z.object({ type: z.literal('trouble'), says: z.string() }),
  placedMessage,
  courseMessage,
  saidMessage,
]);
export type HostMessage = z.infer<typeof hostMessage>;
export type SheetsMessage = Extract<HostMessage, { type: 'sheets' }>;

const pageMessage = z.discriminatedUnion('type', [
  z.object({ type: z.literal('ready') }),
  /** `go` brings the text to the front; `follow` moves the cursor only where the text shows already. */
  z.object({ type: z.literal('reveal'), uri: z.string(), line, how: z.enum(['go', 'follow']) }),
  placeMessage,
  historyMessage,
  /** The plan at this line is to take so many mm off the heel. */
  z.object({
    type: z.literal('heel'),
    uri: z.string(),
    version: z.nullable(z.number()),
    line,
    mm: z.number().check(z.nonnegative(), z.lte(200)),
  }),
  wantsMessage,
  saveMessage,
]);
export type PageMessage = z.infer<typeof pageMessage>;

/** What the page keeps while it is hidden or the window is loaded again. */
const pageState = z.object({
  uri: z.nullable(z.string()),
  film: z.nullable(z.string()),
  /** Key of the cut that a person laid over the plate; `none` where they took it off; null where the cursor decides. */
  cut: z.nullable(z.string()),
  /** The foot that is laid over: `normal`, or the key of another film; null for none. */
  over: z.nullable(z.string()),
  shows: z.object({
    picture: z.boolean(),
    drawing: z.boolean(),
    lettering: z.boolean(),
    /** The film and the drawing side by side instead of one over the other. */
    beside: z.optional(z.boolean()),
  }),
  /** Layers of the drawing that are turned off. */
  hidden: list(z.enum(['bones', 'capsule', 'soft', 'landmarks'])),
  scroll: z.number(),
  placing: z.optional(placingState),
  /** Absent in what an earlier version kept: the film. */
  view: z.optional(z.enum(['film', 'course'])),
  course: z.optional(courseChoice),
});
export type PageState = z.infer<typeof pageState>;

const reader =
  <T extends z.ZodMiniType>(schema: T) =>
  (data: unknown): z.infer<T> | null => {
    const read = z.safeParse(schema, data);
    return read.success ? read.data : null;
  };

export const readHostMessage = reader(hostMessage);
export const readPageMessage = reader(pageMessage);
export const readPageState = reader(pageState);
