import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Inspection } from '../shared/findings/inspect.ts';
import type { HeelParams, HeelResult } from '../shared/protocol/plans.ts';
import { heelInPlan } from '../shared/report/heel-in-plan.ts';
import { rangeOf } from './ranges.ts';

export const noHeel: HeelResult = { edit: null };

/** What writes a heel cut into a plan, for the version that the client has; for any other there is nothing to write. */
export function heel(
  document: TextDocument,
  inspection: Inspection,
  { textDocument, line, mm }: HeelParams,
): HeelResult {
  if (document.version !== textDocument.version || typeof line !== 'number' || typeof mm !== 'number') return noHeel;
  const edit = heelInPlan(inspection, line, mm);
  return edit ? { edit: { range: rangeOf(document, edit), newText: edit.text } } : noHeel;
}
