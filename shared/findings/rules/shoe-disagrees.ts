import { t } from '../../language/words.ts';
import { SURELY } from '../../course/change.ts';
import type { Value } from '../../measures/take.ts';
import type { WornItem } from '../../record/wearing.ts';
import type { StudiedFilm, StudiedReading } from '../../trim/study.ts';
import type { Remark, Rule } from '../rule.ts';
import { shodWords } from '../wording/shod-words.ts';
import { list, say } from '../wording/wording.ts';
import { belowGround, sayBelowGround } from '../wording/say-below-ground.ts';
import { readerWords } from './landmark-lines.ts';

/** A shoe wears down, and a pad gives way: as much less or more is no slip. Judgements of ours, no source. */
export const allowed = { mm: 3, deg: 2 } as const;

export const shoeDisagrees: Rule = {
  code: 'shoe/disagrees',
  severity: 'hint',
  title: 'The shoe on the film is not the one that is written',
  about:
    'What lies between bearing plane and ground on the film is thicker, thinner or wedged otherwise than the lines of `shoe`, `pad` and `cast` say: a slip in the scale, in one of the two lines, or another shoe. A thickness counts as right anywhere between that under the toe and that under the heel. Told from 3 mm and 2 degrees (judgements of ours, no source), where it is more than the error of placing.',
  *onReading(film, reading) {
    const upsideDown = groundAbove(film, reading);
    if (upsideDown) yield upsideDown;
    else yield* differing(film, reading);
  },
};

function groundAbove(film: StudiedFilm, reading: StudiedReading): Remark | null {
  const ends = belowGround(reading);
  const [first] = ends;
  if (!first) return null;
  return {
    at: bearingAt(film),
    severity: 'warning',
    message: t(
      'The bearing plane lies below the ground{0}: {1}. The ground is under the shoe. Look at both lines and place what is off again.',
      readerWords(reading),
      sayBelowGround(ends),
    ),
    measure: first.value.measure.name,
    value: first.value.value,
    limit: 0,
    source: 'geometry',
  };
}

/** What is told where the film shows another shoe than the one that is written. */
export function* differing(film: StudiedFilm, reading: StudiedReading): Iterable<Remark> {
  const { worn } = film;
  const { values } = reading.taking;
  // Boots are pulled off for a film.
  const items = worn?.items.filter(({ kind }) => kind !== 'boots') ?? [];
  if (!worn || items.length === 0) return;
  const parts = [...thickness(items, values.get('shoe-thickness.toe'), values.get('shoe-thickness.heel'))];
  parts.push(...wedge(items, values.get('shoe-wedge')));
  const [first] = parts;
  if (!first) return;
  yield {
    at: bearingAt(film),
    message: t(
      'On the film{0} what the foot wears {1}; what is written is: {2}. Look at the two ends of `bearing` and of `ground`, at the scale, and at the line of the shoe.',
      readerWords(reading),
      list(parts.map(({ words }) => words)),
      shodWords({ items }),
    ),
    measure: first.value.measure.name,
    value: first.value.value,
    limit: first.told,
    source: t('judgement of ours, no source'),
  };
}

interface Disagreement {
  readonly words: string;
  readonly value: Value;
  readonly told: number;
}

/** Said anywhere between toe and heel it is right. What has no thickness of its own may make it thicker. */
function thickness(items: readonly WornItem[], toe: Value | undefined, heel: Value | undefined): Disagreement[] {
  const told = sum(items.map((item) => item.thickness?.base ?? null));
  if (told === null || !toe || !heel) return [];
  const [least, most] = toe.value < heel.value ? [toe, heel] : [heel, toe];
  const isWhole = items.every((item) => item.thickness !== null);
  const words = t('is {0} thick at the toe and {1} at the heel', say(toe.value, 'mm'), say(heel.value, 'mm'));
  if (told - most.value > Math.max(allowed.mm, SURELY * most.sd)) return [{ words, value: most, told }];
  const isThicker = least.value - told > Math.max(allowed.mm, SURELY * least.sd);
  return isWhole && isThicker ? [{ words, value: least, told }] : [];
}

function wedge(items: readonly WornItem[], seen: Value | undefined): Disagreement[] {
  const told = sum(items.map((item) => item.wedge?.base ?? null));
  if (told === null || !seen) return [];
  const off = Math.abs(seen.value - told);
  if (!(off > Math.max(allowed.deg, SURELY * seen.sd))) return [];
  const raises = seen.value < 0 ? t('the toe') : t('the heel');
  return [{ words: t('raises {0} by {1}', raises, say(Math.abs(seen.value), 'deg')), value: seen, told }];
}

function sum(parts: readonly (number | null)[]): number | null {
  const given = parts.filter((part) => part !== null);
  return given.length === 0 ? null : given.reduce((all, one) => all + one, 0);
}

const bearingAt = ({ film }: StudiedFilm) => film.bearing?.at ?? film.head;
