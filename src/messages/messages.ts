import * as z from 'zod/mini';
import { rangeStates } from '../../shared/findings/limits/range-state.ts';
import { measureUnits } from '../../shared/measures/unit.ts';
import { animals, cutKinds, feet, pictureKinds } from '../../shared/notation/choices.ts';
import { landmarkNames, views } from '../../shared/notation/landmarks.ts';
import { severities } from '../../shared/reference/severity.ts';
import { address, line, list, named, text, type Alike } from './bounds.ts';
import { heelNumber, isHeelNumber } from '../../shared/edits/placing-schema.ts';
import type { FilmBefore } from '../../shared/views/film-before.ts';
import type { ListedFilm } from '../../shared/views/film-choice.ts';
import type { LaidFilm } from '../../shared/views/laid-over.ts';
import type { LessonSheet } from '../../shared/views/lesson-sheet.ts';
import type { FilmSheet } from '../../shared/views/whole-sheet.ts';
import {
  footInput,
  historyMessage,
  markerMessage,
  placedMessage,
  placeMessage,
  placingState,
  yardstick,
} from './placing-messages.ts';
import {
  courseChoice,
  courseMessage,
  saidMessage,
  takeMessage,
  saveMessage,
  pairSheetSchema,
  tapeSheetSchema,
  visitSheetSchema,
  wants,
} from './course-messages.ts';

import { agreementChoice, readingsMessage } from './readings-messages.ts';

/** What the extension and the page in the preview pane tell each other. Either side looks before it believes. */

const point = z.object({ x: z.number(), y: z.number() });
const pair = z.readonly(z.tuple([point, point]));

const note = z.object({
  severity: z.enum(severities),
  code: text,
  message: text,
  accepted: z.exactOptional(text),
  line,
});

const alarm = z.object({
  severity: z.enum(['error', 'warning']),
  code: text,
  message: text,
  date: z.nullable(text),
  line,
});

const row = z.object({
  ...yardstick.shape,
  value: z.number(),
  sd: z.number(),
  unit: z.enum(measureUnits),
  text,
  tape: z.nullable(text),
  state: z.enum(rangeStates),
  line: z.nullable(line),
});

const sliver = z.object({
  part: z.enum(['heel', 'toe', 'sole', 'inside', 'outside']),
  outline: list(point),
  face: list(point),
  text,
});

const cutSize = z.object({
  heelDown: z.number(),
  heelFrom: z.exactOptional(z.number()),
  toeDown: z.number(),
  toeBack: z.number(),
  insideDown: z.exactOptional(z.number()),
  outsideDown: z.exactOptional(z.number()),
});

const sideSize = z.object({ insideDown: z.number(), outsideDown: z.number() });

const cut = z.object({
  kind: z.enum(cutKinds),
  line,
  endLine: line,
  date: z.nullable(text),
  cut: text,
  size: cutSize,
  sides: z.nullable(sideSize),
  sidesBefore: z.nullable(sideSize),
  taken: z.nullable(
    z.object({
      earlier: list(cutSize),
      atVisit: z.exactOptional(z.object({ sinceFilm: z.number(), beforeFilm: list(cutSize) })),
    }),
  ),
  leave: list(text),
  delta: z.nullable(z.number()),
  deltaOnToe: z.nullable(z.number()),
  after: z.nullable(z.object({ ground: pair, bend: z.nullable(point), slivers: list(sliver), turned: named(point) })),
  predicted: named(z.object({ value: z.number(), text })),
  rows: list(z.object({ measure: text, words: text, before: text, after: text })),
  broken: list(text),
  notes: list(note),
});

const filmName = {
  title: text,
  foot: z.enum(feet),
  view: z.enum(views),
  kind: z.enum(pictureKinds),
  date: z.nullable(text),
  reader: z.nullable(text),
  line,
  endLine: line,
  picture: text,
};

export const listedFilmSchema = z.object({
  ...filmName,
  lines: list(line),
  cuts: list(z.object({ line, endLine: line })),
});

const laid = {
  ...filmName,
  placed: named(z.object({ x: z.number(), y: z.number(), line })),
  ground: z.nullable(pair),
  bearing: z.nullable(pair),
  scale: z.nullable(z.number()),
};

export const laidFilmSchema = z.object(laid);

const filmBeforeSchema = z.object({ date: text, picture: text, input: footInput });

const againstKey = z.enum(['agrees', 'off', 'missing']);

const lesson = z.object({
  key: text,
  isShown: z.boolean(),
  placed: z.number(),
  says: z.nullable(text),
  marks: z.nullable(
    z.object({
      summary: text,
      points: list(
        z.object({
          landmark: z.enum(landmarkNames),
          words: text,
          state: againstKey,
          distance: text,
          way: text,
          allowed: text,
          key: point,
          own: z.nullable(point),
        }),
      ),
      beyond: list(text),
      lines: list(text),
      measures: list(
        z.object({ measure: text, words: text, state: againstKey, own: text, key: text, difference: text }),
      ),
      cuts: list(cut),
      film: z.nullable(laidFilmSchema),
    }),
  ),
});

