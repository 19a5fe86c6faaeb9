import * as vscode from 'vscode';
import type { SaveMessage } from './course-messages.ts';

const kinds: Readonly<Record<SaveMessage['kind'], { readonly words: string; readonly ending: string }>> = {
  svg: { words: 'Drawing (SVG)', ending: 'svg' },
  png: { words: 'Picture (PNG)', ending: 'png' },
  csv: { words: 'Table (CSV)', ending: 'csv' },
};

/** Asks where to, and writes what the page has made; the answer says how it went. Nothing is written that a person has not named. */
export async function saveFromPage({ kind, name, content }: SaveMessage, caseFile: vscode.Uri | null): Promise<string> {
  const { words, ending } = kinds[kind];
  const file = `${name}.${ending}`;
  const beside = caseFile && caseFile.scheme !== 'untitled' ? vscode.Uri.joinPath(caseFile, '..', file) : null;
  const chosen = await vscode.window.showSaveDialog({
    filters: { [words]: [ending] },
    title: `Save the course as ${ending.toUpperCase()}`,
    ...(beside && { defaultUri: beside }),
  });
  if (!chosen) return 'Nothing was saved.';
  try {
    await writeWhole(chosen, bytesOf(kind, content));
    return `Saved as ${chosen.path.slice(chosen.path.lastIndexOf('/') + 1)}.`;
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return `It could not be saved (${why}). Choose another folder, one that you may write to.`;
  }
}

function bytesOf(kind: SaveMessage['kind'], content: string): Uint8Array {
  if (kind !== 'png') return new TextEncoder().encode(content);
  return Uint8Array.from(atob(content), (letter) => letter.charCodeAt(0));
}

/** Beside the file, then renamed: nothing is ever written half. */
async function writeWhole(file: vscode.Uri, bytes: Uint8Array): Promise<void> {
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
