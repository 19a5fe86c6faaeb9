import { sayChoice } from '../../language/choice-words.ts';
import { wordList } from '../../notation/word-list.ts';
import { t } from '../../language/words.ts';
import type { MeasureName } from '../../measures/names.ts';
import { handSpread } from '../../measures/hand-spread.ts';
import { findMeasure } from '../../measures/registry.ts';
import type { Value } from '../../measures/take.ts';
import type { StudiedFilm, StudiedReading } from '../../trim/study.ts';
import { counts } from '../limits/fitting-units.ts';
import type { Rule } from '../rule.ts';
import { footWords, say, sayApart, sayPlusMinus, sentence, wordsFor } from '../wording/wording.ts';
import { SURELY } from '../../course/change.ts';
import { readerWords } from './landmark-lines.ts';

interface Seen {
  readonly film: StudiedFilm;
  readonly reading: StudiedReading;
  readonly value: Value;
  readonly off: number;
  readonly allowed: number;
}

export const tapeDisagrees: Rule = {
  code: 'tape/disagrees',
  severity: 'warning',
  title: 'Tape and picture disagree',
  about:
    'What the hand measured and what the picture of the same foot and visit gives differ by more than the errors of both allow: one of the two is wrong. The hand is taken to be good to 2 mm (a tape round the coronet was, J Equine Vet Sci 2022;115:104028, for other lengths a hint only) and to 2 degrees (a judgement of ours).',
  *onVisit({ visit, films }) {
    for (const tape of visit.is.tapes)
      for (const { measure: name, quantity, at } of tape.values) {
        const measure = findMeasure(name);
        // A share is made of two lengths, with an error that depends on both, so it is not compared.
        const hand = measure && measure.unit !== '%' ? handSpread(measure) : null;
        if (!measure?.byHand || hand === null || !counts(measure, quantity)) continue;
        const seen = films
          .filter((film) => film.film.foot === tape.foot)
          .flatMap((film) =>
            film.readings.flatMap((reading) => seenIn(film, reading, measure.name, quantity.base, hand)),
          );
        // Of two films, before and after a trim, the tape need fit only one.
        const [nearest] = seen.toSorted((a, b) => a.off / a.allowed - b.off / b.allowed);
        if (!nearest || nearest.off <= nearest.allowed) continue;
        const { film, reading, value, off, allowed } = nearest;
        yield {
          at,
          measure: measure.name,
          value: value.value,
          limit: quantity.base,
          message: t(
            '{0}, {1}: by hand {2}, from the {3}{4} {5}. They differ by {6}; the errors of both allow {7}. Measure again by hand, then look at {8}{9}',
            sentence(wordsFor(measure, tape.foot)),
            footWords[tape.foot],
            say(quantity.base, value.unit),
            sayChoice(film.film.kind),
            readerWords(reading),
            sayPlusMinus(value),
            ...sayApart(off, allowed, value.unit),
            wordList(value.measure.needs),
            value.measure.kind === 'length'
              ? t(' and at the scale: does the marker lie in the plane of the foot?')
              : '.',
          ),
          related: [
            {
              at: { start: film.visit.start + film.film.head.start, end: film.visit.start + film.film.head.end },
              message: t('The {0} that it is compared with.', sayChoice(film.film.kind)),
            },
          ],
        };
      }
  },
};

function seenIn(film: StudiedFilm, reading: StudiedReading, name: MeasureName, byHand: number, hand: number): Seen[] {
  const value = reading.taking.values.get(name);
  if (!value) return [];
  const off = Math.abs(value.value - byHand);
  return [{ film, reading, value, off, allowed: SURELY * Math.hypot(value.sd, hand) }];
}
