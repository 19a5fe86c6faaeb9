import * as z from 'zod/mini';
import { agreementLacks } from '../agreement/agreement.ts';
import { courseSources } from '../course/course-sources.ts';
import { growthSources } from '../course/growth-sources.ts';
import { measureUnits } from '../measures/unit.ts';
import { feet, wornKinds } from '../notation/choices.ts';
import { plainViews, views } from '../notation/landmarks.ts';
import { summaryGroups } from '../series/summary.ts';
import { scaleOrigins } from '../views/scale-origin.ts';
import { severities } from '../reference/severity.ts';

/**
 * What the command line prints as JSON: one document of one shape a command, whatever went wrong. Lines and columns count from 1,
 * columns in UTF-16 units; numbers are not rounded. `schemas/` holds the same as JSON Schema, for other programs.
 */

const foot = z.enum(feet);
const line = z.int().check(z.positive());
const date = z.string().check(z.regex(/^\d{4}-\d{2}-\d{2}$/));

const finding = z.strictObject({
  file: z.string(),
  line,
  column: line,
  endLine: line,
  endColumn: line,
  severity: z.enum(severities),
  code: z.string(),
  message: z.string(),
  measure: z.optional(z.string()),
  value: z.optional(z.number()),
  limit: z.optional(z.number()),
  source: z.optional(z.string()),
  accepted: z.optional(z.string()),
  /** Set where it is told of a film or a cut that is past: it counts no more than a hint. */
  past: z.optional(z.literal(true)),
});

const check = z.strictObject({ ungula: z.literal(1), findings: z.array(finding) });

/** What is open and comes before anything that is planned or handed on; the gravest first. */
const alarms = z.array(
  z.strictObject({
    date: z.nullable(date),
    line,
    severity: z.enum(['error', 'warning']),
    code: z.string(),
    message: z.string(),
  }),
);

/** By the name of the measure. */
const values = z.record(
  z.string(),
  z.strictObject({
    value: z.number(),
    unit: z.enum(measureUnits),
    sd: z.number(),
    axis: z.optional(z.literal('short')),
  }),
);

/** mm, of the places whose landmark is there. */
const soleCut = z.strictObject({
  tip: z.optional(z.number()),
  wing: z.optional(z.number()),
  heel: z.optional(z.number()),
});

/** `thickness` in mm, `wedge` in degrees that the heel is raised by. */
const wornItem = z.strictObject({
  kind: z.enum(wornKinds),
  thickness: z.optional(z.number()),
  wedge: z.optional(z.number()),
  text: z.optional(z.string()),
});

const setup = z.strictObject({
  paste: z.optional(z.string()),
  block: z.optional(z.number()),
  focus: z.optional(z.number()),
  beam: z.optional(z.strictObject({ x: z.number(), y: z.number() })),
  standing: z.optional(z.string()),
});

const cut = z.strictObject({
  foot,
  line,
  predicted: z.optional(values),
  delta: z.optional(z.number()),
  /** After a cut on two planes `predicted` and `delta` are of the foot on its heels, and this on its toe. */
  ontoe: z.optional(z.strictObject({ delta: z.number(), predicted: values })),
  solecut: z.optional(soleCut),
  wallleft: z.optional(z.number()),
  /** What lowering one side leaves on the newest front film; `delta` is positive where the outer side comes down more. */
  sides: z.optional(z.strictObject({ delta: z.number(), predicted: values })),
  /** mm of each heel beyond the live sole plane after it, where a side comes down: of the heels that the cut touches. */
  heelsleft: z.optional(z.strictObject({ inside: z.optional(z.number()), outside: z.optional(z.number()) })),
});

