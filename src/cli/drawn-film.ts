import { drawPlate } from '../../shared/drawing/plate/plate.ts';
import { without } from '../../shared/drawing/alone.ts';
import { outlineOf } from '../../shared/drawing/outline.ts';
import type { LayerName, Scene } from '../../shared/drawing/scene.ts';
import type { Inspection } from '../../shared/findings/inspect.ts';
import { footWords } from '../../shared/findings/wording/wording.ts';
import { t } from '../../shared/language/words.ts';
import { alarmsOf } from '../../shared/views/alarms.ts';
import type { FootName } from '../../shared/notation/choices.ts';
import type { View } from '../../shared/notation/landmarks.ts';
import { wordList } from '../../shared/notation/word-list.ts';
import type { ReportPicture } from '../../shared/report/page.ts';
import { filmToShow } from '../../shared/views/film-choice.ts';
import { filmSheets, type CutSheet, type FilmSheet } from '../../shared/views/film-sheet.ts';
import { filmOver, laidFilm, normalOver, type LaidOver } from '../../shared/views/laid-over.ts';
import { newestCut } from '../../shared/views/newest-cut.ts';
import { plateOf, unlettered } from '../../shared/views/plate-of.ts';
import { CommandProblem } from './problem.ts';

/** Which film is drawn; null leaves it to the case. */
export interface WantedFilm {
  readonly foot: FootName | null;
  readonly view: View | null;
  readonly date: string | null;
  readonly reader: string | null;
}

/** How it is drawn. */
export interface FilmWishes {
  /** `normal`, or the day of the other film; null for none. */
  readonly over: string | null;
  readonly cut: boolean;
  readonly isLettered: boolean;
  readonly hidden: readonly LayerName[];
  /** As lines alone, to be drawn on by hand. */
  readonly isOutline: boolean;
}

/** More would fill the terminal. */
const mostListed = 12;

/** The film of a case that is asked for: as in the preview the newest lateral one, else the newest. */
export function filmOf(inspection: Inspection, wanted: WantedFilm): FilmSheet {
  const all = filmSheets(inspection);
  if (all.length === 0) throw new CommandProblem(t('this case has no film and no photo to draw'));
  const fits = all.filter(
    ({ foot, view, date, reader }) =>
      foot === (wanted.foot ?? foot) &&
      view === (wanted.view ?? view) &&
      date === (wanted.date ?? date) &&
      reader === (wanted.reader ?? reader),
  );
  const listed = fits.map((sheet) => ({ ...sheet, lines: [], cuts: [] }));
  const chosen = filmToShow(listed, { film: null, line: null, moved: false });
  const found = chosen && fits[listed.indexOf(chosen as (typeof listed)[number])];
  if (!found)
    throw new CommandProblem(t('no film is as asked for ({0}); there are: {1}', wantedWords(wanted), titles(all)));
  return found;
}

function wantedWords({ foot, view, date, reader }: WantedFilm): string {
  return wordList([foot && footWords[foot], view, date, reader].filter((one) => one !== null));
}

function titles(sheets: readonly FilmSheet[]): string {
  const all = [...new Set(sheets.map(({ title }) => title))];
  const more = all.length - mostListed;
  return [...all.slice(0, mostListed), ...(more > 0 ? [t('and {0} more', more)] : [])].join('; ');
}

/** The plate of a film, as the preview takes it along. */
export function filmScene(
  inspection: Inspection,
  sheet: FilmSheet,
  picture: ReportPicture | null,
  { over, cut, isLettered, hidden, isOutline }: FilmWishes,
): Scene {
  const laid = over === null ? null : laidOver(inspection, sheet, over);
  if (laid && laid.over === null) throw new CommandProblem(laid.says);
  const newest = cut ? newestCut(sheet.cuts) : null;
  if (cut && !newest)
    throw new CommandProblem(t('{0}: there is no plan and no trim that could be drawn on this film', sheet.title));
  const against = newest?.kind === 'plan' ? againstPlan(inspection, newest) : null;
  if (against !== null) throw new CommandProblem(against);
  const input = plateOf(sheet, picture && 'href' in picture ? picture : null, { cut: newest });
  const scene = without(drawPlate({ ...(isLettered ? input : unlettered(input)), over: laid?.over ?? null }), hidden);
  return isOutline && sheet.scale !== null ? outlineOf(scene, sheet.scale) : scene;
}

/** Why a plan is not drawn by itself: in the preview what is told of it stands below it, and a drawing goes to others. */
function againstPlan(inspection: Inspection, plan: CutSheet): string | null {
  const [alarm] = alarmsOf(inspection);
  if (alarm) return t('the plan is not drawn while an alarm is open: {0}', alarm.message);
  const broken = plan.notes.find(
    ({ severity, code }) => code.startsWith('trim/') && (severity === 'error' || severity === 'warning'),
  );
  return broken ? t('the plan is not drawn, as it cannot be followed: {0}', broken.message) : null;
}

function laidOver(inspection: Inspection, sheet: FilmSheet, over: string): LaidOver {
  if (over === 'normal') return normalOver(sheet, inspection.study.animal);
  const other = filmOf(inspection, { foot: sheet.foot, view: 'lateral', date: over, reader: null });
  if (other.line === sheet.line)
    throw new CommandProblem(t('--over {0} is the film that is drawn itself; name another day', over));
  return filmOver(sheet, laidFilm(other));
}
