import { hasOwnScale, judgedBones, median, spreadOfMedian, steadyLengths } from './bone-lengths.ts';
import type { KnownLength } from '../geometry/foot-input.ts';
import type { FootName } from '../notation/choices.ts';
import { hasGrownBones, type Ages } from './case-animal.ts';
import type { FilmSeries } from './film-series.ts';
import type { BoneScale, StudiedFilm } from './studied.ts';

/** One standard deviation of a scale from the bones, at least, as a share: from the same foot, or from the other of the pair. Judgements of ours. */
export const leastSpread = { foot: 0.03, pair: 0.06 } as const;

export const otherFoot = { LF: 'RF', RF: 'LF', LH: 'RH', RH: 'LH' } as const;

/** What `scale bone` comes to by the films that have a scale of their own and are not accused; found out once for a foot. */
export class BoneScales {
  private readonly series: FilmSeries;
  private readonly animal: Ages;
  private readonly known = new Map<FootName, Known>();
  private readonly scales = new Map<FootName, BoneScale>();

  constructor(series: FilmSeries, animal: Ages) {
    this.series = series;
    this.animal = animal;
  }

  of({ film, day }: StudiedFilm): BoneScale {
    if (film.kind !== 'film') return { lack: 'no film' };
    if (film.view !== 'lateral') return { lack: 'view' };
    if (!hasGrownBones(this.animal, day)) return { lack: 'young' };
    const { foot } = film;
    let scale = this.scales.get(foot);
    if (!scale) this.scales.set(foot, (scale = this.ofFoot(foot)));
    return scale;
  }

  private ofFoot(foot: FootName): BoneScale {
    for (const [from, one] of [
      ['foot', foot],
      ['pair', otherFoot[foot]],
    ] as const) {
      const { lengths, sd, films } = this.knownOf(one);
      if (lengths === null) continue;
      return { input: { kind: 'bone', lengths, relativeSd: Math.max(leastSpread[from], sd) }, from, films };
    }
    return { lack: this.knownOf(foot).contradict ? 'contradict' : 'alone' };
  }

  private knownOf(foot: FootName): Known {
    let known = this.known.get(foot);
    if (!known)
      this.known.set(foot, (known = knownLengths(this.series.of(foot, 'lateral').filter(hasOwnScale), this.animal)));
    return known;
  }
}

interface Known {
  /** The median of each; null where fewer than two of them are known, as one alone may have an end placed elsewhere. */
  readonly lengths: readonly KnownLength[] | null;
  /** As a share of the lengths. */
  readonly sd: number;
  /** How many films they are taken from. */
  readonly films: number;
  /** There are two films, and nothing tells which of them is wrong. */
  readonly contradict: boolean;
}

function knownLengths(films: readonly StudiedFilm[], animal: Ages): Known {
  const bones = judgedBones(films, animal);
  const sizes = bones.flatMap(({ size, accused }) => (accused ? [] : [size]));
  const lengths = steadyLengths.flatMap(({ from, to }, length) => {
    const all = sizes.flatMap(({ mm }) => mm[length] ?? []);
    return all.length === 0 ? [] : [{ from, to, mm: median(all) }];
  });
  return {
    lengths: lengths.length < 2 ? null : lengths,
    sd: spreadOfMedian(sizes),
    films: sizes.length,
    contradict: bones.length === 2 && bones.every(({ accused }) => accused),
  };
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
