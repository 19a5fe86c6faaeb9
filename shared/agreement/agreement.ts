import { landmarks } from '../notation/landmarks.ts';
import type { LandmarkName } from '../notation/landmarks.ts';
import type { MeasureName } from '../measures/names.ts';
import { measures } from '../measures/registry.ts';
import type { MeasureUnit } from '../measures/unit.ts';
import { blandAltman, type PairAgreement } from './bland-altman.ts';
import { completeTable } from './complete-table.ts';
import { absoluteAgreement, consistency, type Intraclass } from './intraclass.ts';
import { meanSquares, type ReadingsTable } from './mean-squares.ts';
import { firstReadings, placesInFoot, valueIn, type FilmsRead, type OneReading, type ReadFilm } from './read-films.ts';
import { scatterEllipse, type ScatterEllipse } from './scatter-ellipse.ts';
import { smallestChange, spreadsOf, withinFilms, type Spreads, type WithinFilms } from './spreads.ts';

/** Why something is not computed. */
export const agreementLacks = ['one reader', 'one film', 'all the same'] as const;
export type AgreementLack = (typeof agreementLacks)[number];

/** Both correlations and the spreads, from the films that all of some readers (or one reader each time) have read. */
export interface TableAgreement {
  /** Columns of the table: readers, or how often one reader read each film. */
  readonly columns: number;
  readonly films: number;
  readonly absolute: Intraclass;
  readonly consistency: Intraclass;
  readonly spreads: Spreads;
}

export type TableOrLack = TableAgreement | { readonly lack: AgreementLack };

/** What two readings of one film came to. */
export interface FilmValues {
  readonly film: ReadFilm;
  readonly first: number;
  readonly second: number;
}

export interface ReaderPair extends PairAgreement {
  readonly first: string;
  readonly second: string;
  /** Film by film, what all of it is made of. */
  readonly values: readonly FilmValues[];
}

/** One person who read films more than once. */
export interface OwnRepeats {
  readonly reader: string;
  readonly spread: WithinFilms;
  /** Two single readings by this person of an unchanged foot differ by less in 95 of 100. */
  readonly smallestChange: number;
  readonly table: TableOrLack;
  /** The first time less the second time; null with one such film. */
  readonly times: Omit<ReaderPair, 'first' | 'second'> | null;
}

export interface MeasureAgreement {
  readonly kind: ReadFilm['kind'];
  readonly measure: MeasureName;
  readonly words: string;
  readonly unit: MeasureUnit;
  /** How many films each reader has a value on, those with the most first; films that one person alone has read are counted. */
  readonly readers: readonly { readonly reader: string; readonly films: number }[];
  /** How far first readings of one film lie apart, over all films with two readers; null where there is none. */
  readonly between: WithinFilms | null;
  readonly table: TableOrLack;
  /** Who stands in the table, where there is one. */
  readonly tableReaders: readonly string[];
  readonly pairs: readonly ReaderPair[];
  readonly own: readonly OwnRepeats[];
}

export interface LandmarkScatter {
  readonly kind: ReadFilm['kind'];
  readonly view: ReadFilm['view'];
  readonly landmark: LandmarkName;
  /** Of different readers, each one's first reading; null where too few have placed it. */
  readonly between: ScatterEllipse | null;
  /** Of the repeated readings of one person each, over all who have some. */
  readonly own: ScatterEllipse | null;
}

export interface Agreement {
  /** Films on which anything is placed, those that two people have read, and those that one has read more than once. */
  readonly films: number;
  readonly byTwo: number;
  readonly repeated: number;
  /** Readings that were left out as copies. */
  readonly copies: number;
  /** And as followed from the film before. */
  readonly followed: number;
  readonly readers: readonly string[];
  readonly measures: readonly MeasureAgreement[];
  readonly landmarks: readonly LandmarkScatter[];
  /** Films with several readings that have no scale or no ground, so that no landmark of them can be given in mm. */
  readonly notInMm: number;
}

/** All that repeated and several readings tell, over all films that are given. Pure. */
export function agreementOf(read: FilmsRead): Agreement {
  const { films } = read;
  const several = films.filter(({ readings }) => readings.size > 1);
  const repeated = films.filter(({ readings }) => [...readings.values()].some((all) => all.length > 1));
  return {
    films: films.length,
    byTwo: several.length,
    repeated: repeated.length,
    copies: read.copies,
    followed: read.followed,
    readers: [...new Set(films.flatMap(({ readings }) => [...readings.keys()]))],
    measures: (['film', 'photo'] as const).flatMap((kind) => {
      const ofKind = films.filter((film) => film.kind === kind);
      return measures.flatMap((measure) => measureAgreement(kind, measure, ofKind) ?? []);
    }),
    ...scatters(films),
  };
}

type MeasureOfAgreement = Pick<(typeof measures)[number], 'name' | 'words' | 'unit'>;

