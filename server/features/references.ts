import { t } from '../../shared/language/words.ts';
import { LSPErrorCodes, ResponseError, type CancellationToken, type Location } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Inspection } from '../../shared/findings/inspect.ts';
import type { LineSpan } from '../../shared/notation/line-span.ts';
import { stopIfCancelled } from '../serving/guard.ts';
import { mentionsAt, type Mentioned } from './mentions.ts';
import { rangeOf } from '../text/ranges.ts';
import { rangeAt } from '../workspace/across-diagnostics.ts';
import type { IndexEntry } from '../workspace/index-entry.ts';
import type { Workspace } from '../workspace/workspace.ts';

/**
 * A reader reads many cases, a measure is meant everywhere, and a study code may have got into a second file: these are
 * looked for in every case of the workspace, once all are read. A landmark is that of one foot, so it stays in its file.
 */
export async function references(
  document: TextDocument,
  inspection: Inspection,
  offset: number,
  { declaration, workspace, token }: { declaration: boolean; workspace: Workspace; token: CancellationToken },
): Promise<Location[]> {
  const found = mentionsAt(inspection, offset);
  if (!found) return [];
  const own = found.mentions
    .filter(({ declares }) => declaration || !declares)
    .map((mention) => ({ uri: document.uri, range: rangeOf(document, mention) }));
  if (found.kind === 'landmark' || !workspace.counts(document)) return own;
  const { version } = document;
  await workspace.index.settled(token);
  stopIfCancelled(token);
  if (document.version !== version)
    throw new ResponseError(LSPErrorCodes.ContentModified, t('The file was changed meanwhile.'));
  const others = [...workspace.cases()]
    .filter((one) => one.document !== document)
    .sort((a, b) => (a.key < b.key ? -1 : 1))
    .flatMap(({ uri, entry }) => placesIn(entry, found).map((place) => ({ uri, range: rangeAt(place) })));
  return [...own, ...others];
}

function placesIn({ facts, names }: IndexEntry, { kind, name }: Mentioned): readonly LineSpan[] {
  if (kind === 'code') return facts.code?.value === name ? [facts.code.at] : [];
  return names.find((one) => one.kind === kind && one.name === name)?.places ?? [];
}
