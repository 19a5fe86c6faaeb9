import { changeBetween } from '../../course/change.ts';
import type { StudiedFilm } from '../../trim/study.ts';
import type { ComparedMeasure, Rule, Surroundings } from '../rule.ts';
import { footWords, say, sentence } from '../wording.ts';

interface Worsening {
  readonly measure: ComparedMeasure;
  readonly code: string;
  readonly severity: 'error' | 'warning';
  readonly title: string;
  readonly about: string;
  readonly says: string;
  readonly never?: string;
}

function worsening({ measure, code, severity, title, about, says, never }: Worsening): Rule {
  return {
    code,
    severity,
    title,
    about,
    ...(never !== undefined && { never }),
    *onReading(film, reading, study) {
      if (film.film.kind !== 'film' || reading !== film.readings.find(({ taking }) => taking.frame)) return;
      const now = reading.taking.values.get(measure);
      const earlier = before(film, study);
      const was = earlier?.readings.find(({ taking }) => taking.frame)?.taking.values.get(measure);
      if (!now || !was || !earlier) return;
      const {
        difference,
        sd: spread,
        real,
      } = changeBetween(
        { value: was.value, sd: study.repeatSd(measure) ?? was.sd },
        { value: now.value, sd: study.repeatSd(measure) ?? now.sd },
      );
      if (!real || difference <= 0) return;
      yield {
        at: film.film.head,
        message: `${sentence(now.measure.words)}, ${footWords[film.film.foot]}, has grown from ${say(was.value, now.unit)} to ${say(now.value, now.unit)}: ${say(difference, now.unit)} ± ${say(spread, now.unit)}, more than placing explains. ${says}`,
        measure,
        value: now.value,
        limit: was.value,
        source: 'the earlier film of this foot',
        related: [
          {
            at: {
              start: earlier.visit.start + earlier.film.head.start,
              end: earlier.visit.start + earlier.film.head.end,
            },
            message: 'The earlier film.',
          },
        ],
      };
    },
  };
}

/** The film of the same foot and view before the day of this one. */
function before({ film, day }: StudiedFilm, { series }: Surroundings): StudiedFilm | null {
  return day === null ? null : series.upTo(film.foot, film.view, day - 1);
}

const sinks = 'The bone may be sinking in the capsule: call the vet now.';

export const sinking: Rule = worsening({
  measure: 'founder-distance',
  code: 'course/sinking',
  severity: 'error',
  title: 'Founder distance increasing',
  about:
    'A pedal bone that comes to lie lower in the capsule from one film to the next is sinking. In acute founder the founder distance was the best sign of all on a film (Eustace and Cripps 1999).',
  says: sinks,
  never: 'Call the vet, and write down under `vet` what was found.',
});

export const sinkingByHairline: Rule = worsening({
  measure: 'coronet-extensor',
  code: 'course/sinking-hairline',
  severity: 'error',
  title: 'Coronet to extensor process increasing',
  about:
    'The same as a founder distance that increases, measured from the hairline. The two conventions are never mixed.',
  says: sinks,
  never: 'Call the vet, and write down under `vet` what was found.',
});

export const rotating: Rule = worsening({
  measure: 'capsular-rotation',
  code: 'course/rotating',
  severity: 'warning',
  title: 'Rotation increasing',
  about:
    'Bone and wall part further from one film to the next. Whether the tendon pulls or the wall is levered away is disputed; that it goes on is what the vet has to know.',
  says: 'Tell the vet. Rotation alone foretells little (Hunt 1993).',
});
