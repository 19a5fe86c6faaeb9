import { t } from '../../../shared/language/words.ts';
import { CompletionItemKind, InsertTextFormat, type CompletionItem } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { startOfLine } from '../../../shared/notation/line-bounds.ts';
import { parseLines, unquote } from '../../../shared/notation/lines.ts';
import type { Span, Tree } from '../../../shared/notation/tree.ts';
import { findRow } from '../../../shared/notation/vocabulary.ts';
import { isPictureName } from '../../../shared/picture/file-endings.ts';
import { picturePlace } from '../../../shared/picture/picture-place.ts';
import { caseUri, pictureUri, type PictureUri } from '../../../shared/picture/picture-uri.ts';
import type { FolderEntry } from '../../../shared/protocol/files.ts';
import type { ClientAbilities } from '../../serving/client-abilities.ts';
import { everyStatement } from '../../text/every-statement.ts';
import type { Files } from '../../serving/files.ts';
import { rangeOf } from '../../text/ranges.ts';
import { keyOf } from '../../workspace/file-key.ts';
import { expectedAfter } from './expected.ts';

/** The path of a picture, or of a lesson's key, that the cursor is in. */
export interface PathAt {
  readonly of: 'picture' | 'key';
  /** What stands between the quotes; to the cursor where the closing one is not there yet. */
  readonly inside: Span;
  /** What of it stands before the cursor, as written. */
  readonly before: string;
}

export interface PathPlace {
  readonly client: Pick<ClientAbilities, 'suggestAgain'>;
  readonly listFolder: Files['listFolder'];
  /** URIs of the folders that are open. */
  readonly folders: readonly string[];
}

const kinds = [
  { of: 'picture', argument: 'path' },
  { of: 'key', argument: 'file' },
] as const;

type KindPolicy = (written: string, caseFile: string, open: readonly string[]) => PictureUri;

/** By which policy a path leads to a file, and a file that it would let through. */
const policies: Readonly<Record<PathAt['of'], { readonly uri: KindPolicy; readonly any: string }>> = {
  picture: { uri: pictureUri, any: 'a.png' },
  key: { uri: caseUri, any: 'a.hoof' },
};

/** A folder with more in it is no folder of a case. */
const most = 1000;

/** Null where the cursor is in no path. */
export function pathAt(text: string, offset: number): PathAt | null {
  const start = startOfLine(text, offset);
  const [line] = parseLines(text.slice(start, offset));
  const [head, ...rest] = line?.items ?? [];
  const open = rest.pop();
  if (line?.comment || head?.kind !== 'word' || open?.kind !== 'broken' || !open.image.startsWith('"')) return null;
  const expected = expectedAfter(findRow(head.image)?.takes ?? [], rest);
  const of = kinds.find(({ argument: name }) => expected.some(({ argument }) => argument.name === name))?.of;
  if (!of) return null;
  const after = /^(?:[^"\\\r\n]|\\[^\r\n])*(?=")/.exec(text.slice(offset))?.[0] ?? '';
  const before = text.slice(start + open.start + 1, offset);
  return { of, inside: { start: offset - before.length, end: offset + after.length }, before };
}

/**
 * Folders and files beside the case file, a folder at a time: pictures that the file does not name yet first, of them
 * those with the latest name; for a key the other case files. Only folders in which the policy allows such files are listed.
 */
export async function pathItems(
  document: TextDocument,
  tree: Tree,
  { of, inside, before }: PathAt,
  { client, listFolder, folders }: PathPlace,
): Promise<CompletionItem[]> {
  // The document may change while the folder is looked at.
  const range = rangeOf(document, inside);
  const { uri } = document;
  const { uri: placeOf, any: sample } = policies[of];
  const used = of === 'picture' ? usedIn(tree, uri, inside.start, folders) : new Set<string>();
  const written = before.slice(0, before.lastIndexOf('/') + 1);
  const path = unquote(`"${written}"`);
  // What the policy says of a picture there goes for the folder.
  const any = placeOf(`${path}${sample}`, uri, folders);
  if ('refused' in any || unquote(`"${before}"`).includes('\\')) return [];
  const folder = any.uri.slice(0, any.uri.lastIndexOf('/') + 1);
  const uriOf = ({ name }: FolderEntry): string | null => {
    const place = placeOf(`${path}${name}`, uri, folders);
    // No case is its own key.
    return 'refused' in place || keyOf(place.uri) === keyOf(uri) ? null : place.uri;
  };
  const entries = ((await listFolder(folder, any.roots)) ?? []).filter(
    (entry) => isOffered(entry, of) && (entry.kind === 'folder' ? isWritable(entry.name) : uriOf(entry) !== null),
  );
  const isUsed = (entry: FolderEntry): boolean => used.has(uriOf(entry) ?? '');
  const fresh = entries.filter((entry) => entry.kind === 'file' && !isUsed(entry));
  const ordered = [
    ...fresh.toSorted((a, b) => compared(b, a)),
    ...entries.filter(({ kind }) => kind === 'folder').toSorted(compared),
    ...entries.filter((entry) => entry.kind === 'file' && isUsed(entry)).toSorted((a, b) => compared(b, a)),
  ];
  return ordered.slice(0, most).map((entry, index) => {
    const isFolder = entry.kind === 'folder';
    const name = isFolder ? `${entry.name}/` : entry.name;
    const text = written + name.replaceAll('"', '\\"');
    return {
      label: name,
      kind: isFolder ? CompletionItemKind.Folder : CompletionItemKind.File,
      ...(!isFolder && isUsed(entry) && { detail: t('in this file already') }),
      sortText: String(index).padStart(4, '0'),
      filterText: text,
      insertTextFormat: InsertTextFormat.PlainText,
      textEdit: { range, newText: text },
      ...(isFolder && client.suggestAgain !== null && { command: { title: 'Go on', command: client.suggestAgain } }),
    };
  });
}

/** Numbers in names count as numbers, so that film-10 comes after film-9. */
const collator = new Intl.Collator('en', { numeric: true });
const compared = (a: FolderEntry, b: FolderEntry): number => collator.compare(a.name, b.name);

/** A folder, or by its name such a file; hidden ones are not offered. */
function isOffered({ name, kind }: FolderEntry, of: PathAt['of']): boolean {
  if (/^\.|\\/.test(name)) return false;
  return kind === 'folder' || (of === 'key' ? name.endsWith('.hoof') : isPictureName(name));
}

/** Whether a path can lead through a folder of this name. */
function isWritable(name: string): boolean {
  return 'path' in picturePlace(`${name}/a.png`, '/', ['/']);
}

/** The pictures that the other films and photos name, as URIs. */
function usedIn(tree: Tree, uri: string, except: number, folders: readonly string[]): ReadonlySet<string> {
  const used = new Set<string>();
  for (const { placed, statement } of everyStatement(tree)) {
    const path = statement.kind === 'header' ? statement.args.get('path')?.[0] : undefined;
    if (path?.kind !== 'text' || placed.start + path.start + 1 === except) continue;
    const place = pictureUri(path.value, uri, folders);
    if ('uri' in place) used.add(place.uri);
  }
  return used;
}
