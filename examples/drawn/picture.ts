import type { Film } from './films.ts';
import { foot } from './foot.ts';
import { render, type Picture } from './render.ts';

/** Draws one row of the table. */
export function picture(film: Film): Picture {
  const { parameters, view, seed, shoe, grain } = film;
  const lead = { bar: film.isUnmarked ? null : film.bar, word: film.foot, corner: film.letters };
  return render(foot(parameters), parameters, view, lead, seed, { shoe, grain });
}