/** Null where no film has two values of it. */
function measureAgreement(
  kind: ReadFilm['kind'],
  { name, words, unit }: MeasureOfAgreement,
  films: readonly ReadFilm[],
): MeasureAgreement | null {
  const valueOf = (one: OneReading): number[] => {
    const value = valueIn(one, name);
    return value === null ? [] : [value];
  };
  const firsts = films.map(
    (film) =>
      new Map(
        [...firstReadings(film)].flatMap(([reader, one]) => valueOf(one).map((value) => [reader, value] as const)),
      ),
  );
  const counts = new Map<string, number>();
  for (const film of firsts) for (const reader of film.keys()) counts.set(reader, (counts.get(reader) ?? 0) + 1);
  const readers = [...counts].sort(([, a], [, b]) => b - a).map(([reader, count]) => ({ reader, films: count }));
  const own = readers.flatMap(({ reader }) =>
    ownRepeats(
      reader,
      films.map((film) => ({ film, values: (film.readings.get(reader) ?? []).flatMap(valueOf) })),
    ),
  );
  const between = withinFilms(firsts.map((film) => [...film.values()]));
  if (!between && own.length === 0) return null;
  const complete = completeTable(firsts);
  return {
    kind,
    measure: name,
    words,
    unit,
    readers,
    between,
    table: complete ? tableAgreement(complete.table) : { lack: between ? 'one film' : 'one reader' },
    tableReaders: complete?.readers ?? [],
    pairs: pairsOf(
      readers.map(({ reader }) => reader),
      films.map((film, at) => ({ film, values: firsts[at] ?? new Map<string, number>() })),
    ),
    own,
  };
}

function tableAgreement(table: ReadingsTable): TableOrLack {
  const squares = meanSquares(table);
  if (!squares) return { lack: 'one film' };
  const [absolute, consistent] = [absoluteAgreement(squares), consistency(squares)];
  if (!absolute || !consistent) return { lack: 'all the same' };
  return { columns: squares.k, films: squares.n, absolute, consistency: consistent, spreads: spreadsOf(squares) };
}

interface OwnValues {
  readonly film: ReadFilm;
  readonly values: readonly number[];
}

function ownRepeats(reader: string, read: readonly OwnValues[]): OwnRepeats[] {
  const films = read.map(({ values }) => values);
  const spread = withinFilms(films);
  if (!spread) return [];
  // The first and the second time, and so on: as many as give the most readings.
  const times = films.map((values) => new Map(values.map((value, time) => [String(time), value] as const)));
  const most = Math.max(...films.map(({ length }) => length));
  let best: readonly string[] = [];
  let readings = 0;
  for (let count = 2; count <= most; count++) {
    const common = films.filter(({ length }) => length >= count).length;
    if (common > 1 && common * count > readings) {
      readings = common * count;
      best = Array.from({ length: count }, (_, time) => String(time));
    }
  }
  const table = times
    .filter((film) => film.size >= best.length)
    .map((film) => best.map((time) => film.get(time) as number));
  return [
    {
      reader,
      spread,
      smallestChange: smallestChange(spread.sd),
      table: best.length > 0 ? tableAgreement(table) : { lack: 'one film' },
      times: compared(
        read.flatMap(({ film, values: [one, other] }) =>
          one === undefined || other === undefined ? [] : [{ film, first: one, second: other }],
        ),
      ),
    },
  ];
}

interface FirstValues {
  readonly film: ReadFilm;
  readonly values: ReadonlyMap<string, number>;
}

function pairsOf(readers: readonly string[], films: readonly FirstValues[]): ReaderPair[] {
  return readers.flatMap((first, place) =>
    readers.slice(place + 1).flatMap((second) => {
      const common = films.flatMap(({ film, values }) => {
        const [one, other] = [values.get(first), values.get(second)];
        return one === undefined || other === undefined ? [] : [{ film, first: one, second: other }];
      });
      const agreement = compared(common);
      return agreement ? [{ first, second, ...agreement }] : [];
    }),
  );
}

function compared(values: readonly FilmValues[]): OwnRepeats['times'] {
  const agreement = blandAltman(values.map(({ first, second }) => [first, second]));
  return agreement && { ...agreement, values };
}

function scatters(films: readonly ReadFilm[]): Pick<Agreement, 'landmarks' | 'notInMm'> {
  /** Of each film the readings that are held against each other, and where they lie in the foot. */
  const groups = films.flatMap((film) => {
    const firsts = [...firstReadings(film).values()];
    const repeats = [...film.readings.values()].filter((all) => all.length > 1);
    const between = firsts.length > 1 ? [{ film, own: false, readings: firsts }] : [];
    return [...between, ...repeats.map((readings) => ({ film, own: true, readings }))];
  });
  const laid = groups.map((group) => ({ ...group, places: placesInFoot(group.film, group.readings) }));
  const told = laid.filter(({ places }) => places !== null);
  const scatter = (kind: ReadFilm['kind'], view: ReadFilm['view'], landmark: LandmarkName, own: boolean) =>
    scatterEllipse(
      told
        .filter((one) => one.own === own && one.film.kind === kind && one.film.view === view)
        .map(({ places }) => places?.(landmark) ?? []),
    );
  return {
    landmarks: (['film', 'photo'] as const).flatMap((kind) =>
      landmarks.flatMap(({ word, view }): LandmarkScatter[] => {
        const [between, own] = [scatter(kind, view, word, false), scatter(kind, view, word, true)];
        return between || own ? [{ kind, view, landmark: word, between, own }] : [];
      }),
    ),
    notInMm: new Set(laid.filter(({ places }) => places === null).map(({ film }) => film)).size,
  };
}
