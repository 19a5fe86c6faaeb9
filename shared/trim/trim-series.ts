import { dayNumber } from '../notation/dates.ts';
import { countWhile } from '../notation/count-while.ts';
import type { Cut, Placed, Visit } from '../record/schema.ts';
import { isBefore, momentOf, type FilmSeries, type When } from './film-series.ts';
import { isBent, isNothing, takesNothing, type CutSize, type TakenBefore } from './stand.ts';
import type { StudiedFilm } from './studied.ts';

/** What a cut at a moment is laid on: the newest film before it, and what came off that foot between the two, in order. */
export interface CutBasis {
  readonly film: StudiedFilm | null;
  /** Trims with millimetres. */
  readonly earlier: readonly EarlierTrim[];
  /** Trims that give none: nobody can tell what they took, so they count as nothing. */
  readonly unmeasured: readonly EarlierTrim[];
  /** Trims with millimetres at the visit of the cut, by its day, in order: those that the film shows done as well. */
  readonly sameVisit: readonly EarlierTrim[];
  /** Why the foot cannot be followed from the film to the cut; null where it can. */
  readonly lost: LostFoot | null;
}

/** A foot that nobody can tell how it stands before its next film. */
export type LostFoot =
  /** More trims than a foot can be followed through. */
  | { readonly kind: 'too many' }
  /** A trim left two planes: on which of them the foot stands, and what wears off there, nobody knows. */
  | { readonly kind: 'two planes'; readonly trim: EarlierTrim };

export interface EarlierTrim {
  readonly visit: Placed<Visit>;
  readonly cut: Cut;
}

/** Nobody trims a foot oftener without a new film; a foot that was is known no more, and each step costs. */
const mostTrims = 20;

interface TrimAt extends EarlierTrim, When {}

/** The trims of each foot in the order of their days; of one day, in the order of the text. */
export class TrimSeries {
  private readonly byFoot = new Map<string, TrimAt[]>();
  private readonly films: FilmSeries;

  constructor(visits: readonly Placed<Visit>[], films: FilmSeries) {
    this.films = films;
    for (const visit of visits) {
      const { date, cuts } = visit.is;
      const day = date === null ? null : dayNumber(date);
      if (day === null) continue;
      for (const cut of cuts)
        if (cut.kind === 'trim') this.of(cut.foot).push({ visit, cut, day, at: visit.start + cut.head.start });
    }
    for (const trims of this.byFoot.values()) trims.sort((a, b) => a.day - b.day || a.at - b.at);
  }

  /** What a cut of a foot is laid on at a moment. */
  basis(foot: string, moment: When): CutBasis {
    const film = this.films.before(foot, 'lateral', moment);
    const from = film && momentOf(film);
    const earlier: EarlierTrim[] = [];
    const unmeasured: EarlierTrim[] = [];
    const trims = this.byFoot.get(foot) ?? [];
    const end = countWhile(trims, (trim) => isBefore(trim, moment));
    const sameVisit = this.atVisit(trims, moment.day, end);
    if (from === null) return { film, earlier, unmeasured, sameVisit, lost: null };
    const begin = countWhile(trims, (trim) => isBefore(trim, from));
    const tooMany = end - begin > mostTrims;
    for (const { visit, cut } of trims.slice(tooMany ? end : begin, end))
      (takesNothing(sizeOf(cut)) ? unmeasured : earlier).push({ visit, cut });
    const bent = earlier.find((trim) => isBent(sizeOf(trim.cut)));
    const lost: LostFoot | null = tooMany ? { kind: 'too many' } : bent ? { kind: 'two planes', trim: bent } : null;
    return { film, earlier, unmeasured, sameVisit, lost };
  }

  /** The trims of a foot from one moment to another, in order. */
  between(foot: string, from: When, until: When): readonly EarlierTrim[] {
    return (this.byFoot.get(foot) ?? []).filter((trim) => !isBefore(trim, from) && isBefore(trim, until));
  }

  /** Of a day, up to `end`. */
  private atVisit(trims: readonly TrimAt[], day: number, end: number): readonly EarlierTrim[] {
    let begin = end;
    while (begin > 0 && trims[begin - 1]?.day === day) begin--;
    if (begin === end) return [];
    return trims.slice(begin, end).flatMap(({ visit, cut }) => (takesNothing(sizeOf(cut)) ? [] : [{ visit, cut }]));
  }

  /** The last trim before a moment that says in millimetres what came off heel or toe. */
  lastBefore(foot: string, moment: When): EarlierTrim | null {
    const trims = this.byFoot.get(foot) ?? [];
    for (let index = countWhile(trims, (trim) => isBefore(trim, moment)) - 1; index >= 0; index--)
      if (!isNothing(sizeOf((trims[index] as TrimAt).cut))) return trims[index] ?? null;
    return null;
  }

  private of(foot: string): TrimAt[] {
    let trims = this.byFoot.get(foot);
    if (!trims) this.byFoot.set(foot, (trims = []));
    return trims;
  }
}

/**
 * Trims whose turn and height count with those of a cut, by what one visit may do. A plan counts alone: one that stands below a trim
 * of its day is for the visit after.
 */
export const inOneVisitWith = ({ cut, sameVisit }: { cut: Pick<Cut, 'kind'>; sameVisit: readonly EarlierTrim[] }) =>
  cut.kind === 'trim' ? sameVisit : [];

/** What has come off the foot of a film where a cut is laid on it. */
export function takenBefore(cut: Pick<Cut, 'kind'>, basis: Pick<CutBasis, 'earlier' | 'sameVisit'>): TakenBefore {
  const { earlier } = basis;
  const sameVisit = inOneVisitWith({ cut, sameVisit: basis.sameVisit });
  if (sameVisit.length === 0) return { earlier: sizesOf(earlier) };
  const sinceFilm = sameVisit.filter((trim) =>
    earlier.some(({ visit, cut }) => visit === trim.visit && cut === trim.cut),
  ).length;
  const beforeFilm = sizesOf(sameVisit.slice(0, sameVisit.length - sinceFilm));
  return { earlier: sizesOf(earlier), atVisit: { sinceFilm, beforeFilm } };
}

const sizesOf = (trims: readonly EarlierTrim[]): CutSize[] => trims.map(({ cut }) => sizeOf(cut));

/** mm. */
export function sizeOf({ heelDown, heelFrom, toeDown, toeBack, insideDown, outsideDown }: Cut): CutSize {
  return {
    heelDown: heelDown?.base ?? 0,
    ...(heelFrom && { heelFrom: heelFrom.base }),
    toeDown: toeDown?.base ?? 0,
    toeBack: toeBack?.base ?? 0,
    ...(insideDown && { insideDown: insideDown.base }),
    ...(outsideDown && { outsideDown: outsideDown.base }),
  };
}
