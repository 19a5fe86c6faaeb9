import { t } from '../../language/words.ts';
import { stillWritten, vetVisits, type VetVisit } from '../../course/vet-seen.ts';
import type { Rule } from '../rule.ts';
import { sayDate, sayDay } from '../wording/say-day.ts';

export const vetSeenDate: Rule = {
  code: 'visit/vet-seen-date',
  severity: 'error',
  title: 'Day of the vet’s visit out of place',
  about: `A line \`vet seen\` closes the alarms up to its day. Written under a visit it may lie up to ${stillWritten} days after it (a judgement of ours) and before the next visit; a later day is most often a slip in the year, and would close alarms that nobody has raised yet. Such a line closes nothing.`,
  never: 'Mend the date, or write the line under the visit of its own day.',
  *onCase({ record: { visits } }) {
    for (const one of vetVisits(visits))
      if (one.refused) yield { start: one.visit.start, at: one.at, message: why(one) };
  },
};

function why({ date, refused }: VetVisit): string {
  const day = sayDay(refused?.from ?? 0);
  return refused?.by === 'late'
    ? t(
        'This says that the vet saw the animal on {0}, which is more than {1} days after {2}, the visit that it stands in. It closes no alarm. If the date is right, write it under a visit of that day.',
        sayDate(date),
        stillWritten,
        day,
      )
    : t(
        'This says that the vet saw the animal on {0}, and there is a later visit already, on {1}. It closes no alarm here. If the date is right, write it under that visit.',
        sayDate(date),
        day,
      );
}
