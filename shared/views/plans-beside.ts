import { bounds } from '../drawing/bounds.ts';
import { drawPlate } from '../drawing/plate/plate.ts';
import { without } from '../drawing/alone.ts';
import type { Box, Scene } from '../drawing/scene.ts';
import { t } from '../language/words.ts';
import type { LaidFilm } from './laid-over.ts';
import type { LessonSheet } from './lesson-sheet.ts';
import { cutOnPlate, cutTitle } from './plate-of.ts';
import type { CutSheet, FilmSheet } from './whole-sheet.ts';

/** A plan with the foot that it is drawn on. */
export interface PlanBeside {
  readonly title: string;
  readonly cut: CutSheet;
  readonly film: Pick<LaidFilm, 'foot' | 'view' | 'placed' | 'ground' | 'bearing' | 'scale'>;
}

/** More on one film nobody compares at a glance. */
const MOST = 4;

/**
 * The plans of a film that are to be seen beside each other: those that the case has, the last few, and once the key of a lesson is
 * shown the key's, each on its own places. Fewer than two are none.
 */
export function plansBeside(sheet: FilmSheet, lesson: LessonSheet | null): readonly PlanBeside[] {
  const drawn = (cuts: readonly CutSheet[]): CutSheet[] =>
    cuts.filter(({ kind, after }) => kind === 'plan' && after !== null);
  const marks = lesson?.marks ?? null;
  const own = drawn(sheet.cuts).map((cut): PlanBeside => ({ title: cutTitle(cut), cut, film: sheet }));
  const keys = drawn(marks?.cuts ?? []).flatMap((cut): PlanBeside[] =>
    marks?.film ? [{ title: t('The key: {0}', cut.cut), cut, film: marks.film }] : [],
  );
  const all = [...own.slice(-MOST), ...keys.slice(-MOST)].slice(-MOST);
  return all.length < 2 ? [] : all;
}

/** Each as a drawing without values. All have one frame, in pixels of the picture that they share, so that they are drawn at one scale. */
export function planScenes(plans: readonly PlanBeside[]): readonly Scene[] {
  const scenes = plans.map(({ cut, film }) => {
    const { foot, view, ground, bearing, scale } = film;
    const placed = new Map(Object.entries(film.placed));
    const input = { foot, view, placed, ground, bearing, scale, marker: null, picture: null, labels: [] };
    return without(drawPlate({ ...input, cut: cutOnPlate(cut), lettering: LETTERING }), ['soft', 'landmarks']);
  });
  const views = plans.map((plan, index) => hoofIn(scenes[index] as Scene, plan));
  const view = views.reduce(around);
  return scenes.map((scene) => ({ ...scene, view }));
}

/** In half a pane letters of the usual size would be too small to read. */
const LETTERING = 1.5;

/** What a cut is about lies below the hairline: the pastern above it only takes room. */
function hoofIn({ view, layers }: Scene, { film }: PlanBeside): Box {
  const hoof = bounds(layers.filter(({ data }) => data?.layer === 'capsule'));
  if (film.view !== 'lateral' || !hoof) return view;
  const top = Math.max(view.y, hoof.y - 0.25 * hoof.height);
  return { ...view, y: top, height: view.y + view.height - top };
}

function around(one: Box, other: Box): Box {
  const x = Math.min(one.x, other.x);
  const y = Math.min(one.y, other.y);
  const right = Math.max(one.x + one.width, other.x + other.width);
  const bottom = Math.max(one.y + one.height, other.y + other.height);
  return { x, y, width: right - x, height: bottom - y };
}
