import type { MeasureName } from '../../measures/names.ts';
import { SURELY } from '../../course/change.ts';
import type { StudiedCut, StudiedFilm } from '../../trim/study.ts';
import type { Rule, RuleContext } from '../rule.ts';
import { list, say, wordsFor } from '../wording/wording.ts';

const compared: readonly MeasureName[] = ['palmar-angle', 'sole-depth.tip', 'heel-height'];

/** Not a warning: what became of a trim, once the next film shows it. */
export const trimOutcome: Rule = {
  code: 'trim/outcome',
  severity: 'hint',
  title: 'What became of a trim',
  about:
    'Once the next film of the foot is there, what was predicted is held against what was found. Growth since the trim is in the difference, so much of it is no error.',
  *onCut(studied, study) {
    const { cut, prediction } = studied;
    const found = nextFilm(studied, study);
    const values = found?.readings.find(({ taking }) => taking.frame)?.taking.values;
    const { heelDown, toeDown, toeBack } = studied.size;
    if (heelDown + toeDown + toeBack === 0) return;
    if (cut.kind !== 'trim' || !prediction || !found || !values) return;
    const words = compared.flatMap((name) => {
      const predicted = prediction.value(name);
      const now = values.get(name);
      if (!predicted || !now) return [];
      const off = now.value - predicted.value;
      const within = Math.abs(off) <= SURELY * Math.hypot(now.sd, predicted.sd);
      return [
        `${wordsFor(now.measure, cut.foot)} ${say(predicted.value, now.unit)} predicted, ${say(now.value, now.unit)} found (${within ? 'within the error' : `${say(Math.abs(off), now.unit)} ${off > 0 ? 'more' : 'less'}`})`,
      ];
    });
    if (words.length === 0) return;
    yield {
      at: cut.head,
      message: `On the next film, of ${found.film.taken ?? found.visit.is.date}: ${list(words)}.`,
      related: [
        {
          at: { start: found.visit.start + found.film.head.start, end: found.visit.start + found.film.head.end },
          message: 'The next film.',
        },
      ],
    };
  },
};

function nextFilm({ cut, day }: StudiedCut, { series }: RuleContext): StudiedFilm | null {
  return day === null ? null : series.following(cut.foot, 'lateral', day);
}
