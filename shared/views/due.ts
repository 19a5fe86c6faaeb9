import { counted, t } from '../language/words.ts';
import { newestState } from '../course/care.ts';
import type { Inspection } from '../findings/inspect.ts';
import { sayDate, sayDay } from '../findings/wording/say-day.ts';
import { footWords, sentence } from '../findings/wording/wording.ts';
import { dateOfDay } from '../notation/dates.ts';
import { feet, type FootName } from '../notation/choices.ts';
import { LineMap } from '../notation/line-map.ts';
import { momentOf } from '../trim/film-series.ts';
import type { Study } from '../trim/study.ts';
import { alarmsOf, type AlarmNote } from './alarms.ts';
import { cutWords } from './film-sheet.ts';
import { nextVisit } from './next-visit.ts';
import { momentOfCut, openPlan } from './open-plan.ts';

/** Days ahead that a next visit is told of before it is due. */
const soon = 7;

/** Obel: lame at the trot. */
const lame = 1;

/** Something that waits to be done, with its line, from 0. */
export interface DueItem {
  readonly kind: 'visit' | 'plan' | 'film';
  /** The foot that it is about; null for a visit. */
  readonly foot: FootName | null;
  /** The day of the visit that is due, of the plan, or of the film, as written. */
  readonly date: string;
  /** Days since then; below 0 where it is still to come. */
  readonly days: number;
  readonly line: number;
  readonly says: string;
}

/** What of a case waits on a day. */
export interface CaseDue {
  readonly name: string | null;
  readonly alarms: readonly AlarmNote[];
  readonly items: readonly DueItem[];
}

/**
 * What waits on a day, as `dayNumber` counts: open alarms, the next visit where it is overdue or due within a week, plans that no trim
 * has followed, and of an animal that is lame the feet whose newest lateral film is older than a plan may rest on.
 */
export function dueOn(today: number, { study, tree }: Pick<Inspection, 'study' | 'tree'>): CaseDue {
  const map = new LineMap(tree.text);
  const lineOf = (start: number): number => map.at(start).line;
  return {
    name: study.record.animal?.is.name ?? null,
    alarms: alarmsOf({ study, tree }),
    items: [...visitDue(today, study, lineOf), ...plansDue(today, study, lineOf), ...filmsDue(today, study, lineOf)],
  };
}

/** An alarm comes before any visit, and the visit that is longest overdue before the others. */
export function urgency({ alarms, items }: CaseDue): number {
  const errors = alarms.filter(({ severity }) => severity === 'error').length;
  const visit = items.find(({ kind }) => kind === 'visit');
  return errors * 1e8 + alarms.length * 1e6 + (visit ? visit.days + 1e4 : 0);
}

export const isDue = ({ alarms, items }: CaseDue): boolean => alarms.length > 0 || items.length > 0;

type LineOfPlace = (start: number) => number;

function visitDue(today: number, { record: { visits } }: Study, lineOf: LineOfPlace): DueItem[] {
  const next = nextVisit(visits);
  if (!next || next.day - today > soon) return [];
  const days = today - next.day;
  const when =
    days > 0
      ? counted(days, '1 day overdue', '{0} days overdue')
      : days === 0
        ? t('due today')
        : counted(-days, 'due in 1 day', 'due in {0} days');
  return [
    {
      kind: 'visit',
      foot: null,
      date: dateOfDay(next.day),
      days,
      line: lineOf(next.visit.start + next.at.start),
      says: t('The next visit, {0}: {1}.', sayDay(next.day), when),
    },
  ];
}

/** The newest plan of each foot, where no trim of that foot came after it. */
function plansDue(today: number, study: Study, lineOf: LineOfPlace): DueItem[] {
  return feet.flatMap((foot) => {
    const plan = openPlan(foot, study, today);
    const at = plan && momentOfCut(plan);
    if (!plan || !at) return [];
    return [
      {
        kind: 'plan' as const,
        foot,
        date: plan.visit.is.date ?? '',
        days: today - at.day,
        line: lineOf(at.at),
        says: t('Planned on {0}, and no trim since: {1}, {2}.', sayDay(at.day), footWords[foot], cutWords(plan)),
      },
    ];
  });
}

/** Of a lame animal each filmed foot whose newest lateral film is older than a plan may rest on. */
function filmsDue(today: number, study: Study, lineOf: LineOfPlace): DueItem[] {
  const { grade, unread, score } = newestState(study);
  const isLame = unread || score !== null || (grade !== null && grade.value >= lame);
  if (!isLame) return [];
  return feet.flatMap((foot) => {
    const film = study.series.upTo(foot, 'lateral', today);
    const at = film && momentOf(film);
    if (!film || !at || today - at.day <= study.trim.filmAge) return [];
    return [
      {
        kind: 'film' as const,
        foot,
        date: film.film.taken ?? film.visit.is.date ?? '',
        days: today - at.day,
        line: lineOf(at.at),
        says: t(
          '{0}, lame: its newest film is {1} days old, of {2}; after {3} no plan rests on it.',
          sentence(footWords[foot]),
          today - at.day,
          sayDate(film.film.taken ?? film.visit.is.date ?? ''),
          study.trim.filmAge,
        ),
      },
    ];
  });
}
