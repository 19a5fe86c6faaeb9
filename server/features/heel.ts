import { t } from '../../shared/language/words.ts';
import { ErrorCodes, ResponseError } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import * as z from 'zod/mini';
import type { Inspection } from '../../shared/findings/inspect.ts';
import type { PlaceResult } from '../../shared/protocol/placing.ts';
import { heelNumber, isHeelNumber, lineOfText, textOfVersion } from '../../shared/edits/placing-schema.ts';
import type { HeelParams } from '../../shared/protocol/plans.ts';
import { heelInPlan } from '../../shared/edits/heel-in-plan.ts';
import { textEditOf } from '../text/ranges.ts';

const paramsSchema = z.object({ textDocument: textOfVersion, line: lineOfText, ...heelNumber }).check(isHeelNumber);

/** Parameters come from any client, so their shape is looked at before it is trusted. */
export function askedHeel(params: unknown): HeelParams {
  const read = z.safeParse(paramsSchema, params);
  if (read.success) return read.data;
  const [issue] = read.error.issues;
  throw new ResponseError(ErrorCodes.InvalidParams, `${issue?.path.join('.') || 'the parameters'}: not as expected`);
}

/** The edits that write a heel cut into a plan; the client applies them, and only to the version they are for. */
export function heel(
  document: TextDocument,
  inspection: Inspection,
  { textDocument, line, part, mm }: HeelParams,
): PlaceResult {
  if (textDocument.version !== document.version)
    return {
      kind: 'refused',
      says: t('The text has changed in the meantime, so nothing was written. Move the slider again.'),
      stale: true,
    };
  const edit = heelInPlan(inspection, line, mm, part);
  if (!edit)
    return {
      kind: 'refused',
      says: t(
        'The plan is not where it was, so nothing was written. Look at it in the text, and move the slider again.',
      ),
      stale: false,
    };
  return { kind: 'edits', version: document.version, edits: [textEditOf(document, edit)] };
}
