import * as vscode from 'vscode';
import { t } from '../../shared/language/words.ts';
import type { SaveMessage } from '../messages/course-messages.ts';

/** What becomes a file that a person names. */
type SavedKind = Exclude<SaveMessage['kind'], 'print'>;

const wordsOf = (kind: SavedKind): string =>
  ({
    svg: t('Drawing (SVG)'),
    png: t('Picture (PNG)'),
    csv: t('Table (CSV)'),
  })[kind];

/** Asks where to, and writes what the page has made; the answer says how it went. Nothing is written that a person has not named. */
export async function saveFromPage(
  { kind, name, content }: Pick<SaveMessage, 'name' | 'content'> & { readonly kind: SavedKind },
  caseFile: vscode.Uri | null,
): Promise<string> {
  const file = `${name}.${kind}`;
  const beside = caseFile && caseFile.scheme !== 'untitled' ? vscode.Uri.joinPath(caseFile, '..', file) : null;
  const chosen = await vscode.window.showSaveDialog({
    filters: { [wordsOf(kind)]: [kind] },
    title: t('Save as {0}', kind.toUpperCase()),
    ...(beside && { defaultUri: beside }),
  });
  if (!chosen) return t('Nothing was saved.');
  try {
    await writeWhole(chosen, bytesOf(kind, content));
    return t('Saved as {0}.', chosen.path.slice(chosen.path.lastIndexOf('/') + 1));
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return t('It could not be saved ({0}). Choose another folder, one that you may write to.', why);
  }
}

function bytesOf(kind: SavedKind, content: string): Uint8Array {
  if (kind !== 'png') return new TextEncoder().encode(content);
  return Uint8Array.from(atob(content), (letter) => letter.charCodeAt(0));
}

/** Beside the file, then renamed: nothing is ever written half. */
export async function writeWhole(file: vscode.Uri, bytes: Uint8Array): Promise<void> {
  const { fs } = vscode.workspace;
  const beside = file.with({ path: `${file.path}.${crypto.randomUUID().slice(0, 8)}.part` });
  try {
    await fs.writeFile(beside, bytes);
    await fs.rename(beside, file, { overwrite: true });
  } catch (error) {
    await Promise.resolve(fs.delete(beside)).catch(() => undefined);
    throw error;
  }
}
