import {
  InsertTextFormat,
  LSPErrorCodes,
  ResponseError,
  type CancellationToken,
  type CompletionItem,
  type CompletionList,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Inspection } from '../../shared/findings/inspect.ts';
import type { ClientAbilities } from '../serving/client-abilities.ts';
import { argumentOffers } from './completion/arguments.ts';
import { lineAt } from './completion/line-at.ts';
import { lineStartOffers } from './completion/line-start.ts';
import type { Offer } from './completion/offer.ts';
import { openBlocks } from './completion/open-blocks.ts';
import { pathAt, pathItems, type PathPlace } from './completion/picture-paths.ts';
import { markup } from './describe/markup.ts';
import { rangeOf } from '../text/ranges.ts';
import { dateOf } from '../serving/today.ts';

/**
 * A blank opens the lists of feet, views and units; a point goes on in the name of a landmark or a measure; a quote begins
 * the path of a picture, and a slash goes on in it or in a code.
 */
export const triggerCharacters = [' ', '.', '"', '/'];

/** What may be written at an offset. In the path of a picture folders have to be looked at first. */
export async function completionList(
  document: TextDocument,
  inspection: Inspection,
  offset: number,
  place: CompletionPlace & PathPlace & { readonly token: CancellationToken },
): Promise<CompletionList> {
  const path = pathAt(inspection.tree.text, offset);
  if (!path) return { isIncomplete: false, items: completion(document, inspection, offset, place) };
  const items = await pathItems(document, inspection.tree, path, place);
  if (place.token.isCancellationRequested) throw new ResponseError(LSPErrorCodes.RequestCancelled, 'cancelled');
  // Another folder has other names in it.
  return { isIncomplete: true, items };
}

export interface CompletionPlace {
  readonly client: Pick<ClientAbilities, 'snippets' | 'completionFormat'>;
  readonly now: Date;
}

/** What may be written at an offset, the likeliest first. */
export function completion(
  document: TextDocument,
  { tree, findings }: Inspection,
  offset: number,
  { client, now }: CompletionPlace,
): CompletionItem[] {
  const line = lineAt(tree.text, offset);
  if (!line) return [];
  const open = openBlocks(tree, line.start);
  const today = dateOf(now);
  const offers =
    line.items.length === 0
      ? lineStartOffers(open, line, tree, today)
      : argumentOffers(open, line, { today, findings });
  return [...offers].map((offer, index) => itemOf(offer, index, document, line.typed, client));
}

function itemOf(
  offer: Offer,
  index: number,
  document: TextDocument,
  typed: { start: number; end: number },
  { snippets, completionFormat }: Pick<ClientAbilities, 'snippets' | 'completionFormat'>,
): CompletionItem {
  const snippet = snippets && offer.snippet !== undefined;
  const range = offer.after === true ? { start: typed.end, end: typed.end } : typed;
  return {
    label: offer.label,
    ...(offer.takes && { labelDetails: { detail: ` ${offer.takes}` } }),
    kind: offer.kind,
    ...(offer.documentation && { documentation: markup(offer.documentation, completionFormat) }),
    sortText: String(index).padStart(4, '0'),
    filterText: offer.after === true ? offer.text : offer.label,
    insertTextFormat: snippet ? InsertTextFormat.Snippet : InsertTextFormat.PlainText,
    textEdit: { range: rangeOf(document, range), newText: snippet ? (offer.snippet as string) : offer.text },
  };
}
