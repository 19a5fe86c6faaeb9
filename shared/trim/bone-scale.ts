import { hasOwnScale, judgedBones, median, spreadOfMedian, steadyLengths } from './bone-lengths.ts';
import { hasGrownBones, type Ages } from './case-animal.ts';
import type { FilmSeries } from './film-series.ts';
import type { BoneScale, StudiedFilm } from './studied.ts';

/** One standard deviation of a scale from the bones, at least, as a share: from the same foot, or from the other of the pair. Judgements of ours. */
export const leastSpread = { foot: 0.03, pair: 0.06 } as const;

export const otherFoot = { LF: 'RF', RF: 'LF', LH: 'RH', RH: 'LH' } as const;

/** What `scale bone` of a film comes to by the films that have a scale of their own and are not accused. */
export function boneScaleOf({ film, day }: StudiedFilm, series: FilmSeries, animal: Ages): BoneScale {
  if (film.kind !== 'film') return { lack: 'no film' };
  if (film.view !== 'lateral') return { lack: 'view' };
  if (!hasGrownBones(animal, day)) return { lack: 'young' };
  for (const [from, foot] of [
    ['foot', film.foot],
    ['pair', otherFoot[film.foot]],
  ] as const) {
    const found = knownLengths(series.of(foot, 'lateral').filter(hasOwnScale), animal);
    if (!found) continue;
    const relativeSd = Math.max(leastSpread[from], found.sd);
    return { input: { kind: 'bone', lengths: found.lengths, relativeSd }, from, films: found.films };
  }
  const own = judgedBones(series.of(film.foot, 'lateral').filter(hasOwnScale), animal);
  return { lack: own.length === 2 && own.every(({ accused }) => accused) ? 'contradict' : 'alone' };
}

/** The median of each length; null where fewer than two of them are known, as one alone may have an end placed elsewhere. */
function knownLengths(films: readonly StudiedFilm[], animal: Ages) {
  const sizes = judgedBones(films, animal).flatMap(({ size, accused }) => (accused ? [] : [size]));
  const lengths = steadyLengths.flatMap(({ from, to }, length) => {
    const all = sizes.flatMap(({ mm }) => mm[length] ?? []);
    return all.length === 0 ? [] : [{ from, to, mm: median(all) }];
  });
  return lengths.length < 2 ? null : { lengths, sd: spreadOfMedian(sizes), films: sizes.length };
}

export function sameBoneScale(one: BoneScale, other: BoneScale | null): boolean {
  if (!other) return false;
  if ('lack' in one || 'lack' in other) return 'lack' in one && 'lack' in other && one.lack === other.lack;
  return (
    one.from === other.from &&
    one.films === other.films &&
    one.input.relativeSd === other.input.relativeSd &&
    one.input.lengths.length === other.input.lengths.length &&
    one.input.lengths.every(({ from, to, mm }, index) => {
      const was = other.input.lengths[index];
      return was !== undefined && was.from === from && was.to === to && was.mm === mm;
    })
  );
}
