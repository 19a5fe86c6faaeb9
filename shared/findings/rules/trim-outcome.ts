import { counted, t } from '../../language/words.ts';
import type { MeasureName } from '../../measures/names.ts';
import { isLength } from '../../course/bones-of.ts';
import { changeOf, errorOfFilms, spreadOf } from '../../course/error-of-films.ts';
import { usualGrowth } from '../../reference/growth.ts';
import { animalOn } from '../../trim/case-animal.ts';
import type { StudiedCut, StudiedFilm, Study } from '../../trim/study.ts';
import type { Cut } from '../../record/schema.ts';
import { keptWhile } from '../../notation/kept-while.ts';
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
  const foundOn = found.day;
  const films = film ? [film, found] : [found];
  const doubt = sayDoubtOf(films, study);
  const before = sayTrims(earlier);
  const errors = errorOfFilms(study);
  const restsOn = [
    bare,
    day,
    before,
    doubt,
    found.readings,
    found.worn,
    found.bone,
    foundOn,
    films.some(isShod),
    study.change,
    animalOn(study.animal, foundOn).young,
    ...compared.flatMap((name) => [errors.ofFilms(name), errors.ofReadings(name)]),
  ];
  const message = sentenceOf(cut, restsOn, () => {
    const parts = compared.flatMap((name) => {
      const now = values.get(name);
      return (now && sayMeasure(bare, now, { found, cut, day, doubted: doubt !== '' }, study)) ?? [];
    });
    if (parts.length === 0) return null;
    return t(
      '{0}{1}On the next film, of {2}: {3}.{4}',
      doubt === '' ? '' : `${sentence(doubt)}. `,
      before === '' ? '' : t('With {0} before it. ', before),
      sayDay(foundOn),
      list(parts),
      films.some(isShod) ? t(' All is to the bearing plane, as if both were bare.') : '',
    );
  });
  if (message === null) return null;
  return {
    start: visit.start,
    at: cut.head,
    past: true,
    message,
    related: [
      {
        at: { start: found.visit.start + found.film.head.start, end: found.visit.start + found.film.head.end },
        message: t('The next film.'),
      },
    ],
  };
}

/** What became of each trim, in words: a case with many trims would make most of them anew at every keystroke. */
const sentenceOf = keptWhile<Cut, string | null>();

type BarePrediction = NonNullable<StudiedCut['bare']>;

interface Outcome {
  readonly cut: Cut;
  readonly day: number;
  readonly found: StudiedFilm;
  /** The scale of one of the two films is in doubt. */
  readonly doubted: boolean;
}

/** `palmar angle 4.0° predicted, 4.6° found (within the error)`; after a cut on two planes it is held against both ways to stand. */
function sayMeasure(bare: BarePrediction, now: Value, outcome: Outcome, study: Study): string | null {
  const { cut, day, found, doubted } = outcome;
  const { name } = now.measure;
  const predicted = bare.prediction.value(name);
  if (!predicted) return null;
  const onToe = bare.prediction.onToe?.value(name);
  const grown = name === 'heel-height' ? sayGrown(day, found.day ?? day, study) : '';
  return t(
    '{0} {1} predicted, {2} found ({3}{4})',
    wordsFor(now.measure, cut.foot),
    onToe
      ? t('{0} on its heels or {1} on its toe', say(predicted.value, now.unit), say(onToe.value, now.unit))
      : say(predicted.value, now.unit),
    say(now.value, now.unit),
    doubted && isLength(now.measure)
      ? t('scale in doubt')
      : onToe
        ? sayOffBoth([predicted, onToe], now, found, study)
        : sayOff(predicted, now, found, study),
    grown,
  );
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
