import { t } from '../../language/words.ts';
import { valuesOfFilm } from '../../course/value-of-film.ts';
import type { StudiedFilm } from '../../trim/study.ts';
import { isClear } from '../limits/limits.ts';
import type { CaseRemark, Rule } from '../rule.ts';
import { footWords, say, sentence } from '../wording/wording.ts';
import { picturesBackwards } from './pictures-backwards.ts';

/** Judgements of ours: what counts as in line outside, as off the line inside, and as a heel that stands tall. */
const inLine = 3;
const offLine = 3;
const tall = 5;

/** Degrees between bone and pastern in ten sound Dareh-Shori horses; only what is clearly over their mean is spoken of. */
const sound = { mean: 3.3, sd: 3 };

const needed = ['hoof-pastern-deviation', 'phalangeal-rotation', 'capsular-rotation', 'heel-surplus'] as const;

/** Wall and pastern brought into line while the bone inside is not. It names no cause and no school. */
export const outsideOnly: Rule = {
  code: 'alignment/outside-only',
  severity: 'info',
  title: 'In line outside, not inside',
  about: `Seen from outside, wall and pastern run in one line; inside, the pedal bone is in line neither with the pastern nor with the wall, and the heels stand tall. To straighten the outside by taking toe or raising heels would hide this. Told where the wall is within 3° of the pastern, the bone stands over 3° off the pastern and clearly off it and off the wall, and over 5 mm of heel stand clearly above the live sole plane. The pastern is named in the message only where the bone is clearly more off it than in sound feet. They have ${sound.mean} ± ${sound.sd.toFixed(1)}° between bone and pastern (ten Dareh-Shori horses, Iran J Vet Surg, article 79374), and both angles to the pastern follow the stance, the bone’s own angle does not (five horses, Vet Radiol Ultrasound 2016, doi 10.1111/vru.12443): the cannon has to stand upright when it is filmed.`,
  *onCase(study) {
    for (const pictures of picturesBackwards(study)) {
      let isPast = false;
      for (const film of pictures) {
        const values = valuesOn(film);
        if (!values) continue;
        const remark = told(values, film);
        if (remark) yield isPast ? { ...remark, past: true } : remark;
        if (film.day !== null) isPast = true;
      }
    }
  },
};

function valuesOn(film: StudiedFilm) {
  const values = film.film.view === 'lateral' ? valuesOfFilm(film) : undefined;
  const [outside, inside, rotation, heel] = needed.map((name) => values?.get(name));
  return outside && inside && rotation && heel ? { outside, inside, rotation, heel } : null;
}

function told(
  { outside, inside, rotation, heel }: NonNullable<ReturnType<typeof valuesOn>>,
  { film, visit }: StudiedFilm,
): CaseRemark | null {
  const isTold =
    Math.abs(outside.value) <= inLine &&
    inside.value > offLine &&
    isClear(inside, 0) &&
    rotation.value > 0 &&
    isClear(rotation, 0) &&
    heel.value > tall &&
    isClear(heel, 0);
  if (!isTold) return null;
  return {
    start: visit.start,
    at: film.head,
    measure: inside.measure.name,
    value: inside.value,
    limit: offLine,
    source: t('a judgement of ours; 3.3 ± 3.0° in ten sound horses (Iran J Vet Surg, article 79374)'),
    message: t(
      '{0}: seen from outside, wall and pastern are in line within {1}. Inside, the bone is {2} off the wall{3}, on heels {4} above the live sole plane. To take toe or raise heels to straighten the outside would hide this. This counts only if the cannon stood upright on the film.',
      sentence(footWords[film.foot]),
      say(Math.max(1, Math.abs(outside.value)), 'deg', 0),
      say(rotation.value, 'deg', 0),
      isClear(inside, sound.mean) && inside.value > sound.mean
        ? t(' and {0} off the pastern', say(inside.value, 'deg', 0))
        : '',
      say(heel.value, 'mm', 0),
    ),
  };
}
