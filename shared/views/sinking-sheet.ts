import { t } from '../language/words.ts';
import { watch } from '../course/alarm.ts';
import { vetDays } from '../course/care.ts';
import type { Ruler } from '../course/capsule-level.ts';
import { levelSeries } from '../course/levels.ts';
import { readersOf } from '../course/readers.ts';
import { unseenOn, type Unseen } from '../course/unseen.ts';
import { notTakenOut, sinkingRule, sinkingTold, type SinkingTold } from '../findings/rules/sinking.ts';
import { sayUnseen } from '../findings/wording/say-unseen.ts';
import { say, sentence } from '../findings/wording/wording.ts';
import type { FootName } from '../notation/choices.ts';
import type { Study } from '../trim/study.ts';

/** What the films of a foot say of sinking, also where nothing was told: what would have been seen. */
export interface SinkingSheet {
  /** An alarm is open. */
  readonly told: boolean;
  /** Whole sentences. */
  readonly text: string;
}

export interface SinkingLook {
  readonly open: SinkingTold | null;
  readonly past: readonly SinkingTold[];
  /** mm from which on a sinking would have been told on the newest film; null where that film cannot tell. */
  readonly seenFrom: number | null;
  /** What the level in the capsule is measured against on the newest film. */
  readonly against: Ruler | null;
  /** What the newest film lacks, where it cannot tell. */
  readonly unseen: Unseen | null;
  /** By whose placings; null where no film has several readings. */
  readonly reader: string | null;
  /** The vet saw the animal on the day of the newest film or later: nothing was filmed since. */
  readonly seenSince: boolean;
}

/** Null where there are fewer than two days of lateral films, so that nothing can be compared. */
export function sinkingLook(foot: FootName, study: Study): SinkingLook | null {
  const films = study.series.of(foot, 'lateral').filter(({ day }) => day !== null);
  const newest = films.at(-1)?.day;
  if (newest === undefined || newest === null || films[0]?.day === newest) return null;
  const told = [...sinkingTold(foot, study)];
  const series = levelSeries(films, study).find(({ levels }) => levels.at(-1)?.day === newest);
  const past = told.filter(({ alarm }) => alarm.ended !== null);
  return {
    open: told.find(({ alarm }) => alarm.ended === null) ?? null,
    past,
    seenFrom: series ? watch(series.levels, sinkingRule, vetDays(study)).seenFrom : null,
    against: series?.ruler ?? null,
    unseen: unseenOn(films, study),
    reader: readersOf(films)[0].name,
    seenSince: past.some(({ alarm: { ended } }) => ended?.by === 'vet' && ended.day >= newest),
  };
}

export function sinkingSheet(foot: FootName, study: Study): SinkingSheet | null {
  const look = sinkingLook(foot, study);
  if (!look) return null;
  const { open, past } = look;
  const now = open ? [open.message] : look.seenSince ? [] : [sayNone(look)];
  return { told: open !== null, text: [...past.map(({ message }) => message), ...now].map(sentence).join(' ') };
}

/** Never 'no sinking': films have errors, and what lies within them is not seen. */
function sayNone({ seenFrom, against, unseen, reader }: SinkingLook): string {
  if (seenFrom === null || against === null)
    return t('The newest film cannot tell{0}.', unseen ? t(': it {0}', sayUnseen(unseen)) : '');
  // Rounded up: what is said to be seen has to be.
  const from = Math.ceil(seenFrom * 10 - 1e-9) / 10;
  return t(
    'None seen{0}; {1} or more would have been.{2}',
    reader === null ? '' : t(' by the placings of {0}', reader),
    say(from, 'mm'),
    notTakenOut({ ruler: against }),
  );
}
