import { fixed } from '../../language/figures.ts';
import { t } from '../../language/words.ts';
import { spreadInPixels } from '../../geometry/foot-input.ts';
import type { Rule } from '../rule.ts';
import { lineOf, readerWords } from './landmark-lines.ts';

/** One standard deviation, mm. Six times the usual one; a judgement of ours. */
const most = 3;

export const landmarkRough: Rule = {
  code: 'landmark/rough',
  severity: 'info',
  title: 'A placing that may be far off',
  about: `How far a placing may be off (one standard deviation: \`+-\` at its line or at its reader, else the setting) goes into the error of every measure, and what lies beyond a limit within its error is told more mildly. Beyond ${most} mm (a judgement of ours) it is told, so that nobody takes a mild word for a small matter: a thin sole whose landmark is placed to 5 mm is no thicker for it. Once a reading, at the roughest placing.`,
  *onReading(studied, reading) {
    const { film, readings } = studied;
    const { input, taking } = reading;
    if (taking.scale === null) return;
    const { scale } = taking;
    const usual = spreadInPixels(input, scale) * scale;
    const [roughest] = input.landmarks
      .flatMap(({ name, spread }) => (spread === null ? [] : [{ name, mm: spread * scale }]))
      .sort((a, b) => b.mm - a.mm);
    const told = (mm: number, what: string) =>
      t(
        '{0}{1} may be off by {2} mm (one standard deviation; beyond {3} mm is a judgement of ours). What rests on it is told more mildly than it would be otherwise.',
        what,
        readerWords(reading),
        fixed(mm, 1),
        most,
      );
    const numbers = { limit: most, source: t('judgement of ours, no source') };
    if (roughest && roughest.mm > most && !(usual > roughest.mm)) {
      const at = lineOf(roughest.name, studied, reading);
      yield { at, message: told(roughest.mm, t('This placing')), value: roughest.mm, ...numbers };
      return;
    }
    if (!(usual > most) || input.landmarks.length === 0) return;
    // The reader's own, or what is set for everybody, of which one reading of the film tells.
    const isOwn = reading.reading.spread !== null;
    if (!isOwn && reading !== readings.find((one) => one.reading.spread === null)) return;
    const at = isOwn && reading.reading.reader !== null ? reading.reading.at : film.head;
    const what = isOwn ? t('Every placing here') : t('By the setting of the placings every placing of this film');
    yield { at, message: told(usual, what), value: usual, ...numbers };
  },
};
