import { CompletionItemKind, InsertTextFormat, type CompletionItem } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { startOfLine } from '../../shared/notation/line-bounds.ts';
import { parseLines, unquote } from '../../shared/notation/lines.ts';
import type { Span, Tree } from '../../shared/notation/tree.ts';
import { findRow } from '../../shared/notation/vocabulary.ts';
import { isPictureName } from '../../shared/picture/file-endings.ts';
import type { FolderEntry } from '../../shared/protocol/files.ts';
import type { ClientAbilities } from '../client-abilities.ts';
import { everyStatement } from '../every-statement.ts';
import type { ListFolder } from '../files.ts';
import { rangeOf } from '../ranges.ts';
import { beside } from '../stored-scales.ts';
import { expectedAfter } from './expected.ts';

/** A picture's path that the cursor is in. */
export interface PathAt {
  /** What stands between the quotes; to the cursor where the closing one is not there yet. */
  readonly inside: Span;
  /** What of it stands before the cursor, as written. */
  readonly before: string;
}

export interface PathPlace {
  readonly client: Pick<ClientAbilities, 'suggestAgain'>;
  readonly listFolder: ListFolder;
  /** URIs of the folders that are open. */
  readonly folders: readonly string[];
}

/** A folder with more in it is no folder of a case. */
const most = 1000;

/** Null where the cursor is in no path of a film or photo. */
export function pathAt(text: string, offset: number): PathAt | null {
  const start = startOfLine(text, offset);
  const [line] = parseLines(text.slice(start, offset));
  const [head, ...rest] = line?.items ?? [];
  const open = rest.pop();
  if (line?.comment || head?.kind !== 'word' || open?.kind !== 'broken' || !open.image.startsWith('"')) return null;
  const expected = expectedAfter(findRow(head.image)?.takes ?? [], rest);
  if (!expected.some(({ argument }) => argument.name === 'path')) return null;
  const after = /^(?:[^"\\\r\n]|\\[^\r\n])*(?=")/.exec(text.slice(offset))?.[0] ?? '';
  const before = text.slice(start + open.start + 1, offset);
  return { inside: { start: offset - before.length, end: offset + after.length }, before };
}

/**
 * Folders and pictures beside the case file, a folder at a time: pictures that the file does not name yet first, of them
 * those with the latest name. Only what lies in an open folder is listed, or beside the case file where none is open.
 */
export async function pathItems(
  document: TextDocument,
  tree: Tree,
  { inside, before }: PathAt,
  { client, listFolder, folders }: PathPlace,
): Promise<CompletionItem[]> {
  // The document may change while the folder is looked at.
  const range = rangeOf(document, inside);
  const { uri } = document;
  const used = usedIn(tree, uri, inside.start);
  const written = before.slice(0, before.lastIndexOf('/') + 1);
  const folder = beside(uri, unquote(`"${written}"`) || './');
  if (folder === null || unquote(`"${before}"`).includes('\\') || !mayList(folder, uri, folders)) return [];
  const entries = ((await listFolder(folder)) ?? []).filter((entry) => isOffered(entry, folder));
  const isUsed = ({ name }: FolderEntry): boolean => used.has(new URL(encodeURIComponent(name), folder).href);
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
      ...(!isFolder && isUsed(entry) && { detail: 'in this file already' }),
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

/** What can be written as a path, and is a folder or by its name a picture. */
function isOffered({ name, kind }: FolderEntry, folder: string): boolean {
  // oxlint-disable-next-line no-control-regex
  if (name.startsWith('.') || /[\u0000-\u001f\\/]/.test(name) || beside(folder, name) === null) return false;
  return kind === 'folder' || isPictureName(name);
}

/** The pictures that the other films and photos name, as URIs. */
function usedIn(tree: Tree, uri: string, except: number): ReadonlySet<string> {
  const used = new Set<string>();
  for (const { placed, statement } of everyStatement(tree)) {
    const path = statement.kind === 'header' ? statement.args.get('path')?.[0] : undefined;
    if (path?.kind !== 'text' || placed.start + path.start + 1 === except) continue;
    const target = beside(uri, path.value);
    if (target !== null) used.add(target);
  }
  return used;
}

/** As the preview shows pictures: of the open folders, or of the case file's own where it lies in none of them. */
function mayList(folder: string, uri: string, folders: readonly string[]): boolean {
  const open = folders.map(asFolder);
  const roots = open.some((root) => asFolder(uri).startsWith(root)) ? open : [asFolder(new URL('./', uri).href)];
  return roots.some((root) => asFolder(folder).startsWith(root));
}

/** Clients encode what they like; decoded, one folder is one text. */
function asFolder(uri: string): string {
  const closed = uri.endsWith('/') ? uri : `${uri}/`;
  try {
    return decodeURIComponent(closed);
  } catch {
    return closed;
  }
}
