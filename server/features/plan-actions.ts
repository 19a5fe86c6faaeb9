import { CodeActionKind, type CodeAction, type CodeActionContext, type WorkspaceEdit } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Inspection } from '../../shared/findings/inspect.ts';
import { planDoubt, planOn } from '../../shared/findings/limits/planning.ts';
import { endOfLine } from '../../shared/notation/line-bounds.ts';
import type { Span, Tree } from '../../shared/notation/tree.ts';
import { lastLineOf } from '../../shared/edits/film-notation.ts';
import { alarmsOf, alarmsOpen } from '../../shared/views/alarms.ts';
import { planBlock, sayGoal } from '../../shared/edits/plan-notation.ts';
import type { Goal } from '../../shared/trim/plan.ts';
import type { StudiedFilm } from '../../shared/trim/study.ts';
import type { ClientAbilities } from '../serving/client-abilities.ts';
import { workspaceEdit } from './code-actions.ts';

/** What is kept with an offered plan until it is chosen: working one out takes too long to do for a menu. */
export interface PlanData {
  readonly plan: { readonly uri: string; readonly version: number; readonly film: number; readonly goal: Goal };
}

/** The data of an action as it comes back; null where it is not ours. */
export function planDataOf(data: unknown): PlanData | null {
  const plan = typeof data === 'object' && data !== null ? (data as Partial<PlanData>).plan : undefined;
  if (typeof plan !== 'object' || plan === null) return null;
  const { uri, version, film, goal } = plan;
  const known = goals.find((one) => JSON.stringify(one) === JSON.stringify(goal));
  if (typeof uri !== 'string' || typeof version !== 'number' || !Number.isInteger(film) || !known) return null;
  return { plan: { uri, version, film, goal: known } };
}

const goals: readonly Goal[] = [{ kind: 'sole-plane' }, { kind: 'palmar-angle', angle: 5 }, { kind: 'most' }];

/** A person's rasp: plans that go into the text are in half millimetres where no limit speaks against it. */
const grid = 0.5;

/** Plans for the lateral film that the range touches. */
export function planActions(
  document: TextDocument,
  inspection: Inspection,
  range: Span,
  context: CodeActionContext | undefined,
): CodeAction[] {
  const { study } = inspection;
  const wanted = context?.only;
  if (wanted && !wanted.some((kind) => kind === '' || CodeActionKind.RefactorRewrite.startsWith(kind))) return [];
  const index = study.films.findIndex((film) => canPlanOn(film) && touches(film, range));
  const film = study.films[index];
  // On a scale that is in doubt nothing is written down; the line of the scale says why.
  if (!film || planDoubt(film, study) !== '') return [];
  const open = alarmsOpen(alarmsOf(inspection));
  const first = open === '' ? '' : ` (first: ${open})`;
  return goals.map((goal): CodeAction => {
    const data: PlanData = { plan: { uri: document.uri, version: document.version, film: index, goal } };
    return {
      title: `Plan ${film.film.foot}: heel ${sayGoal(goal)}${first}`,
      kind: CodeActionKind.RefactorRewrite,
      data,
    };
  });
}

function canPlanOn({ film, readings }: StudiedFilm): boolean {
  return (
    film.kind === 'film' &&
    film.view === 'lateral' &&
    readings.some(({ taking: { frame } }) => frame?.isOnBearing && frame.scale)
  );
}

function touches({ film, visit }: StudiedFilm, { start, end }: Span): boolean {
  return visit.start + film.at.start <= end && visit.start + film.at.end >= start;
}

/** The end of the film's last line: behind the remark that it may end with, and those below it that are the film's too. */
function endOf({ blocks, text }: Tree, { film, visit }: StudiedFilm): number {
  const placed = blocks.find(({ start }) => start === visit.start);
  const line = placed && lastLineOf(placed.block, film.at.end);
  return endOfLine(text, visit.start + (line?.start ?? film.at.end));
}

/** The text of a chosen plan, put below its film; null where none can be made. */
export function planEdit(
  document: TextDocument,
  { study, tree }: Inspection,
  { plan: { film: index, goal, version } }: PlanData,
  client: ClientAbilities,
): WorkspaceEdit | null {
  const film = document.version === version ? study.films[index] : undefined;
  const made = film && planOn(film, goal, study, { grid });
  if (!film || !made || made.stages.length === 0) return null;
  const block = planBlock(film.film.foot, goal, made, film.visit.is.date);
  const lineEnd = /\r?\n/.exec(document.getText())?.[0] ?? '\n';
  const at = endOf(tree, film);
  const text = `${lineEnd}${lineEnd}${block.split('\n').join(lineEnd)}`;
  return workspaceEdit(document, { title: '', edits: [{ start: at, end: at, text }] }, client);
}
