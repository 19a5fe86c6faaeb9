import { t } from '../../language/words.ts';
import { SURELY } from '../../course/change.ts';
import type { Value } from '../../measures/take.ts';
import type { FootName } from '../../notation/choices.ts';
import { dayNumber } from '../../notation/dates.ts';
import type { Fix } from '../../notation/problems.ts';
import { staysOn } from '../../record/wearing.ts';
import type { StudiedFilm, StudiedReading } from '../../trim/study.ts';
import type { Rule } from '../rule.ts';
import { sayDay } from '../wording/say-day.ts';
import { list, say } from '../wording/wording.ts';
import { allowed } from './shoe-disagrees.ts';

export const shoeNotWritten: Rule = {
  code: 'shoe/not-written',
  severity: 'info',
  title: 'A shoe on the film that is not written',
  about:
    'Between bearing plane and ground the film shows something that the foot wears, and by what is written the foot is bare: it was taken off, a trim ended it, or nothing was ever said. A trim ends what was worn, so the line of a new shoe stands below it. What is measured goes by the film; what the foot wears on the next one goes by the lines. Told from 3 mm and 2 degrees (judgements of ours, no source), where it is more than the error of placing.',
  *onReading(film, reading) {
    const { worn, readings, film: of } = film;
    if (!of.bearing || reading !== readings.find(({ taking }) => taking.frame)) return;
    if (worn && staysOn(worn)) return;
    const seen = shoeSeen(reading);
    const [first] = seen;
    if (!first) return;
    yield {
      at: of.head,
      message: t(
        'The film shows something under the hoof that {0}; {1}',
        list(seen.map(({ words }) => words)),
        whyBare(film),
      ),
      measure: first.value.measure.name,
      value: first.value.value,
      limit: allowed[first.unit],
      source: t('judgement of ours, no source'),
      fixes: fixesFor(film),
    };
  },
};

interface ShoeSign {
  readonly words: string;
  readonly value: Value;
  readonly unit: keyof typeof allowed;
}

/** What surely lies between bearing plane and ground. */
function shoeSeen({ taking: { values } }: StudiedReading): ShoeSign[] {
  const [toe, heel, wedge] = (['shoe-thickness.toe', 'shoe-thickness.heel', 'shoe-wedge'] as const).map((name) =>
    values.get(name),
  );
  const seen: ShoeSign[] = [];
  const thick = [toe, heel].find((one) => one && one.value > Math.max(allowed.mm, SURELY * one.sd));
  if (toe && heel && thick)
    seen.push({
      words: t('is {0} thick at the toe and {1} at the heel', say(toe.value, 'mm'), say(heel.value, 'mm')),
      value: thick,
      unit: 'mm',
    });
  // A bearing plane below the ground is told elsewhere.
  const isBelow = [toe, heel].some((one) => one && one.value < -Math.max(1, SURELY * one.sd));
  if (isBelow) return [];
  if (wedge && Math.abs(wedge.value) > Math.max(allowed.deg, SURELY * wedge.sd))
    seen.push({
      words: t('raises {0} by {1}', wedge.value < 0 ? t('the toe') : t('the heel'), say(Math.abs(wedge.value), 'deg')),
      value: wedge,
      unit: 'deg',
    });
  return seen;
}

function whyBare({ worn, bareBy, film: { foot } }: StudiedFilm): string {
  if (worn) return t('by what is written it wears boots alone, and those are pulled off for a film. {0}', ask(foot));
  if (!bareBy) return t('nothing that is written before it says what the foot wears. {0}', ask(foot));
  const { by, day, ofSameVisit } = bareBy;
  if (by === 'off') return t('by what is written it was taken off on {0}. {1}', sayDay(day), ask(foot));
  if (ofSameVisit)
    return t(
      'by what is written the foot is bare, as the trim of {0} stands below what was put on that day, and a trim ends what was worn. Was it put on after the trim? Then its line belongs below the trim.',
      sayDay(day),
    );
  if (by === 'wedge')
    return t(
      'the trim of {0} raised the heel, but no line says what the foot wears since. {1}',
      sayDay(day),
      ask(foot),
    );
  return t(
    'by what is written the foot is bare since the trim of {0}, as a trim ends what was worn. {1}',
    sayDay(day),
    ask(foot),
  );
}

const ask = (foot: FootName): string => t('Write it above the film: {0}', `shoe ${foot}`);

/** Not where the line is there already, and not on a film that is older than its visit. */
function fixesFor({ bareBy, day, visit, film: { foot, head } }: StudiedFilm): Fix[] {
  const { date } = visit.is;
  if (bareBy?.ofSameVisit || date === null || dayNumber(date) !== day) return [];
  return [
    {
      title: t('Write {0} above the film', `shoe ${foot}`),
      edits: [{ start: head.start, end: head.start, text: `shoe ${foot}`, newLine: 'above' }],
    },
  ];
}
