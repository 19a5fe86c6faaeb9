import { fixed } from '../language/figures.ts';
import type { HandMeasure } from '../measures/by-hand.ts';
import { t } from '../language/words.ts';
import { spoken } from '../language/rows.ts';
import type { MeasureName } from '../measures/names.ts';
import type { Trend } from '../course/course.ts';
import type { CourseSource } from '../course/course-sources.ts';
import type { GrowOut } from '../course/grow-out.ts';
import { LEVEL } from '../course/theil-sen.ts';
import { sayDate, sayPartOfMonth } from '../findings/wording/say-day.ts';
import { say } from '../findings/wording/wording.ts';
import type { MeasureUnit } from '../measures/unit.ts';
import type { Measure } from '../measures/registry.ts';
import { usualGrowth } from '../reference/growth.ts';

/** What a trend says, in words that need no course in statistics. */

/** What it is called when a value falls, and when it rises, before the figures. */
interface Ways {
  readonly less: string;
  readonly more: string;
}

const angle: Ways = spoken({ less: 'flatter by', more: 'steeper by' });
const layer: Ways = spoken({ less: 'thinner by', more: 'thicker by' });
const length: Ways = spoken({ less: 'shorter by', more: 'longer by' });
const height: Ways = spoken({ less: 'lower by', more: 'higher by' });
const inCapsule: Ways = spoken({ less: 'the bone higher by', more: 'the bone lower by' });

const depth: Ways = spoken({ less: 'shallower by', more: 'deeper by' });
const width: Ways = spoken({ less: 'narrower by', more: 'wider by' });

/** Of what only a hand takes. */
const waysByHand: Readonly<Record<string, Ways>> = {
  'groove-depth.apex': depth,
  'groove-depth.heel': depth,
  'white-line-width': width,
  'toe-height': height,
  'coronet-girth': spoken({ less: 'smaller by', more: 'larger by' }),
  'sole-ultrasound': layer,
};

const ways: Readonly<Partial<Record<MeasureName, Ways>>> = {
  'palmar-angle': angle,
  'wall-angle': angle,
  'bone-angle': angle,
  'heel-angle': angle,
  'coronet-angle': angle,
  'middle-angle': angle,
  'axis-angle': angle,
  'wall-angle.medial': angle,
  'wall-angle.lateral': angle,
  'founder-distance': inCapsule,
  'coronet-extensor': inCapsule,
  'founder-distance.level': inCapsule,
  'coronet-extensor.level': inCapsule,
  'sole-depth.tip': layer,
  'sole-depth.wing': layer,
  'horn-lamellar.upper': layer,
  'horn-lamellar.middle': layer,
  'horn-lamellar.lower': layer,
  'lamellar-zone.upper': layer,
  'lamellar-zone.middle': layer,
  'lamellar-zone.lower': layer,
  'toe-length': length,
  'bearing-length': length,
  'sole-length': length,
  'frog-length': length,
  'heel-height': height,
  'sole-depth.medial': height,
  'sole-depth.lateral': height,
  'grown-out': spoken({ less: 'goes back', more: 'grows' }),
};

/**
 * `flatter by 2.4° to 3.0° each four weeks; four films are too few to be sure`. Films that are enough, and lie in an order
 * such as chance seldom gives, need no more words; other orders are `perhaps flatter by …`. Where the films lie within their errors there is no clear trend.
 */
export function sayTrend(
  trend: Pick<Trend, 'source' | 'n' | 'low' | 'high' | 'level' | 'p' | 'certainty' | 'since'>,
  measure: Pick<Measure | HandMeasure, 'name' | 'unit'>,
): string {
  const since = trend.since === null ? '' : t('since the film of {0}, then seen by the vet: ', sayDate(trend.since));
  return `${since}${sayCourse(trend, measure)}`;
}

function sayCourse(
  trend: Pick<Trend, 'source' | 'n' | 'low' | 'high' | 'level' | 'p' | 'certainty'>,
  measure: Pick<Measure | HandMeasure, 'name' | 'unit'>,
): string {
  const few = trend.level < LEVEL;
  const doubt = few ? `; ${tooFew(trend)}` : '';
  const rate = trend.certainty === 'none' ? null : sayRate(trend, measure);
  if (rate === null) return t('no clear trend{0}', doubt);
  const isSure = trend.certainty === 'clear' && (few || trend.p < 0.05);
  return `${isSure ? '' : t('perhaps ')}${rate}${doubt}`;
}

/** Null where the trend may as well go the other way, or both its ends round to nothing. */
function sayRate(
  { low, high }: Pick<Trend, 'low' | 'high'>,
  { name, unit }: Pick<Measure | HandMeasure, 'name' | 'unit'>,
): string | null {
  if (low * high < 0) return null;
  const { less, more } = ways[name as MeasureName] ?? waysByHand[name] ?? { less: t('less by'), more: t('more by') };
  const falls = Math.abs(low) > Math.abs(high);
  const [least, most] = falls ? [high, low] : [low, high];
  const said = range(least, most, unit);
  return said && t('{0} {1} each four weeks', falls ? less : more, said);
}

/** `2.4° to 3.0°`, `6.8 to 8.0 mm`, `up to 0.5°`; one figure where both read alike; null where they are nothing. */
function range(least: number, most: number, unit: MeasureUnit): string | null {
  const [from, to] = [least, most].map((value) => say(Math.abs(value), unit)) as [string, string];
  if (!/[1-9]/.test(to)) return null;
  if (from === to) return to;
  return /[1-9]/.test(from) ? t('{0} to {1}', from.replace(/ .*$/, ''), to) : t('up to {0}', to);
}

const countWords = spoken(['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight']);

/** Where no order of so few films is so seldom by chance that the test could reach its level. */
const tooFew = ({ n, source }: Pick<Trend, 'n' | 'source'>): string =>
  t('{0} {1} are too few to be sure', countWords[n] ?? n, manyOf[source]);

const manyOf = spoken({ film: 'films', photo: 'photos', hand: 'values by hand' } satisfies Record<
  CourseSource,
  string
>);

function byWords(by: GrowOut['by']): string {
  switch (by) {
    case 'films':
      return '';
    case 'tape':
      return t(' This goes by the tape.');
    case 'usual':
      return t(
        ' This goes by what is usual, {0} to {1} mm a day: this foot has too few films or tapes to tell its own.',
        fixed(usualGrowth.slow, 2),
        usualGrowth.fast,
      );
  }
}

export function sayGrowOut(
  { date, early, late, by }: Pick<GrowOut, 'date' | 'early' | 'late' | 'by'>,
  trend: Pick<Trend, 'source' | 'n' | 'level'> | null,
): string {
  if (date === null) return t('The new wall has not come down: there is no date for it.');
  const from = early === null ? '' : t('{0} at the earliest', sayPartOfMonth(early));
  const to = late === null ? t('perhaps never at the slowest') : t('{0} at the latest', sayPartOfMonth(late));
  const doubt = by !== 'usual' && trend && trend.level < LEVEL ? `; ${tooFew(trend)}` : '';
  return t(
    'New wall reaches the ground about {0}; {1}{2}.{3}',
    sayPartOfMonth(date),
    [from, to].filter((part) => part).join(', '),
    doubt,
    byWords(by),
  );
}
