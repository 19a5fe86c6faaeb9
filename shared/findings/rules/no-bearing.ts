import { spoken } from '../../language/rows.ts';
import { t } from '../../language/words.ts';
import type { Rule } from '../rule.ts';
import { shodWords } from '../wording/shod-words.ts';

/** Of a shod foot both planes are wanted: what is trimmed is measured to one, how the foot stands to the other. */
export const noBearing: Rule = {
  code: 'frame/no-bearing',
  severity: 'info',
  title: 'Shod foot without its bearing plane',
  about:
    'A shod hoof does not stand on the ground but on its shoe. Heel height, the air under the sole and all that is trimmed are measured to the plane between hoof and shoe, the palmar angle to the ground. Without `bearing`, or without `ground`, what is measured to it is not judged, so that no shoe passes for air or for horn. The depth of the sole is judged all the same: from bone to sole it hardly matters which of the two planes it is square to.',
  *onReading({ film, readings, worn }, reading) {
    const { input, taking } = reading;
    if (film.view === 'solar' || !taking.frame || reading !== readings.find((one) => one.taking.frame)) return;
    const shod = input.isShod || input.bearing !== null;
    const lacks = (['bearing', 'ground'] as const).filter((line) => input[line] === null);
    if (!shod || lacks.length === 0) return;
    const wears = worn
      ? t('The foot wears: {0}.', shodWords(worn))
      : t('The foot is shod here, as it has a bearing plane.');
    yield {
      at: film.head,
      message: [wears, ...lacks.map((lack) => without[lack])].join(' '),
    };
  },
};

const without = spoken({
  bearing:
    'Place `bearing`, the plane between hoof and shoe: until then heights and the angles of the wall are not measured, and no cut is predicted.',
  ground: 'Place `ground`, what the shoe stands on: until then no angle of a bone to the ground is measured.',
});