const measure = z.strictObject({
  ungula: z.literal(1),
  cases: z.array(
    z.strictObject({
      file: z.string(),
      case: z.nullable(z.string()),
      alarms,
      visits: z.array(
        z.strictObject({
          date: z.nullable(date),
          line,
          films: z.array(
            z.strictObject({
              foot,
              /** Of a photo; absent of a film. */
              kind: z.optional(z.literal('photo')),
              view: z.enum(views),
              line,
              scale: z.nullable(z.number()),
              /** What the scale rests on, where there is one; in words where its line does not say it all. */
              scaleFrom: z.optional(z.enum(scaleOrigins)),
              scaleWords: z.optional(z.string()),
              /** How the picture was taken, where something is said of it: mm, and pixels of the picture. */
              setup: z.optional(setup),
              /** What the foot wears on the picture, what is nearest to the hoof first; absent where it is bare or nobody said. */
              worn: z.optional(z.array(wornItem)),
              readings: z.array(z.strictObject({ reader: z.nullable(z.string()), measures: values })),
            }),
          ),
          /** What a hand took, by the name of the measure; absent where nothing was. */
          tapes: z.optional(z.array(z.strictObject({ foot, line, measures: values }))),
          /** What was seen and put on or taken off the feet, a phrase each; absent where nothing is said. */
          seen: z.optional(z.array(z.string())),
          /** Pictures that are not measured; absent where there are none. */
          pictures: z.optional(z.array(z.strictObject({ foot, view: z.enum(plainViews), line, picture: z.string() }))),
          plans: z.array(cut),
          trims: z.array(cut),
        }),
      ),
    }),
  ),
});

/** One case. Where it cannot be planned on, `problem` says why, and there is no film or no stage. */
const planned = z.strictObject({
  ungula: z.literal(1),
  file: z.string(),
  alarms,
  foot: z.nullable(foot),
  film: z.nullable(z.strictObject({ date: z.nullable(date), line })),
  goal: z.nullable(z.string()),
  stages: z.array(
    z.strictObject({
      week: z.number(),
      heel: z.number(),
      /** mm in front of the heel's contact, of a heel on a plane of its own. */
      from: z.optional(z.number()),
      toe: z.number(),
      back: z.number(),
      /** mm off a side, where any comes off. */
      inside: z.optional(z.number()),
      outside: z.optional(z.number()),
      delta: z.number(),
      predicted: values,
      ontoe: z.optional(z.strictObject({ delta: z.number(), predicted: values })),
      solecut: soleCut,
      stoppedBy: z.array(z.string()),
    }),
  ),
  stoppedBy: z.array(z.string()),
  /** In how many of a hundred placings of the film every limit is kept. */
  sure: z.optional(z.number()),
  /** mm of heel at even odds; of a plan only. */
  evenOdds: z.optional(z.number()),
  /** What would follow a plan: mm of heel at the next visit, and visits in all, null where the limits do not let all off. */
  outlook: z.optional(z.strictObject({ next: z.number(), visits: z.nullable(z.number()) })),
  /** What is to be known beside, in sentences. */
  notes: z.optional(z.array(z.string())),
  notation: z.string(),
  /** Why there is no notation, where there is none. */
  withheld: z.optional(z.string()),
  /** Set where the scale of the film is in doubt: there is no notation then. */
  doubt: z.optional(z.string()),
  problem: z.nullable(z.string()),
});

/** One object where FILE is one case, an array of them where it is a folder or several. */
const plan = z.union([planned, z.array(planned)]);

const measureCourse = z.strictObject({
  /** Films (photos, tapes) with a value, and those that the slope goes by: a length leaves out those whose scale is in doubt. */
  n: z.number(),
  slopeFilms: z.optional(z.number()),
  slope: z.optional(z.number()),
  low: z.optional(z.number()),
  high: z.optional(z.number()),
  level: z.optional(z.number()),
  p: z.optional(z.number()),
  per: z.optional(z.literal('28 days')),
  growOut: z.optional(
    z.strictObject({
      /** Whose growth it goes by: the foot's own on films or by tape, else what is usual. */
      by: z.enum(growthSources),
      toeLength: z.number(),
      date: z.nullable(date),
      early: z.nullable(date),
      late: z.nullable(date),
    }),
  ),
  changes: z.array(
    z.strictObject({
      from: date,
      to: date,
      difference: z.number(),
      sd: z.number(),
      real: z.boolean(),
      /** Set where a length is compared with a film whose scale is in doubt; it is then never real. */
      doubted: z.optional(z.literal(true)),
      /** How much of it comes from another shoe, degrees; of angles to the ground alone. */
      byShoe: z.optional(z.number()),
    }),
  ),
});

/** Whether the bone sinks in the capsule, over all films of the foot; mm. */
const sinking = z.strictObject({
  told: z.enum(['none', 'perhaps', 'clear']),
  /** Where something is told: how much lower, its standard deviation, and the first of the films that it is held against. */
  by: z.optional(z.number()),
  sd: z.optional(z.number()),
  since: z.optional(date),
  /** From where on it would have been told on the newest film; null where that film cannot tell. */
  seenFrom: z.nullable(z.number()),
  /** What the level is measured against there. */
  against: z.nullable(z.enum(['hairline', 'wall', 'ground'])),
});

