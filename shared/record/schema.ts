import * as z from 'zod/mini';
import {
  animals,
  bevelPlaces,
  cutKinds,
  dressings,
  feet,
  landings,
  pictureKinds,
  pulses,
  seenPlaces,
  soles,
  testerAnswers,
  testerPlaces,
  warmths,
  wornKinds,
} from '../notation/choices.ts';
import { landmarkNames, plainViews, views } from '../notation/landmarks.ts';

/**
 * What a case file means, as plain JSON data. Every part says where it stands: `at` counts UTF-16 units from the
 * start of the level-0 block it is written in, so that a block's record is the same wherever the block moves.
 * Dates are `YYYY-MM-DD` (`foaled` and `onset` may be `YYYY-MM` or `YYYY`); picture points are pixels, y downwards.
 */

const span = z.object({ start: z.number(), end: z.number() });
const point = z.object({ x: z.number(), y: z.number() });
const segment = z.object({ from: point, to: point, at: span });
const foot = z.enum(feet);
const view = z.enum(views);

/** As written (`value` and `unit`) and in the dimension's base unit (`base`: mm, deg, %, kg, days, …). */
const quantity = z.object({ value: z.number(), unit: z.string(), base: z.number(), at: span });
/** Whether it is read out of a line that is not understood. */
const unread = z.optional(z.literal(true));
const words = z.object({ text: z.string(), at: span });
const score = z.object({ value: z.number(), at: span });

const placing = z.object({
  name: z.enum(landmarkNames),
  x: z.number(),
  y: z.number(),
  /** One standard deviation of this placing, px; null where the line gives none. */
  spread: z.nullable(z.number()),
  /** Where it says that the film before proposed it and a person confirmed it: it has that placing's error in it. */
  followed: z.optional(span),
  at: span,
});

const reading = z.object({
  /** Null for the unnamed reader, whose landmarks stand outside any `read`. */
  reader: z.nullable(z.string()),
  spread: z.nullable(z.number()),
  placings: z.array(placing),
  at: span,
});

const scale = z.union([
  z.object({ kind: z.literal('pixel'), mmPerPx: z.number(), at: span }),
  z.object({ kind: z.literal('marker'), length: quantity, marker: segment, at: span }),
  z.object({ kind: z.literal('dicom'), at: span }),
  z.object({ kind: z.literal('bone'), at: span }),
]);

const measured = z.object({ measure: z.string(), measureAt: span, quantity });

/** How a picture was taken. Lengths in mm, the centre of the beam in pixels; null where nothing is said. */
const setup = z.object({
  /** What is said of paste on the sole; empty where only that there is some. */
  paste: z.nullable(z.string()),
  block: z.nullable(quantity),
  focus: z.nullable(quantity),
  beam: z.nullable(point),
  standing: z.nullable(z.string()),
});

const film = z.object({
  kind: z.enum(pictureKinds),
  foot,
  view,
  path: words,
  taken: z.nullable(z.string()),
  scale: z.nullable(scale),
  magnify: z.nullable(score),
  ground: z.nullable(segment),
  /** The plane between hoof and shoe. */
  bearing: z.nullable(segment),
  setup: z.nullable(setup),
  readings: z.array(reading),
  /** The first of its lines that is not understood; null where all are. */
  unreadAt: z.nullable(span),
  expects: z.array(z.object({ ...measured.shape, tolerance: z.nullable(quantity), at: span })),
  prose: z.array(words),
  /** The header's first word, and the whole group. */
  head: span,
  at: span,
  line: z.number(),
});

/** A picture that is shown and listed and not measured. */
const plainPicture = z.object({
  kind: z.enum(pictureKinds),
  foot,
  view: z.enum(plainViews),
  path: words,
  taken: z.nullable(z.string()),
  setup: z.nullable(setup),
  prose: z.array(words),
  head: span,
  at: span,
  line: z.number(),
});

