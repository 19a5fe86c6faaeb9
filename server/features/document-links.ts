import { t } from '../../shared/language/words.ts';
import type { DocumentLink } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Inspection } from '../../shared/findings/inspect.ts';
import { caseUri, pictureUri } from '../../shared/picture/picture-uri.ts';
import { everyStatement } from '../text/every-statement.ts';
import { rangeOf } from '../text/ranges.ts';

/**
 * The pictures that films and photos name, and the file of a lesson's key. A path that the policy refuses gets no link: a case file from elsewhere leads nowhere
 * else. What lies behind a link on the disk is not looked at: that would open each picture at each change (docs/threat-model.md).
 * `folders` are the URIs of those that are open.
 */
export function documentLinks(
  document: TextDocument,
  { tree }: Inspection,
  folders: readonly string[],
): DocumentLink[] {
  const links: DocumentLink[] = [];
  for (const { placed, statement } of everyStatement(tree)) {
    if (!statement.whole) continue;
    const isKey = statement.kind === 'statement' && statement.word === 'key';
    const named = isKey ? 'file' : statement.kind === 'header' ? 'path' : null;
    const path = named === null ? undefined : statement.args.get(named)?.[0];
    if (path?.kind !== 'text') continue;
    const place = (isKey ? caseUri : pictureUri)(path.value, document.uri, folders);
    if ('refused' in place) continue;
    const target = place.uri;
    const inside = { start: path.start + 1, end: path.end - 1 };
    links.push({
      range: rangeOf(document, inside, placed.start),
      target,
      tooltip: isKey ? t('Open the key') : t('Open the picture'),
    });
  }
  return links;
}