const course = z.strictObject({
  ungula: z.literal(1),
  cases: z.array(
    z.strictObject({
      file: z.string(),
      alarms,
      /** By foot, in the order of their days: what the scale of each rests on, and whether the bones speak against it. */
      films: z.record(
        z.string(),
        z.array(
          z.strictObject({
            date,
            line,
            view: z.enum(views),
            scaleFrom: z.nullable(z.enum(scaleOrigins)),
            doubted: z.optional(z.literal(true)),
          }),
        ),
      ),
      /** By foot, then by the name of the measure. */
      feet: z.record(z.string(), z.record(z.string(), measureCourse)),
      /** The same of photographs and of what a hand took, of the feet that have some: series of their own, never mixed. */
      photos: z.record(z.string(), z.record(z.string(), measureCourse)),
      byHand: z.record(z.string(), z.record(z.string(), measureCourse)),
      /** By foot, where it was filmed from the side on two days or more. */
      sinking: z.record(z.string(), sinking),
    }),
  ),
});

/** What waits on a day, of the cases that have something; `days` since then, below 0 where it is still to come. */
const due = z.strictObject({
  ungula: z.literal(1),
  on: date,
  cases: z.array(
    z.strictObject({
      file: z.string(),
      name: z.nullable(z.string()),
      alarms,
      items: z.array(
        z.strictObject({
          kind: z.enum(['visit', 'plan', 'film']),
          foot: z.nullable(foot),
          date,
          days: z.int(),
          line,
          says: z.string(),
        }),
      ),
    }),
  ),
});

/** A 95 % interval. */
const interval = z.strictObject({ low: z.number(), high: z.number() });
const estimate = z.strictObject({ value: z.number(), se: z.number(), interval });
const intraclass = z.strictObject({ value: z.number(), interval: z.nullable(interval) });

/** How far readings of one film lie apart, in the unit of the measure, over films with different numbers of them. */
const withinFilms = z.strictObject({
  sd: z.number(),
  df: z.int(),
  interval: z.nullable(interval),
  films: z.int(),
  readings: z.int(),
});

/** Of the films that all of `readers` have read (of one person's repeats: as often as `columns` says). */
const agreementTable = z.union([
  z.strictObject({
    readers: z.optional(z.array(z.nullable(z.string()))),
    columns: z.int(),
    films: z.int(),
    icc21: intraclass,
    icc31: intraclass,
    spreads: z.strictObject({
      films: z.number(),
      readers: z.number(),
      rest: z.number(),
      sem: z.number(),
      semSameReader: z.number(),
      smallestChange: z.number(),
      smallestChangeSameReader: z.number(),
    }),
  }),
  /** Why there is none. */
  z.strictObject({ lack: z.enum(agreementLacks) }),
]);

/** One standard deviation along and across, mm; `angle` of the long axis from X (to the toe) to Y (up), degrees. */
const ellipse = z.strictObject({
  long: z.number(),
  short: z.number(),
  angle: z.nullable(z.number()),
  placings: z.int(),
  films: z.int(),
  df: z.int(),
});

/** A reader is null where nobody is named. */
const agree = z.strictObject({
  ungula: z.literal(1),
  films: z.strictObject({
    read: z.int(),
    byTwo: z.int(),
    repeated: z.int(),
    copies: z.int(),
    followed: z.int(),
    notInMm: z.int(),
  }),
  readers: z.array(z.nullable(z.string())),
  measures: z.array(
    z.strictObject({
      kind: z.enum(['film', 'photo']),
      measure: z.string(),
      unit: z.enum(measureUnits),
      readers: z.array(z.strictObject({ reader: z.nullable(z.string()), films: z.int() })),
      between: z.nullable(withinFilms),
      table: agreementTable,
      pairs: z.array(
        z.strictObject({
          first: z.nullable(z.string()),
          second: z.nullable(z.string()),
          films: z.int(),
          bias: estimate,
          sd: z.number(),
          lower: estimate,
          upper: estimate,
          slope: z.nullable(estimate),
          isProportional: z.boolean(),
        }),
      ),
      own: z.array(
        z.strictObject({
          reader: z.nullable(z.string()),
          spread: withinFilms,
          smallestChange: z.number(),
          table: agreementTable,
        }),
      ),
    }),
  ),
  landmarks: z.array(
    z.strictObject({
      kind: z.enum(['film', 'photo']),
      view: z.enum(views),
      landmark: z.string(),
      between: z.nullable(ellipse),
      own: z.nullable(ellipse),
    }),
  ),
});

