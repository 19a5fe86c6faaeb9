import { t } from '../../shared/language/words.ts';
import { spokenRows } from '../../shared/language/rows.ts';
import { ErrorCodes, ResponseError } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import * as z from 'zod/mini';
import type { Inspection } from '../../shared/findings/inspect.ts';
import type { PlaceParams, PlaceResult } from '../../shared/protocol/placing.ts';
import { filmAddress, placements, textOfVersion } from '../../shared/edits/placing-schema.ts';
import { placeOnFilm } from '../../shared/edits/place-on-film.ts';
import { textEditOf } from '../text/ranges.ts';

/** The answer for a file that is not open, and where the server itself stumbles. */
export const gone: PlaceResult = {
  kind: 'refused',
  says: 'The case file is not open, so nothing was written. Open it in an editor, then place it again.',
  stale: false,
};

spokenRows([gone], 'says');

const paramsSchema = z.object({ textDocument: textOfVersion, film: filmAddress, placements });

/** Parameters come from any client, so their shape is looked at before it is trusted. */
export function askedPlacing(params: unknown): PlaceParams {
  const read = z.safeParse(paramsSchema, params);
  if (read.success) return read.data;
  const [issue] = read.error.issues;
  throw new ResponseError(ErrorCodes.InvalidParams, `${issue?.path.join('.') || 'the parameters'}: not as expected`);
}

export function place(
  document: TextDocument,
  { tree }: Inspection,
  { textDocument, film, placements: wished }: PlaceParams,
): PlaceResult {
  if (textDocument.version !== document.version)
    return {
      kind: 'refused',
      says: t('The text has changed in the meantime, so nothing was written. Place it again.'),
      stale: true,
    };
  const made = placeOnFilm(tree, film, wished);
  if ('refused' in made) return { kind: 'refused', says: made.refused, stale: false };
  return { kind: 'edits', version: document.version, edits: made.edits.map((edit) => textEditOf(document, edit)) };
}
