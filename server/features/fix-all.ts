import { t } from '../../shared/language/words.ts';
import type { CodeAction, CodeActionContext } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Inspection } from '../../shared/findings/inspect.ts';
import type { Finding } from '../../shared/findings/finding.ts';
import type { Edit } from '../../shared/notation/problems.ts';
import type { Span } from '../../shared/notation/tree.ts';
import type { ClientAbilities } from '../serving/client-abilities.ts';
import { workspaceEdit } from './code-actions.ts';

export const fixAllKind = 'source.fixAll.ungula';

/** One action that mends whatever can be mended in one way only. Only where it is asked for: in the menu, or when saving. */
export function fixAll(
  document: TextDocument,
  { findings, tree }: Inspection,
  context: CodeActionContext | undefined,
  client: ClientAbilities,
): CodeAction[] {
  if (!context?.only?.some((kind) => kind === '' || fixAllKind === kind || fixAllKind.startsWith(`${kind}.`)))
    return [];
  const edits = mendable(findings, tree.text);
  if (edits.length === 0) return [];
  const title = t('Mend everything that can be mended in one way only');
  return [{ title, kind: fixAllKind, edit: workspaceEdit(document, { title, edits }, client) }];
}

/** Of two fixes that would change the same place the first is made; the other can be when its finding is told anew. */
function mendable(findings: readonly Finding[], text: string): Edit[] {
  const only = findings
    .flatMap((finding) => (finding.fixes.length === 1 && !isDecision(finding) ? finding.fixes : []))
    // An edit to what stands there already would mark the file as changed, and at each saving again.
    .filter(({ edits }) => edits.some((edit) => text.slice(edit.start, edit.end) !== edit.text))
    .map(({ edits }) => ({ edits, ...hull(edits) }))
    .sort((a, b) => a.start - b.start);
  const made: Edit[] = [];
  let last: Span = { start: -1, end: -1 };
  for (const { edits, start, end } of only) {
    if (start < last.end || start === last.start) continue;
    for (const edit of edits) made.push(edit);
    last = { start, end };
  }
  return made;
}

function hull(edits: readonly Edit[]): Span {
  return edits.reduce((all, { start, end }) => ({ start: Math.min(all.start, start), end: Math.max(all.end, end) }), {
    start: Infinity,
    end: 0,
  });
}

/**
 * Only slips of writing are mended unasked. How much horn comes off, when to come back, which of two points is which and
 * what somebody lives with is decided by people: no saving of a file may change it.
 */
const isDecision = ({ code, accepted }: Finding): boolean =>
  !/^(?:notation|record|measure|limits)\//.test(code) || accepted !== undefined;