export const filmSheetSchema = z.object({
  ...laid,
  marker: z.nullable(pair),
  markerWords: z.nullable(text),
  scaleWords: z.nullable(text),
  isShod: z.boolean(),
  isBare: z.boolean(),
  worn: z.nullable(text),
  said: list(text),
  rows: list(row),
  unmeasured: list(yardstick),
  missing: list(text),
  notes: list(note),
  cuts: list(cut),
  input: footInput,
  limits: z.object({
    turn: z.number(),
    horn: z.number(),
    palmarAngle: z.nullable(z.number()),
    agreed: list(z.object({ measure: text, side: z.enum(['low', 'high']), at: z.number() })),
    soleTip: z.nullable(z.number()),
    soleWing: z.nullable(z.number()),
    rotation: z.nullable(z.number()),
  }),
  tapes: z.record(text, text),
});

// The page is built against FilmSheet; that the schema lets through the same, the compiler sees here.
export type CheckedSheet = Alike<z.infer<typeof filmSheetSchema>, FilmSheet> &
  Alike<FilmSheet, z.infer<typeof filmSheetSchema>>;
export type CheckedList = Alike<z.infer<typeof listedFilmSchema>, ListedFilm> &
  Alike<ListedFilm, z.infer<typeof listedFilmSchema>>;
export type CheckedLaid = Alike<z.infer<typeof laidFilmSchema>, LaidFilm> &
  Alike<LaidFilm, z.infer<typeof laidFilmSchema>>;
export type CheckedLesson = Alike<z.infer<typeof lesson>, LessonSheet> & Alike<LessonSheet, z.infer<typeof lesson>>;
export type CheckedBefore = Alike<z.infer<typeof filmBeforeSchema>, FilmBefore> &
  Alike<FilmBefore, z.infer<typeof filmBeforeSchema>>;

/** A picture as the page may show it, or a sentence that says why not. */
const picture = z.union([
  /** `says`: what is to be told of it although it shows. */
  z.object({ kind: z.literal('found'), href: text, says: z.exactOptional(text) }),
  z.object({ kind: z.literal('absent'), says: text }),
]);
export type Picture = z.infer<typeof picture>;

const hostMessage = z.discriminatedUnion('type', [
  z.object({
    type: z.literal('sheets'),
    uri: address,
    fileName: text,
    caseName: z.nullable(text),
    animal: z.object({
      kind: z.nullable(z.enum(animals)),
      heightMm: z.nullable(z.number()),
    }),
    /** Of the document; null where it is not open. */
    version: z.nullable(z.number()),
    /** What is open, to be shown before what is planned. */
    alarms: list(alarm),
    /** Every film in short. */
    films: list(listedFilmSchema),
    /** The film that is shown, and the one that is laid over it; no other is sent whole. */
    sheet: z.nullable(filmSheetSchema),
    over: z.nullable(laidFilmSchema),
    /** What places on the film may be proposed from. */
    before: z.nullable(filmBeforeSchema),
    /** Of the film that is shown, where it is one of a lesson. */
    lesson: z.nullable(lesson),
    /** The key of some film is not shown, so that values and what compares films are kept back. */
    keepsBack: z.boolean(),
    visits: list(visitSheetSchema),
    tapes: list(tapeSheetSchema),
    pairs: list(pairSheetSchema),
    /** By path as the film writes it. */
    pictures: named(picture),
    cursor: z.nullable(line),
  }),
  z.object({ type: z.literal('cursor'), uri: address, line }),
  /** Opens placing on the film whose header stands on `line`, at a landmark; without one where the walk goes on. */
  z.object({ type: z.literal('place at'), uri: address, line, landmark: text }),
  /** Nothing to show, and the one next step. */
  z.object({ type: z.literal('nothing'), says: text }),
  /** What was shown stays, with this said above it. */
  z.object({ type: z.literal('trouble'), says: text }),
  placedMessage,
  markerMessage,
  courseMessage,
  readingsMessage,
  saidMessage,
  takeMessage,
]);
export type HostMessage = z.infer<typeof hostMessage>;
export type SheetsMessage = Extract<HostMessage, { type: 'sheets' }>;

const pageMessage = z.discriminatedUnion('type', [
  z.object({ type: z.literal('ready'), wants }),
  /** `go` brings the text to the front; `follow` moves the cursor only where the text shows already. */
  z.object({ type: z.literal('reveal'), uri: address, line, how: z.enum(['go', 'follow']) }),
  placeMessage,
  historyMessage,
  markerMessage,
  /** The plan at this line is to take so many mm off the heel, or to have its plane begin so far in front of its contact. */
  z
    .object({
      type: z.literal('heel'),
      uri: address,
      version: z.nullable(z.number()),
      line,
      ...heelNumber,
    })
    .check(isHeelNumber),
  z.object({ type: z.literal('wants'), wants }),
  /** From a page that has nothing to show yet. */
  z.object({ type: z.literal('begin'), what: z.enum(['new case', 'add visit']) }),
  saveMessage,
]);
export type PageMessage = z.infer<typeof pageMessage>;

/** What the page shows: one film, what the films of a foot say together, how far readers lie apart. */
export const pageViews = ['film', 'course', 'agreement'] as const;
export type PageView = (typeof pageViews)[number];

/** What the page keeps while it is hidden or the window is loaded again. */
const pageState = z.object({
  uri: z.nullable(address),
  film: z.nullable(address),
  /** Key of the cut that a person laid over the plate; `none` where they took it off; null where the cursor decides. */
  cut: z.nullable(address),
  /** The foot that is laid over: `normal`, or the key of another film; null for none. */
  over: z.nullable(address),
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
  view: z.optional(z.enum(pageViews)),
  course: z.optional(courseChoice),
  /** Films of lessons whose key is shown: address of the case, a new line, key of the film. */
  shown: z.optional(list(address)),
  agreement: z.optional(agreementChoice),
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