/** mm that a plan takes off. */
const plannedSize = z.strictObject({
  heel: z.number(),
  from: z.optional(z.number()),
  toe: z.number(),
  back: z.number(),
  inside: z.number(),
  outside: z.number(),
});

/** A student's plans on one film, judged on the foot as the key has placed it. `agrees` is null where nothing can be judged. */
const markedPlans = z.strictObject({
  /** What comes before any plan, in a sentence; and why none can be judged. */
  care: z.nullable(z.string()),
  unjudged: z.nullable(z.string()),
  /** The key's own plan, where it has one that may be done. */
  key: z.nullable(plannedSize),
  plans: z.array(
    z.strictObject({
      line,
      ...plannedSize.shape,
      leaves: z.array(
        z.strictObject({ measure: z.string(), unit: z.enum(measureUnits), before: z.number(), after: z.number() }),
      ),
      cannot: z.nullable(z.string()),
      /** By how much each limit is broken, in mm or degrees. */
      broken: z.array(z.strictObject({ code: z.string(), place: z.nullable(z.string()), by: z.number() })),
      /** mm more than the key's plan takes. */
      off: z.nullable(
        z.strictObject({
          heel: z.number(),
          toe: z.number(),
          back: z.number(),
          inside: z.number(),
          outside: z.number(),
        }),
      ),
      agrees: z.nullable(z.boolean()),
    }),
  ),
  agrees: z.nullable(z.boolean()),
});

/** Of a class: how many of those who have put or written something are off the key there. */
const missed = z.strictObject({ missed: z.number(), of: z.number() });

/** How far what students placed lies from a key: distances to the toe and up in the key's foot, in mm where the key has a scale. */
const mark = z.strictObject({
  ungula: z.literal(1),
  key: z.string(),
  students: z.array(
    z.strictObject({
      file: z.string(),
      /** Whether all that had to be placed, read and planned is as in the key. */
      agrees: z.boolean(),
      films: z.array(
        z.strictObject({
          foot,
          view: z.enum(views),
          picture: z.string(),
          /** The student's file has the film. */
          there: z.boolean(),
          /** Null where the student has placed nothing on this film. */
          marked: z.nullable(
            z.strictObject({
              points: z.array(
                z.strictObject({
                  landmark: z.string(),
                  off: z.nullable(
                    z.strictObject({ distance: z.number(), toToe: z.nullable(z.number()), up: z.nullable(z.number()) }),
                  ),
                  tolerance: z.number(),
                  unit: z.enum(['mm', 'px']),
                  agrees: z.boolean(),
                }),
              ),
              beyondKey: z.array(z.string()),
              measures: z.array(
                z.strictObject({
                  measure: z.string(),
                  unit: z.enum(measureUnits),
                  key: z.number(),
                  student: z.nullable(z.number()),
                  tolerance: z.number(),
                  agrees: z.boolean(),
                }),
              ),
              /** Degrees, counter-clockwise as on the screen. */
              groundTurned: z.nullable(z.number()),
              scaleRatio: z.nullable(z.number()),
              /** The plane between hoof and shoe, turned by degrees and so far too high, in the unit of the points. */
              bearing: z.nullable(z.strictObject({ turned: z.number(), up: z.number(), tolerance: z.number() })),
              unplaced: z.array(z.enum(['scale', 'ground', 'bearing'])),
            }),
          ),
          /** What was read off the film; `key` is null where the key gives no such value, `student` where it was not read. */
          values: z.array(
            z.strictObject({
              measure: z.string(),
              unit: z.enum(measureUnits),
              key: z.nullable(z.number()),
              student: z.nullable(z.number()),
              tolerance: z.nullable(z.number()),
              agrees: z.boolean(),
            }),
          ),
          /** Null where nobody plans on the film and nothing speaks against planning. */
          plans: z.nullable(markedPlans),
        }),
      ),
    }),
  ),
  class: z.strictObject({
    students: z.number(),
    /** How many of them have something off the key. */
    off: z.number(),
    points: z.array(z.strictObject({ landmark: z.string(), ...missed.shape })),
    values: z.array(z.strictObject({ measure: z.string(), ...missed.shape })),
    plans: z.strictObject({ ...missed.shape, broken: z.number() }),
  }),
});

