import { t } from '../../language/words.ts';
import { dayNumber } from '../../notation/dates.ts';
import type { Visit } from '../../record/schema.ts';
import { grownAt, isYoung, type CaseAnimal } from '../../trim/case-animal.ts';
import type { Rule } from '../rule.ts';

/** Degrees Celsius from which it is asked. Common practice, no source. */
const asked = 38.5;

/** From here on it is a warning. A judgement of ours. */
const clearly = 39.5;

/** Lower figures are usual for donkeys, and none are known here for mules and hinnies. */
const judged: readonly (string | null)[] = ['horse', 'pony', null];

/** The highest temperature of a visit that may be a fever, °C; null where none may. */
export function perhapsFever(
  { date, temperatures }: Visit,
  animal: Parameters<typeof isYoung>[0] & Pick<CaseAnimal, 'kind'>,
): { highest: Visit['temperatures'][number]; degrees: number } | null {
  if (!judged.includes(animal.kind) || isYoung(animal, date === null ? null : dayNumber(date))) return null;
  const [highest] = temperatures.toSorted((a, b) => b.base - a.base);
  // Degrees Fahrenheit are not exact in degrees Celsius.
  const degrees = highest ? Math.round(highest.base * 100) / 100 : 0;
  return highest && degrees >= asked ? { highest, degrees } : null;
}

export const temperature: Rule = {
  code: 'visit/temperature',
  severity: 'info',
  title: 'Perhaps a fever',
  about: `Fever is a sign for which the vet is called now, and only \`sign fever\` calls. From ${asked} °C on a grown horse or pony is asked about: 38.3 to 38.5 °C are the usual upper ends of what is normal (common practice, no source). One yard found less: 36.0 to 38.0 °C in 41 healthy grown horses (Hall and others, J Equine Vet Sci 2019;74:51-55, read in the abstract). Work, heat and excitement warm an animal too. Nothing is said of an animal under ${grownAt} months, nor of donkeys, mules and hinnies: their usual temperatures differ; nor where the vet saw the animal at that visit. From ${clearly} °C on it is a warning (a judgement of ours). While the newest temperature may be a fever and no later line says that the vet has seen the animal, no plan is written down.`,
  *onVisit({ visit: { is: visit } }, { animal }) {
    const found = perhapsFever(visit, animal);
    if (!found || visit.signs.some(({ word }) => word === 'fever') || visit.seen.length > 0) return;
    const { highest, degrees } = found;
    yield {
      at: highest.at,
      severity: degrees >= clearly ? 'warning' : 'info',
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