const cut = z.object({
  kind: z.enum(cutKinds),
  foot,
  /** All that the block is of; it stands in the record once for each. */
  feet: z.array(foot),
  heelDown: z.nullable(quantity),
  /** From how far in front of the heel's contact the heel is cut on a plane of its own. */
  heelFrom: z.nullable(quantity),
  toeDown: z.nullable(quantity),
  toeBack: z.nullable(quantity),
  /** Predicted on a front film. */
  insideDown: z.nullable(quantity),
  outsideDown: z.nullable(quantity),
  /** Degrees that a wedge raises the heel by. This and what follows is kept and not predicted. */
  heelUp: z.nullable(quantity),
  /** Both sides where no place is named. */
  dressed: z.array(
    z.object({
      what: z.enum(dressings),
      places: z.array(z.enum(bevelPlaces)),
      amount: z.nullable(quantity),
      text: z.nullable(z.string()),
      at: span,
    }),
  ),
  leave: z.array(z.enum(['toe', 'heel', 'sole'])),
  boots: z.nullable(words),
  why: z.array(words),
  work: z.array(words),
  /** The first of its lines that is not understood; null where all are. */
  unreadAt: z.nullable(span),
  prose: z.array(words),
  head: span,
  at: span,
  line: z.number(),
});

const tape = z.object({
  foot,
  values: z.array(z.object({ ...measured.shape, at: span })),
  head: span,
  at: span,
  line: z.number(),
});

/** A value of the blood. */
const laboratory = z.object({
  /** `insulin`, `acth`, `glucose`, `triglycerides`, or the name of a hormone as written. */
  of: z.string(),
  value: quantity,
  /** Beyond what the laboratory measures: the value is at least this. */
  above: z.boolean(),
  fasting: z.boolean(),
  /** Minutes since what was given: corn syrup for insulin, TRH for ACTH; null where nothing was. */
  after: z.nullable(z.number()),
  at: span,
});

const medicine = z.object({
  name: z.string(),
  dose: z.nullable(z.string()),
  from: z.nullable(z.string()),
  until: z.nullable(z.string()),
  at: span,
});

/** Something that is put on some feet or, with `off`, taken from them. `thickness` in mm, `wedge` in degrees, heel over toe. */
const worn = z.object({
  kind: z.enum(wornKinds),
  feet: z.array(foot),
  off: z.boolean(),
  thickness: z.nullable(quantity),
  wedge: z.nullable(quantity),
  text: z.nullable(words),
  at: span,
});

/** A finding that somebody lives with. `within` is the block that it is accepted in. */
const acceptance = z.object({
  code: z.string(),
  codeAt: span,
  /** Only what is told of this measure; null for all that the code tells of the block. */
  measure: z.nullable(z.string()),
  measureAt: z.nullable(span),
  because: words,
  block: z.string(),
  within: span,
  at: span,
});

const visit = z.object({
  date: z.nullable(z.string()),
  dateAt: span,
  title: z.nullable(z.string()),
  by: z.nullable(words),
  weight: z.nullable(quantity),
  girth: z.nullable(quantity),
  length: z.nullable(quantity),
  condition: z.nullable(score),
  crest: z.nullable(score),
  obel: z.nullable(score),
  /**
   * Lines of lameness that give no grade, such as `obel 3.5`, `obel 5`, `Obel 4` or `lamness LF 5`: what stands there, and the largest
   * number in it. None is a grade, and yet somebody meant one.
   */
  gradesUnread: z.array(
    z.object({
      scale: z.enum(['obel', 'meier', 'ground']),
      written: z.string(),
      value: z.nullable(z.number()),
      at: span,
    }),
  ),
  /** The modified Obel score. */
  meier: z.nullable(score),
  /** Over ground, 0 to 5; no feet where none is named. */
  lameness: z.array(z.object({ feet: z.array(foot), grade: z.number(), at: span })),
  landings: z.array(z.object({ feet: z.array(foot), landing: z.enum(landings), at: span })),
  testers: z.array(
    z.object({
      feet: z.array(foot),
      places: z.array(z.enum(testerPlaces)),
      answer: z.enum(testerAnswers),
      at: span,
    }),
  ),
  soles: z.array(z.object({ feet: z.array(foot), firmness: z.enum(soles), at: span })),
  /** Of the animal, each time that it was taken. */
  temperatures: z.array(quantity),
  warmths: z.array(z.object({ feet: z.array(foot), warmth: z.enum(warmths), at: span })),
  /** What was seen on feet. */
  found: z.array(z.object({ feet: z.array(foot), place: z.enum(seenPlaces), text: z.string(), at: span })),
  /** `unread`: out of a line that is not understood. */
  pulses: z.array(z.object({ feet: z.array(foot), pulse: z.enum(pulses), at: span, unread })),
  insulin: z.nullable(quantity),
  acth: z.nullable(quantity),
  glucose: z.nullable(quantity),
  /** Every value of the blood, these three too. */
  laboratory: z.array(laboratory),
  medicines: z.array(medicine),
  diagnoses: z.array(words),
  farrier: z.nullable(words),
  owner: z.array(words),
  /** What went wrong or did harm. */
  adverse: z.array(words),
  feed: z.array(words),
  turnout: z.array(words),
  vet: z.array(words),
  /** Days on which the vet saw the animal, with what is said of it. */
  seen: z.array(z.object({ date: z.string(), text: z.nullable(z.string()), at: span })),
  signs: z.array(z.object({ word: z.string(), at: span, unread })),
  /** The first of its lines, those of its plans and trims too, that is not understood; null where all are. */
  unreadAt: z.nullable(span),
  worn: z.array(worn),
  next: z.nullable(z.union([z.object({ date: z.string(), at: span }), z.object({ after: quantity, at: span })])),
  prose: z.array(words),
  films: z.array(film),
  pictures: z.array(plainPicture),
  tapes: z.array(tape),
  cuts: z.array(cut),
  accepts: z.array(acceptance),
  head: span,
  at: span,
});

