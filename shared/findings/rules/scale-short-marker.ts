import { fixed } from '../../language/figures.ts';
import { t } from '../../language/words.ts';
import type { Rule } from '../rule.ts';
import { readerWords } from './landmark-lines.ts';

/**
 * One standard deviation of the scale, per cent. At 2 per cent 100 mm are known to 4 mm in 19 of 20 films, and that error
 * is the same for every length of the film, so no care with the landmarks makes up for it. Judgement of ours.
 */
const most = 2;

export const scaleShortMarker: Rule = {
  code: 'scale/short-marker',
  severity: 'info',
  title: 'Marker too short for its error',
  about:
    'The ends of the scale marker are placed with an error like any point, and every length of the picture carries it in proportion. Beyond 2 per cent (one standard deviation; a judgement of ours, no source) the marker is too short, or its ends are placed too roughly.',
  *onReading({ film, readings }, reading) {
    const { frame } = reading.taking;
    if (film.scale?.kind !== 'marker' || !frame?.scale) return;
    if (reading !== readings.find(({ taking }) => taking.frame)) return;
    const percent = (100 * frame.graph.deviation(frame.scale)) / frame.scale.value;
    if (!(percent > most)) return;
    const { from, to } = film.scale.marker;
    const pixels = Math.hypot(to.x - from.x, to.y - from.y);
    // Both ends have the same spread, so the length between them has √2 of it.
    const placed = (percent / 100 / Math.SQRT2) * pixels;
    yield {
      at: film.scale.at,
      message: t(
        'The marker is {0} px long; with placing to {1} px{2} every length is known to {3} % only (one standard deviation; beyond {4} % is a judgement of ours). Use a longer marker, or place its ends more carefully and say so with +-.',
        fixed(pixels, 0),
        fixed(placed, 1),
        readerWords(reading),
        fixed(percent, 1),
        most,
      ),
      value: percent,
      limit: most,
      source: t('judgement of ours, no source'),
    };
  },
};