/** Means over the feet of a series, each foot once in a group. */
const summary = z.strictObject({
  ungula: z.literal(1),
  by: z.enum(summaryGroups),
  source: z.enum(courseSources),
  /** Case files that were read, that were looked at, and that have a value in some group. */
  cases: z.strictObject({ read: z.int(), taken: z.int(), counted: z.int() }),
  rows: z.array(
    z.strictObject({
      measure: z.string(),
      unit: z.enum(measureUnits),
      /** By time: `first`, `last`, `change` (last less first). Empty where the case does not say. */
      group: z.string(),
      feet: z.int(),
      /** That these feet belong to. */
      animals: z.int(),
      mean: z.number(),
      /** Of the sample; null of one foot. */
      sd: z.nullable(z.number()),
      least: z.number(),
      greatest: z.number(),
    }),
  ),
});

/** What was used in a series of cases: the same as the paragraph says, as numbers. Films are photos or tapes where `source` says so. */
const methods = z.strictObject({
  ungula: z.literal(1),
  program: z.strictObject({ name: z.string(), version: z.string() }),
  source: z.enum(courseSources),
  cases: z.int(),
  /** With something of this source, by their kind; empty where it is not said. */
  animals: z.record(z.string(), z.int()),
  feet: z.int(),
  visits: z.int(),
  films: z.int(),
  shod: z.int(),
  readings: z.int(),
  /** Who gives no name counts as one reader. */
  readers: z.strictObject({ all: z.int(), unnamed: z.boolean() }),
  /** Films by what their scale rests on, and those without one. */
  scales: z.strictObject({ from: z.partialRecord(z.enum(scaleOrigins), z.int()), none: z.int(), magnified: z.int() }),
  /** Those that the measures below rest on. */
  landmarks: z.array(z.strictObject({ landmark: z.string(), readings: z.int(), readers: z.int() })),
  followed: z.strictObject({ placings: z.int(), films: z.int() }),
  /** How many placings have their deviation from where: `usual` (mm), `usualPx` on films without a scale, their reader, their own line. */
  spread: z.strictObject({
    usualMm: z.number(),
    usualPx: z.number(),
    placings: z.strictObject({ usual: z.int(), usualPx: z.int(), reader: z.int(), own: z.int() }),
    /** What readings say of their readers, px. */
    ofReaders: z.array(z.strictObject({ px: z.number(), readers: z.int() })),
  }),
  measures: z.array(
    z.strictObject({
      measure: z.string(),
      unit: z.enum(measureUnits),
      films: z.int(),
      feet: z.int(),
      /** With values of two days or more. */
      feetTwice: z.int(),
    }),
  ),
  limits: z.array(
    z.strictObject({
      measure: z.string(),
      side: z.enum(['low', 'high']),
      feet: z.enum(['fore', 'hind']),
      animals: z.enum(['donkeys', 'others']),
      /** Null where the line shrinks with the height of each animal. */
      at: z.nullable(z.number()),
      source: z.string(),
      /** Values that were held against it. */
      values: z.int(),
    }),
  ),
  /** Cases in which a limit of their own stands in place of a published one. */
  ownLimits: z.int(),
  /** Films that two people or more have read, and that one has read more than once. */
  agreement: z.strictObject({ byTwo: z.int(), repeated: z.int(), copies: z.int(), followed: z.int() }),
  paragraph: z.string(),
  references: z.array(z.strictObject({ key: z.string(), bibtex: z.string() })),
});

export const jsonShapes = { check, measure, plan, course, due, agree, mark, summary, methods } as const;

export type PrintedFinding = z.infer<typeof finding>;
export type CheckJson = z.infer<typeof check>;
export type MeasureJson = z.infer<typeof measure>;
export type MeasuredCut = z.infer<typeof cut>;
export type PrintedValues = z.infer<typeof values>;
export type PlannedJson = z.infer<typeof planned>;
export type AlarmsJson = z.infer<typeof alarms>;
export type AgreeJson = z.infer<typeof agree>;
export type DueJson = z.infer<typeof due>;
export type CourseJson = z.infer<typeof course>;
export type SummaryJson = z.infer<typeof summary>;
export type MethodsJson = z.infer<typeof methods>;
export type MarkJson = z.infer<typeof mark>;