/** What a lesson is held against: a reading in another case file, or with `file` null in this one. */
const lessonKey = z.object({
  file: z.nullable(words),
  by: z.nullable(words),
  at: span,
});

const animal = z.object({
  name: z.nullable(z.string()),
  kind: z.nullable(z.enum(animals)),
  sex: z.nullable(z.string()),
  breed: z.nullable(z.string()),
  foaled: z.nullable(z.string()),
  height: z.nullable(quantity),
  microchip: z.nullable(z.string()),
  ueln: z.nullable(z.string()),
  code: z.nullable(z.string()),
  sharing: z.enum(['private', 'series', 'open']),
  /** The line that says so; null where nothing is said. */
  sharingAt: z.nullable(span),
  onset: z.nullable(z.object({ date: z.string(), text: z.string() })),
  /** Null where the case is no lesson. */
  key: z.nullable(lessonKey),
  /** Of the owner, to publish the case. */
  consent: z.nullable(z.object({ date: z.string(), text: z.nullable(z.string()) })),
  diagnoses: z.array(words),
  vet: z.array(words),
  farrier: z.nullable(words),
  prose: z.array(words),
  accepts: z.array(acceptance),
  head: span,
  at: span,
});

const limit = z.object({
  ...measured.shape,
  relation: z.enum(['>=', '<=']),
  because: z.nullable(z.string()),
  at: span,
});

const placed = <T extends z.ZodMiniType>(part: T) =>
  z.object({
    /** Where the block stands in the file: offset of its first character, and its line from 0. */
    start: z.number(),
    line: z.number(),
    is: part,
  });

export const caseRecordSchema = z.object({
  version: z.nullable(z.number()),
  animal: z.nullable(placed(animal)),
  limits: z.array(placed(limit)),
  visits: z.array(placed(visit)),
  /** What lines of a visit say of the animal’s state that stand in a part of the file that is none; each without a date. */
  outside: z.array(placed(visit)),
  /** In the file the first line in no visit that is not understood: of the animal, a limit, or nobody knows what; null where all are. */
  unreadOutsideAt: z.nullable(span),
});

export type Quantity = z.infer<typeof quantity>;
export type Words = z.infer<typeof words>;
export type Segment = z.infer<typeof segment>;
export type Placing = z.infer<typeof placing>;
export type Reading = z.infer<typeof reading>;
export type Scale = z.infer<typeof scale>;
export type Expectation = Film['expects'][number];
export type Setup = z.infer<typeof setup>;
export type ListedPicture = z.infer<typeof plainPicture>;
export type Film = z.infer<typeof film>;
export type Cut = z.infer<typeof cut>;
export type Tape = z.infer<typeof tape>;
export type Acceptance = z.infer<typeof acceptance>;
export type LaboratoryValue = z.infer<typeof laboratory>;
export type Medicine = z.infer<typeof medicine>;
export type WornLine = z.infer<typeof worn>;
export type Visit = z.infer<typeof visit>;
export type LessonKey = z.infer<typeof lessonKey>;
export type Animal = z.infer<typeof animal>;
export type Limit = z.infer<typeof limit>;
export type CaseRecord = z.infer<typeof caseRecordSchema>;
export interface Placed<T> {
  start: number;
  line: number;
  is: T;
}
