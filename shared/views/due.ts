import { counted, t } from '../language/words.ts';
import { newestState } from '../course/care.ts';
import type { Inspection } from '../findings/inspect.ts';
import { sayDate, sayDay } from '../findings/wording/say-day.ts';
import { footWords, sentence } from '../findings/wording/wording.ts';
import { dateOfDay, dayNumber } from '../notation/dates.ts';
import { feet, type FootName } from '../notation/choices.ts';
import { LineMap } from '../notation/line-map.ts';
import { isBefore, momentOf, type When } from '../trim/film-series.ts';
import type { Study, StudiedCut } from '../trim/study.ts';
import { alarmsOf, type AlarmNote } from './alarms.ts';
import { cutWords } from './film-sheet.ts';

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
  const lineAt = (start: number): number => map.at(start).line;
  return {
    name: study.record.animal?.is.name ?? null,
    alarms: alarmsOf({ study, tree }),
    items: [...visitDue(today, study, lineAt), ...plansDue(today, study, lineAt), ...filmsDue(today, study, lineAt)],
  };
}

export const isDue = ({ alarms, items }: CaseDue): boolean => alarms.length > 0 || items.length > 0;

type LineOfPlace = (start: number) => number;

/** The newest `next` that no later visit has followed. */
function visitDue(today: number, { record: { visits } }: Study, lineAt: LineOfPlace): DueItem[] {
  const dated = visits.flatMap((visit) => {
    const day = visit.is.date === null ? null : dayNumber(visit.is.date);
    return day === null ? [] : [{ visit, day }];
  });
  const newest = dated.reduce<(typeof dated)[number] | null>(
    (last, one) => (last && last.day > one.day ? last : one),
    null,
  );
  const next = newest?.visit.is.next;
  if (!newest || !next) return [];
  const then = 'date' in next ? dayNumber(next.date) : newest.day + next.after.base;
  if (then === null || then - today > soon) return [];
  const days = today - then;
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
      date: 'date' in next ? next.date : dateOfDay(then),
      days,
      line: lineAt(newest.visit.start + next.at.start),
      says: t('The next visit, {0}: {1}.', sayDay(then), when),
    },
  ];
}

/** The newest plan of each foot, where no trim of that foot came after it. */
function plansDue(today: number, { cuts }: Study, lineAt: LineOfPlace): DueItem[] {
  const moments = cuts.flatMap((studied) => {
    const at = momentOfCut(studied);
    return at && at.day <= today ? [{ studied, at }] : [];
  });
  return feet.flatMap((foot) => {
    const own = moments
      .filter(({ studied }) => studied.cut.foot === foot)
      .toSorted((a, b) => (isBefore(a.at, b.at) ? -1 : 1));
    const last = own.at(-1);
    if (!last || last.studied.cut.kind !== 'plan') return [];
    const { studied, at } = last;
    const days = today - at.day;
    return [
      {
        kind: 'plan' as const,
        foot,
        date: studied.visit.is.date ?? '',
        days,
        line: lineAt(at.at),
        says: t('Planned on {0}, and no trim since: {1}, {2}.', sayDay(at.day), footWords[foot], cutWords(studied)),
      },
    ];
  });
}

/** Within a day what stands further down came later. */
function momentOfCut({ visit, cut, day }: StudiedCut): When | null {
  return day === null ? null : { day, at: visit.start + cut.head.start };
}

/** Of a lame animal each filmed foot whose newest lateral film is older than a plan may rest on. */
function filmsDue(today: number, study: Study, lineAt: LineOfPlace): DueItem[] {
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
        line: lineAt(at.at),
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
