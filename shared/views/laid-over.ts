import { wordList } from '../notation/word-list.ts';
import { t } from '../language/words.ts';
import { normalFoot } from '../drawing/foot/normal-foot.ts';
import type { FootOver } from '../drawing/foot/foot-over.ts';
import { alignment, type DigitAxis } from '../geometry/alignment.ts';
import { lineOf } from '../geometry/foot-axes.ts';
import type { XY } from '../geometry/vector.ts';
import type { JudgedAnimal } from '../reference/bands.ts';
import { withNormal } from '../reference/normal-parameters.ts';
import type { FilmName } from './film-choice.ts';
import type { FilmSheet } from './whole-sheet.ts';

/** What is laid over a film: the other foot on its picture, or the one sentence why it cannot be. */
export type LaidOver =
  | { readonly over: FootOver; readonly rests: readonly string[]; readonly says: null }
  | { readonly over: null; readonly rests: readonly []; readonly says: string };

/** As much of a film as is laid over another. */
export interface LaidFilm extends FilmName, Pick<FilmSheet, 'placed' | 'scale' | 'ground' | 'bearing'> {}

export function laidFilm(sheet: FilmSheet): LaidFilm {
  const { title, foot, view, kind, date, reader, line, endLine, picture, placed, scale, ground, bearing } = sheet;
  return { title, foot, view, kind, date, reader, line, endLine, picture, placed, scale, ground, bearing };
}

/** Why no normal foot is offered for this animal, in one sentence; null where there is one of its kind. */
export function whyNoNormal(animal: JudgedAnimal): string | null {
  const found = withNormal(animal);
  return typeof found === 'string' ? found : null;
}

/** A normal foot of this animal's kind and size, aligned on the coffin joint and P2. Lateral views only. */
export function normalOver(sheet: FilmSheet, animal: JudgedAnimal): LaidOver {
  const ofItsKind = withNormal(animal);
  if (typeof ofItsKind === 'string') return refused(ofItsKind);
  const own = axisOf(sheet);
  if (typeof own === 'string') return refused(own);
  const mm = (a: string, b: string): number | null => {
    const from = sheet.placed[a];
    const to = sheet.placed[b];
    return from && to ? Math.hypot(to.x - from.x, to.y - from.y) * own.scale : null;
  };
  const { places, rests } = normalFoot(sheet.foot, ofItsKind, {
    cortex: mm('p3.tip', 'p3.navicular'),
    p2: mm('coffin.centre', 'pastern.centre'),
    p1: mm('pastern.centre', 'fetlock.centre'),
  });
  const axis = axisIn(places, 1);
  const carry = axis && alignment(axis, own);
  if (!carry) return refused(noAxis());
  const ground = [places['heel.ground'], places['toe.ground']].flatMap((place) => (place ? [carry(place)] : []));
  return laid(t('A normal foot of this size'), places, carry, ground, rests);
}

/** Another film of a foot, at its own scale, aligned on the coffin joint and P2. */
export function filmOver(sheet: FilmSheet, other: LaidFilm): LaidOver {
  const own = axisOf(sheet);
  const theirs = axisOf(other);
  if (typeof own === 'string') return refused(own);
  if (typeof theirs === 'string') return refused(`${other.title}: ${theirs}`);
  const carry = alignment(theirs, own);
  if (!carry) return refused(noAxis());
  // It is drawn on its bearing plane, as this one is.
  const stands = lineOf(other);
  return laid(other.title, other.placed, carry, stands?.map(carry) ?? [], []);
}

const noAxis = (): string => t('The coffin joint and the pastern joint lie on one place: look at these two landmarks.');

function refused(says: string): LaidOver {
  return { over: null, rests: [], says };
}

function laid(
  words: string,
  places: Readonly<Record<string, XY>>,
  carry: (place: XY) => XY,
  [from, to]: readonly XY[],
  rests: readonly string[],
): LaidOver {
  const placed = new Map(Object.entries(places).map(([name, place]) => [name, carry(place)]));
  return { over: { words, placed, ground: from && to ? [from, to] : null }, rests, says: null };
}

/** The digit's axis, or what would have to be placed for it. */
function axisOf({ placed, scale, view }: Pick<FilmSheet, 'placed' | 'scale' | 'view'>): DigitAxis | string {
  if (view !== 'lateral') return t('Feet are laid over each other in the lateral view only.');
  const lacks = ['coffin.centre', 'pastern.centre', ...(dorsalOf(placed) ? [] : ['p3.tip'])].filter(
    (name) => !placed[name],
  );
  if (lacks.length > 0)
    return t(
      'Place {0}: the two feet are laid over each other by the coffin joint and the axis of P2.',
      wordList(lacks),
    );
  if (scale === null) return t('Give the film a scale: feet are compared in millimetres.');
  return axisIn(placed, scale) ?? noAxis();
}

function axisIn(places: Readonly<Record<string, XY>>, scale: number): DigitAxis | null {
  const coffin = places['coffin.centre'];
  const pastern = places['pastern.centre'];
  const dorsal = dorsalOf(places);
  return coffin && pastern && dorsal ? { coffin, pastern, dorsal, scale } : null;
}

function dorsalOf(places: Readonly<Record<string, XY>>): XY | undefined {
  return places['p3.tip'] ?? places['p3.extensor'] ?? places['toe.ground'] ?? places['coronet.dorsal'];
}
