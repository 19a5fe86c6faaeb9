import type { Range } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { largestFile } from '../../shared/findings/engine/file-problems.ts';
import { parse } from '../../shared/notation/parse.ts';
import { isCase } from '../serving/inspections.ts';
import { namedIn } from '../features/mentions.ts';
import { rangeOf } from '../text/ranges.ts';
import { decode } from './decode.ts';
import { Pauses } from './pause.ts';
import type { KnownCase, Workspace } from './workspace.ts';

type SharedName = 'reader' | 'code';

/** A case other than the one that is asked from, as it stands now. */
export interface OtherText {
  readonly uri: string;
  /** Its name in messages. */
  readonly called: string;
  /** Null for a file that is not open. */
  readonly version: number | null;
  /** False where it holds bytes that are not UTF-8. */
  readonly sound: boolean;
  places(name: string): Range[];
}

/**
 * The cases of the workspace that may hold one of the names. What is not open is read from the disk once more: places
 * that are changed must be those of the file as it is, not as it was when it was indexed. Where nobody tells of files that
 * change, every file may hold the names.
 */
export async function* otherTexts(
  workspace: Workspace,
  document: TextDocument,
  names: readonly string[],
  kind: SharedName,
): AsyncGenerator<OtherText> {
  const pauses = new Pauses();
  for (const one of [...workspace.cases()].sort((a, b) => (a.key < b.key ? -1 : 1))) {
    if (one.document === document || (workspace.hearsOfChanges && !holds(one, names, kind))) continue;
    const now = one.document ? { document: one.document, sound: true } : await read(workspace, one.uri);
    await pauses.now();
    if (!now || !isCase(now.document)) continue;
    const tree = parse(now.document.getText());
    yield {
      uri: one.uri,
      called: workspace.index.called(one.key),
      version: one.document?.version ?? null,
      sound: now.sound,
      places: (name) => namedIn(tree, kind, name).map((span) => rangeOf(now.document, span)),
    };
  }
}

function holds({ entry }: KnownCase, names: readonly string[], kind: SharedName): boolean {
  return kind === 'code'
    ? names.includes(entry.facts.code?.value ?? '')
    : entry.names.some((one) => one.kind === 'reader' && names.includes(one.name));
}

async function read(workspace: Workspace, uri: string): Promise<{ document: TextDocument; sound: boolean } | null> {
  const bytes = await workspace.read(uri, largestFile);
  if (!bytes || bytes === 'too large') return null;
  const { text, problem } = decode(bytes);
  return { document: TextDocument.create(uri, 'hoof', 0, text), sound: problem === null };
}
