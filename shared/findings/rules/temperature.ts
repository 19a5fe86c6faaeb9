import { t } from '../../language/words.ts';
import { dayNumber } from '../../notation/dates.ts';
import { grownAt, isYoung } from '../../trim/case-animal.ts';
import type { Rule } from '../rule.ts';

/** Degrees Celsius from which it is asked. Common practice, no source. */
const asked = 38.5;

/** Lower figures are usual for donkeys, and none are known here for mules and hinnies. */
const judged: readonly (string | null)[] = ['horse', 'pony', null];

export const temperature: Rule = {
  code: 'visit/temperature',
  severity: 'info',
  title: 'Perhaps a fever',
  about: `Fever is a sign for which the vet is called now, and only \`sign fever\` calls. From ${asked} °C on a grown horse or pony is asked about: 38.3 to 38.5 °C are the usual upper ends of what is normal (common practice, no source). One yard found less: 36.0 to 38.0 °C in 41 healthy grown horses (Hall and others, J Equine Vet Sci 2019;74:51-55, read in the abstract). Work, heat and excitement warm an animal too. Nothing is said of an animal under ${grownAt} months, nor of donkeys, mules and hinnies: their usual temperatures differ; nor where the vet saw the animal at that visit.`,
  *onVisit({ visit: { is: visit } }, { animal }) {
    const day = visit.date === null ? null : dayNumber(visit.date);
    if (!judged.includes(animal.kind) || isYoung(animal, day)) return;
    if (visit.signs.some(({ word }) => word === 'fever') || visit.seen.length > 0) return;
    const [highest] = visit.temperatures.toSorted((a, b) => b.base - a.base);
    // Degrees Fahrenheit are not exact in degrees Celsius.
    const degrees = highest ? Math.round(highest.base * 100) / 100 : 0;
    if (!highest || degrees < asked) return;
    yield {
      at: highest.at,
      message: t(
        'Is this fever? Fever is a sign for which the vet is called now: write sign fever, or tell the vet. (From {0} °C on in a grown horse or pony; common practice, no source.)',
        asked,
      ),
      value: degrees,
      limit: asked,
      source: t('common practice, no source'),
      fixes: [
        {
          title: t('Add the sign fever'),
          edits: [{ start: highest.at.end, end: highest.at.end, text: 'sign       fever', newLine: 'below' }],
        },
      ],
    };
  },
};
