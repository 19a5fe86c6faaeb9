import type { Film } from './films.ts';
import { foot } from './foot.ts';
import { render, type Picture } from './render.ts';

/** Draws one row of the table. */
export function picture(film: Film): Picture {
  const lead = { bar: film.bar, word: film.foot, corner: film.letters };
  return render(foot(film.parameters), film.parameters, film.view, lead, film.seed, film.shoe);
}
