import * as vscode from 'vscode';
import type { CaseServer } from './case-server.ts';
import { transferredPictures, type TransferredPicture } from './transferred-pictures.ts';
import type { NewPicture } from '../../shared/edits/film-notation.ts';
import { t } from '../../shared/language/words.ts';
import { pathFrom } from '../../shared/picture/picture-place.ts';
import { pictureRoots } from './pictures.ts';
import { saidBy } from './said-by-file.ts';

const selector: vscode.DocumentSelector = { language: 'hoof' };

const titleOfEdit = (): string => t('Film in this visit');

/** The MIME types that a picture may have on the clipboard or when dropped. */
const carriers = ['text/uri-list', 'files', 'image/*'];

/** Pictures that are dropped or pasted into a case file become film blocks. */
export function registerFilmDrops(server: CaseServer): vscode.Disposable[] {
  const paste = registerPaste(server);
  const kind = paste?.kind;
  const drop: vscode.DocumentDropEditProvider = {
    async provideDocumentDropEdits(document, position, transfer, token) {
      const edit = await filmEdit(server, document, position, transfer, token);
      // Nothing where it was dropped: the film goes where the visit has its films.
      return (
        edit && Object.assign(new vscode.DocumentDropEdit(''), { additionalEdit: edit, title: titleOfEdit(), kind })
      );
    },
  };
  if (!paste) return [vscode.languages.registerDocumentDropEditProvider(selector, drop)];
  const metadata = { providedDropEditKinds: [kind], dropMimeTypes: carriers };
  return [
    paste.registered,
    (vscode.languages.registerDocumentDropEditProvider as RegisterDrop)(selector, drop, metadata),
  ];
}

/** Newer editors have pasting beside dropping. Older ones may have it under way, and refuse to have it used: null. */
function registerPaste(server: CaseServer): { registered: vscode.Disposable; kind: DropKind } | null {
  try {
    const { languages, DocumentPasteEdit: Edit, DocumentDropOrPasteEditKind: kinds } = vscode as unknown as NewerEditor;
    const kind = kinds.Empty.append('ungula', 'film');
    const provider: PasteProvider = {
      async provideDocumentPasteEdits(document, [range], transfer, _context, token) {
        const edit = range && (await filmEdit(server, document, range.start, transfer, token));
        return edit ? [Object.assign(new Edit('', titleOfEdit(), kind), { additionalEdit: edit })] : undefined;
      },
    };
    const metadata = { providedPasteEditKinds: [kind], pasteMimeTypes: carriers };
    return { registered: languages.registerDocumentPasteEditProvider(selector, provider, metadata), kind };
  } catch {
    return null;
  }
}

async function filmEdit(
  server: CaseServer,
  document: vscode.TextDocument,
  position: vscode.Position,
  transfer: vscode.DataTransfer,
  token: vscode.CancellationToken,
): Promise<vscode.WorkspaceEdit | undefined> {
  const pictures = await transferredPictures(transfer);
  if (pictures.length === 0) return undefined;
  if (document.uri.scheme === 'untitled') {
    void vscode.window.showWarningMessage(
      t(
        'Save this case file first, then drop the picture again: a film names its picture by the path from the case file’s folder.',
      ),
    );
    return undefined;
  }
  const folder = vscode.Uri.joinPath(document.uri, '..');
  const asked: NewPicture[] = [];
  // One after the other: a film is held in memory as a whole.
  for (const picture of pictures) {
    const { name, uri } = picture;
    const said = await saidBy(name, () => picture.read());
    asked.push({ name, path: uri ? pathWithin(document.uri, uri) : null, said });
  }
  const made = await server.newFilms(document, position, {
    pictures: asked,
    taken: await namesIn(vscode.Uri.joinPath(folder, 'films')),
  });
  if (!made || token.isCancellationRequested) return undefined;
  // One edit, so that one undo takes text and copies back together.
  const edit = new vscode.WorkspaceEdit();
  try {
    for (const [index, copy] of made.copies.entries())
      if (copy !== null)
        edit.createFile(vscode.Uri.joinPath(folder, copy), { contents: await bytesOf(pictures[index]) });
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    void vscode.window.showWarningMessage(
      t(
        'The picture could not be copied beside the case file ({0}). Copy it into the folder yourself, and drop it from there.',
        why,
      ),
    );
    return undefined;
  }
  edit.set(document.uri, [new vscode.SnippetTextEdit(made.range, new vscode.SnippetString(made.snippet))]);
  return edit;
}

/** The path of a picture from the case file's folder; null where a film could not show it from there. */
export function pathWithin(caseFile: vscode.Uri, picture: vscode.Uri): string | null {
  const roots = pictureRoots(caseFile).filter(
    ({ scheme, authority }) => scheme === picture.scheme && authority === picture.authority,
  );
  return pathFrom(
    vscode.Uri.joinPath(caseFile, '..').path,
    picture.path,
    roots.map(({ path }) => path),
  );
}

export async function namesIn(folder: vscode.Uri): Promise<string[]> {
  try {
    return (await vscode.workspace.fs.readDirectory(folder)).map(([name]) => name);
  } catch {
    return [];
  }
}

async function bytesOf(picture: TransferredPicture | undefined): Promise<Uint8Array> {
  if (!picture) throw new Error(t('it is not there any more'));
  return picture.read();
}

interface DropKind {
  append(...parts: string[]): DropKind;
}

interface PasteProvider {
  provideDocumentPasteEdits(
    document: vscode.TextDocument,
    ranges: readonly vscode.Range[],
    transfer: vscode.DataTransfer,
    context: unknown,
    token: vscode.CancellationToken,
  ): Promise<object[] | undefined>;
}

type RegisterDrop = (
  selector: vscode.DocumentSelector,
  provider: vscode.DocumentDropEditProvider,
  metadata: { providedDropEditKinds: readonly (DropKind | undefined)[]; dropMimeTypes: readonly string[] },
) => vscode.Disposable;

interface NewerEditor {
  readonly languages: {
    registerDocumentPasteEditProvider(
      selector: vscode.DocumentSelector,
      provider: PasteProvider,
      metadata: { providedPasteEditKinds: readonly DropKind[]; pasteMimeTypes: readonly string[] },
    ): vscode.Disposable;
  };
  readonly DocumentPasteEdit: new (insertText: string, title: string, kind: DropKind) => object;
  readonly DocumentDropOrPasteEditKind: { readonly Empty: DropKind };
}
