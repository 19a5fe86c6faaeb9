import { t } from '../../shared/language/words.ts';
import {
  CodeActionKind,
  type CodeAction,
  type CodeActionContext,
  type Command,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Inspection } from '../../shared/findings/inspect.ts';
import { below } from '../../shared/findings/limits/plan-place.ts';
import {
  isUnshodOn,
  planAt,
  landmarkSaid,
  type Lacking,
  type Planned,
  type PlanWish,
} from '../../shared/findings/limits/planning.ts';
import { endOfLine } from '../../shared/notation/line-bounds.ts';
import type { Span, Tree } from '../../shared/notation/tree.ts';
import { lastLineOf } from '../../shared/edits/film-notation.ts';
import { planBlock, sayBothOdds, sayGoal } from '../../shared/edits/plan-notation.ts';
import type { Goal, Plan } from '../../shared/trim/plan.ts';
import type { StudiedFilm } from '../../shared/trim/study.ts';
import type { ClientAbilities } from '../serving/client-abilities.ts';
import { workspaceEdit } from './code-actions.ts';

/** What is kept with an offered plan until it is chosen: working one out takes too long to do for a menu. */
export interface PlanData {
  readonly plan: {
    readonly uri: string;
    readonly version: number;
    readonly film: number;
    readonly goal: Goal;
    /** The heel on a plane of its own. */
    readonly twoPlanes?: true;
  };
}

/** The data of an action as it comes back; null where it is not ours. */
export function planDataOf(data: unknown): PlanData | null {
  const plan = typeof data === 'object' && data !== null ? (data as Partial<PlanData>).plan : undefined;
  if (typeof plan !== 'object' || plan === null) return null;
  const { uri, version, film, goal, twoPlanes } = plan;
  const known = goals.find((one) => JSON.stringify(one) === JSON.stringify(goal));
  if (typeof uri !== 'string' || typeof version !== 'number' || !Number.isInteger(film) || !known) return null;
  return { plan: { uri, version, film, goal: known, ...(twoPlanes === true && { twoPlanes }) } };
}

const goals: readonly Goal[] = [{ kind: 'sole-plane' }, { kind: 'palmar-angle', angle: 5 }, { kind: 'most' }];

/** Plans for the lateral film that the range touches. */
export function planActions(
  document: TextDocument,
  inspection: Inspection,
  range: Span,
  context: CodeActionContext | undefined,
  client: ClientAbilities,
): CodeAction[] {
  const { study } = inspection;
  const wanted = context?.only;
  if (wanted && !wanted.some((kind) => kind === '' || CodeActionKind.RefactorRewrite.startsWith(kind))) return [];
  const index = study.films.findIndex((film) => canPlanOn(film) && touches(film, range));
  const film = study.films[index];
  if (!film) return [];
  const made = goals.map((goal) => ({ goal, ...planOn(film, { goal }, inspection) }));
  const kind = CodeActionKind.RefactorRewrite;
  const asData = (goal: Goal, twoPlanes: boolean): PlanData => ({
    plan: { uri: document.uri, version: document.version, film: index, goal, ...(twoPlanes && { twoPlanes }) },
  });
  const offered = made.flatMap(({ goal, plan, says }): CodeAction[] => {
    const unshod = { isUnshod: isUnshodOn(film) };
    const title = t('Plan {0}: heel {1}', film.film.foot, sayGoal(goal, unshod));
    if (!plan || says !== '') return client.disabledActions ? [{ title, kind, disabled: { reason: says } }] : [];
    return [
      { title: `${title}, ${sayBothOdds(plan)}`, kind, data: asData(goal, false) },
      ...onTwoPlanes(film, goal, inspection).map((bent) => ({
        title: t('Plan {0}: heel {1}, on two planes, {2}', film.film.foot, sayGoal(goal, unshod), sayBothOdds(bent)),
        kind,
        data: asData(goal, true),
      })),
    ];
  });
  const lacking = made.find((one) => one.lacking)?.lacking;
  return [...(lacking ? placeFirst(document, lacking, client) : []), ...offered];
}

/** Where a landmark is all that a plan lacks: what opens placing at the first of them. Needs a client that has such a command. */
function placeFirst(
  document: TextDocument,
  { film, landmarks }: Lacking,
  { placeLandmark }: ClientAbilities,
): CodeAction[] {
  const [first] = landmarks;
  if (placeLandmark === null || !first) return [];
  const { line } = document.positionAt(film.visit.start + film.film.head.start);
  const title = t('Place {0}, which a plan needs', landmarkSaid(first));
  return [
    {
      title,
      kind: CodeActionKind.RefactorRewrite,
      command: { title, command: placeLandmark, arguments: [document.uri, line, first] },
    },
  ];
}

/** The plan with the heel on a plane of its own, offered only where it takes more than one plane does. */
function onTwoPlanes(film: StudiedFilm, goal: Goal, inspection: Inspection): Plan[] {
  const { plan, says } = planOn(film, { goal, twoPlanes: true }, inspection);
  return plan && says === '' ? [plan] : [];
}

/** What comes of a plan that is put below a film. */
function planOn(film: StudiedFilm, wish: PlanWish, { study }: Inspection): Planned {
  const place = below(film);
  const made = place && planAt(place, wish, study);
  if (made && (made.film === film || made.film === null)) return made;
  const says = place
    ? t('A newer film of this foot stands elsewhere in the file. Plan on that one.')
    : t('The visit has no date, so nobody can tell how old the film is. Write its date.');
  return { film, plan: null, says, none: null, lacking: null, notes: [] };
}

function canPlanOn({ film, readings }: StudiedFilm): boolean {
  return film.kind === 'film' && film.view === 'lateral' && readings.length > 0;
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

/** A plan that is written down, and the way to it. */
export interface WrittenPlan {
  readonly edit: WorkspaceEdit;
  /** Brings the plan to the front, as it may lie out of sight; absent where the client has no such command. */
  readonly command?: Command;
}

/** A chosen plan, put below its film; null where none can be made. */
export function planEdit(
  document: TextDocument,
  inspection: Inspection,
  { plan: { film: index, goal, twoPlanes, version } }: PlanData,
  client: ClientAbilities,
): WrittenPlan | null {
  const film = document.version === version ? inspection.study.films[index] : undefined;
  const made = film && planOn(film, { goal, twoPlanes: twoPlanes === true }, inspection);
  if (!film || !made?.plan || made.says !== '') return null;
  const block = planBlock(film.film.foot, made.plan, { isUnshod: isUnshodOn(film) });
  const lineEnd = /\r?\n/.exec(document.getText())?.[0] ?? '\n';
  const at = endOf(inspection.tree, film);
  const text = `${lineEnd}${lineEnd}${block.split('\n').join(lineEnd)}`;
  const edit = workspaceEdit(document, { title: '', edits: [{ start: at, end: at, text }] }, client);
  if (client.showLine === null) return { edit };
  // Below the end of the film's last line and a line that is empty.
  const line = document.positionAt(at).line + 2;
  return { edit, command: { title: t('Show the plan'), command: client.showLine, arguments: [document.uri, line] } };
}
