import type { ClassTally } from '../lessons/class-tally.ts';
import type { MarkedFilm } from '../lessons/marked-case.ts';
import type { MarkedPlan, MarkedPlans } from '../lessons/marked-plan.ts';
import type { MarkedReading } from '../lessons/marked-reading.ts';
import type { CutSize } from '../trim/stand.ts';
import type { MarkJson } from './json-shapes.ts';

/** A student's file held against a key. */
export interface MarkedStudent {
  readonly file: string;
  /** Whether all that had to be placed, read and planned is as in the key. */
  readonly agrees: boolean;
  /** In the order of the key. */
  readonly films: readonly MarkedFilm[];
}

type FilmJson = MarkJson['students'][number]['films'][number];

/** What `mark --format json` prints; numbers are not rounded. */
export function markDocument(key: string, students: readonly MarkedStudent[], tally: ClassTally): MarkJson {
  return {
    ungula: 1,
    key,
    students: students.map(({ file, agrees, films }) => ({ file, agrees, films: films.map(filmJson) })),
    class: {
      students: tally.students,
      off: tally.studentsOff,
      points: [...tally.points],
      values: [...tally.values],
      plans: { ...tally.plans },
    },
  };
}

const filmJson = ({ foot, view, picture, there, marked, values, plans }: MarkedFilm): FilmJson => ({
  foot,
  view,
  picture,
  there,
  marked: marked && readingJson(marked),
  values: values.map((value) => ({ ...value })),
  plans: plans && plansJson(plans),
});

const readingJson = (marked: MarkedReading): NonNullable<FilmJson['marked']> => ({
  points: marked.points.map((point) => ({ ...point, off: point.off && { ...point.off } })),
  beyondKey: [...marked.beyondKey],
  measures: marked.measures.map((measure) => ({ ...measure })),
  groundTurned: marked.groundTurned,
  scaleRatio: marked.scaleRatio,
  bearing: marked.bearing && { ...marked.bearing },
  unplaced: [...marked.unplaced],
});

type PlansJson = NonNullable<FilmJson['plans']>;

const plansJson = ({ care, unjudged, key, plans, agrees }: MarkedPlans): PlansJson => ({
  care,
  unjudged,
  key: key && sizeJson(key),
  plans: plans.map(planJson),
  agrees,
});

const planJson = ({ line, size, leaves, cannot, broken, off, agrees }: MarkedPlan): PlansJson['plans'][number] => ({
  line,
  ...sizeJson(size),
  leaves: leaves.map((value) => ({ ...value })),
  cannot,
  broken: broken.map(({ code, place, value }) => ({ code, place, by: -value })),
  off: off && { ...off },
  agrees,
});

const sizeJson = (size: CutSize): NonNullable<PlansJson['key']> => ({
  heel: size.heelDown,
  ...(size.heelFrom !== undefined && { from: size.heelFrom }),
  toe: size.toeDown,
  back: size.toeBack,
  inside: size.insideDown ?? 0,
  outside: size.outsideDown ?? 0,
});
