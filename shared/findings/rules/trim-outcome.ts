import { counted, t } from '../../language/words.ts';
import type { MeasureName } from '../../measures/names.ts';
import { accusationOf, isLength } from '../../course/bones-of.ts';
import { changeOf, spreadOf } from '../../course/error-of-films.ts';
import { usualGrowth } from '../../reference/growth.ts';
import { animalOn } from '../../trim/case-animal.ts';
import type { StudiedCut, StudiedFilm, Study } from '../../trim/study.ts';
import { bareFoot } from '../../geometry/planes.ts';
import { valuesIn, type Value, type Values } from '../../measures/take.ts';
import { momentOf } from '../../trim/film-series.ts';
import { sayTrims } from '../wording/say-trims.ts';
import type { CaseRemark, Rule } from '../rule.ts';
import { sayDoubtOf } from '../wording/say-bones.ts';
import { sayDay } from '../wording/say-day.ts';
import { list, say, sentence, wordsFor } from '../wording/wording.ts';

const compared: readonly MeasureName[] = ['palmar-angle', 'sole-depth.tip', 'heel-height'];

/** Not a warning: what became of a trim, once the next film shows it. */
export const trimOutcome: Rule = {
  code: 'trim/outcome',
  severity: 'hint',
  title: 'What became of a trim',
  about:
    'Once the next film of the foot is there, what was predicted is held against what was found. A difference is called one where it is clear: more than its error, and more than two films of an unchanged foot differ by. Growth since the trim is in it, so much of it is no error.',
  *onCase(study) {
    for (const cut of study.cuts) {
      const remark = ofCut(cut, study);
      if (remark) yield remark;
    }
  },
};

function ofCut(studied: StudiedCut, study: Study): CaseRemark | null {
  // Of the bare foot: between the two films the shoe has come off, and another has perhaps been put on.
  const { cut, visit, day, film, bare, earlier } = studied;
  const { heelDown, toeDown, toeBack } = studied.size;
  if (cut.kind !== 'trim' || day === null || !bare || heelDown + toeDown + toeBack === 0) return null;
  const found = study.series.after(cut.foot, 'lateral', { day, at: visit.start + cut.head.start });
  // Of several trims before one film the last foretells what all of them leave.
  if (found && !isLastBefore(found, studied, study)) return null;
  const values = found && bareValues(found);
  if (!found || found.day === null || !values) return null;
  const films = film ? [film, found] : [found];
  const doubted = films.some((one) => accusationOf(one, study) !== null);
  const words = compared.flatMap((name) => {
    const predicted = bare.prediction.value(name);
    const now = values.get(name);
    if (!predicted || !now) return [];
    const onToe = bare.prediction.onToe?.value(name);
    const said =
      doubted && isLength(now.measure)
        ? t('scale in doubt')
        : onToe
          ? sayOffBoth([predicted, onToe], now, found, study)
          : sayOff(predicted, now, found, study);
    const grown = name === 'heel-height' ? sayGrown(day, found.day ?? day, study) : '';
    return [
      t(
        '{0} {1} predicted, {2} found ({3}{4})',
        wordsFor(now.measure, cut.foot),
        onToe
          ? t('{0} on its heels or {1} on its toe', say(predicted.value, now.unit), say(onToe.value, now.unit))
          : say(predicted.value, now.unit),
        say(now.value, now.unit),
        said,
        grown,
      ),
    ];
  });
  if (words.length === 0) return null;
  const doubt = sayDoubtOf(films, study);
  const shod = films.some(isShod) ? t(' All is to the bearing plane, as if both were bare.') : '';
  const withEarlier = earlier.length === 0 ? '' : t('With {0} before it. ', sayTrims(earlier));
  return {
    start: visit.start,
    at: cut.head,
    past: true,
    message: t(
      '{0}{1}On the next film, of {2}: {3}.{4}',
      doubt === '' ? '' : `${sentence(doubt)}. `,
      withEarlier,
      sayDay(found.day),
      list(words),
      shod,
    ),
    related: [
      {
        at: { start: found.visit.start + found.film.head.start, end: found.visit.start + found.film.head.end },
        message: t('The next film.'),
      },
    ],
  };
}

const isShod = ({ film }: StudiedFilm): boolean => film.bearing !== null;

function bareValues({ readings, film, worn }: StudiedFilm): Values | null {
  const taking = readings.find(({ taking: { frame } }) => frame)?.taking;
  // Most are bare, and need no second look.
  if (taking && !film.bearing && !worn) return taking.values;
  const frame = taking?.frame && bareFoot(taking.frame);
  if (!taking || !frame) return null;
  return frame === taking.frame ? taking.values : valuesIn('lateral', frame);
}

function isLastBefore(found: StudiedFilm, { cut, visit }: StudiedCut, { trims }: Study): boolean {
  const moment = momentOf(found);
  const last = moment && trims.lastBefore(cut.foot, moment);
  // Two visits of one text share their cuts.
  return last === null || (last.cut === cut && last.visit === visit);
}

function sayOff(predicted: Value, now: Value, found: StudiedFilm, study: Study): string {
  const known = { value: now.value, sd: spreadOf(now, study, found) };
  const { difference, clear } = changeOf(predicted, known, now.measure, study);
  if (!clear) return t('within the error');
  const amount = say(Math.abs(difference), now.unit);
  return difference > 0 ? t('{0} more', amount) : t('{0} less', amount);
}

/** A foot on two planes stood on one of them, or wore to something between. */
function sayOffBoth(predicted: readonly [Value, Value], now: Value, found: StudiedFilm, study: Study): string {
  const [heels, toe] = predicted;
  const [low, high] = heels.value < toe.value ? [heels, toe] : [toe, heels];
  if (now.value > low.value && now.value < high.value) return t('between the two');
  return sayOff(now.value <= low.value ? low : high, now, found, study);
}

/** What wall usually grows between two days; empty for an animal that is not grown, whose wall nobody can tell. */
function sayGrown(from: number, to: number, { animal }: Study): string {
  const days = to - from;
  if (animalOn(animal, to).young) return '';
  const [least, most] = [usualGrowth.slow, usualGrowth.fast].map((rate) => (rate * days).toFixed(0));
  return t(
    '; in {0} {1}{2} mm may have grown',
    counted(days, 'one day', '{0} days'),
    least === most ? '' : t('{0} to ', least),
    most,
  );
}
