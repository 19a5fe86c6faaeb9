import { t } from '../language/words.ts';
import { bareFoot } from '../geometry/planes.ts';
import type { Inspection } from '../findings/inspect.ts';
import { openAlarms } from '../findings/open-alarms.ts';
import { judgeOn } from '../findings/limits/cut-limits.ts';
import { careAt } from '../findings/limits/planning.ts';
import { sayBroken } from '../findings/wording/say-cut.ts';
import { footWords, list, sentence } from '../findings/wording/wording.ts';
import { feet, type FootName } from '../notation/choices.ts';
import { dayNumber } from '../notation/dates.ts';
import { takesNothing, type Footing } from '../trim/stand.ts';
import type { StudiedCut, StudiedFilm, Study } from '../trim/study.ts';
import { sizeOf } from '../trim/trim-series.ts';
import { filmSheets, type CutSheet, type FilmSheet } from './film-sheet.ts';
import { openPlan } from './open-plan.ts';
import { penLine, type PenLine } from './pen-line.ts';

/** A foot on the day on which a page about it is handed over. */
export interface FootToday {
  readonly foot: FootName;
  /** `Left fore`. */
  readonly words: string;
  /** Its newest lateral film with a sheet of its first reading; null where there is none. */
  readonly sheet: FilmSheet | null;
  /** The foot as it stands since that film, without its shoe; null where it cannot be followed, or has no scale. */
  readonly standing: Footing | null;
  /** The newest plan that no trim of the foot has followed; null where none is open. */
  readonly plan: StudiedCut | null;
  /** The same as it is shown; null where it is predicted on no film of this sheet. */
  readonly planSheet: CutSheet | null;
  /** Null while there is no plan, or something speaks against it. */
  readonly pen: PenLine | null;
  /** Why no line may be drawn though a plan is open; empty where one may, or where none is open. */
  readonly why: string;
  /** Why nothing may be foretold of the foot in months to come; empty where it may. */
  readonly noOutlook: string;
}

/** Every foot that the case films, measures, plans, trims or shoes, in the usual order. `date`: of the page, YYYY-MM-DD. */
export function feetToday(inspection: Inspection, date: string): FootToday[] {
  const { study } = inspection;
  const alarmed = openAlarms(study).length > 0;
  return feet
    .filter((foot) => isTold(foot, study))
    .map((foot): FootToday => {
      const day = Math.max(dayNumber(date) ?? 0, newestDay(study));
      const moment = { day, at: Infinity };
      const basis = study.trims.basis(foot, moment);
      const { film } = basis;
      const sheet = film && sheetOf(film, inspection);
      const frame = film?.readings.find(({ taking }) => taking.frame)?.taking.frame;
      const bare = frame && bareFoot(frame);
      const standing =
        bare?.scale && !basis.lost ? { frame: bare, earlier: basis.earlier.map(({ cut }) => sizeOf(cut)) } : null;
      const plan = openPlan(foot, study);
      const care = careAt({ foot, moment, date }, study);
      const noOutlook = alarmed ? alarmOpen() : care;
      const why = plan ? noOutlook || whyNot(plan, film, standing, basis.unmeasured.length, study) : '';
      const pen = plan && why === '' && standing ? penLine(standing, plan.size) : null;
      return {
        foot,
        words: sentence(footWords[foot]),
        sheet,
        standing,
        plan,
        planSheet: (plan && sheet?.cuts.find((cut) => isOf(cut, plan))) ?? null,
        pen,
        why: plan && why === '' && pen === null ? noLine() : why,
        noOutlook: noOutlook || why,
      };
    });
}

const alarmOpen = (): string => t('An alarm is open: see above.');

const noLine = (): string => t('The foot cannot be followed from its film to this plan.');

/** What speaks against drawing the line of a plan today, beside what speaks against every cut. */
function whyNot(
  plan: StudiedCut,
  film: StudiedFilm | null,
  standing: Footing | null,
  unmeasured: number,
  study: Study,
): string {
  if (plan.film !== film) return t('A newer film of this foot was taken after the plan. Plan anew on that film.');
  if (takesNothing(plan.size)) return t('The plan takes nothing that is written in millimetres.');
  if (plan.size.insideDown || plan.size.outsideDown)
    return t('The plan takes one side by itself, and a line seen from the side cannot show that.');
  if (unmeasured > 0) return t('A trim since the film says no millimetres, so nobody knows how the foot stands now.');
  if (!standing) return noLine();
  const judged = judgeOn(standing, plan.cut.foot, study, film?.day ?? null).of(plan.size);
  if (!judged) return noLine();
  const broken = sayBroken(judged.margins, standing.frame);
  return broken.length > 0 ? t('The plan breaks a limit: {0}.', list(broken)) : '';
}

const isOf = ({ kind, line }: CutSheet, { cut, visit }: StudiedCut): boolean =>
  kind === 'plan' && line === visit.line + cut.line;

/** Of the reading that plans go by. */
function sheetOf(film: StudiedFilm, inspection: Inspection): FilmSheet | null {
  const chosen = film.readings.find(({ taking }) => taking.frame) ?? film.readings[0];
  return filmSheets(inspection, (one, reading) => one === film && reading === chosen)[0] ?? null;
}

function newestDay({ record: { visits } }: Pick<Study, 'record'>): number {
  return Math.max(0, ...visits.flatMap(({ is }) => (is.date === null ? [] : (dayNumber(is.date) ?? []))));
}

function isTold(foot: FootName, { record: { visits } }: Pick<Study, 'record'>): boolean {
  return visits.some(
    ({ is }) =>
      [...is.films, ...is.cuts, ...is.tapes].some((one) => one.foot === foot) ||
      is.worn.some((one) => one.feet.includes(foot)),
  );
}
