import * as vscode from 'vscode';
import { CaseServer } from './case-server.ts';
import { DecodedPictures } from './decoded-pictures.ts';
import { registerFilmDrops } from './film-drops.ts';
import { pictureFolder } from './picture-folder.ts';
import { PREVIEW, Preview } from './preview-panel.ts';
import { useWords } from '../messages/words.ts';
import type { Surroundings } from './surroundings.ts';

/** Everything that the extension is, wherever it runs. */
export async function begin(context: vscode.ExtensionContext, surroundings: Surroundings): Promise<void> {
  useWords(vscode.l10n.bundle);
  const server = new CaseServer(context, surroundings);
  const decoder = surroundings.decoder(context);
  const pictures = vscode.Uri.joinPath(context.globalStorageUri, 'pictures');
  const decoded = new DecodedPictures(pictureFolder(pictures), decoder);
  const preview = new Preview(context.extensionUri, server, {
    files: surroundings.files,
    decoded,
    decodedFolder: pictures,
  });
  context.subscriptions.push(
    server,
    decoder,
    preview,
    ...registerFilmDrops(server),
    vscode.window.registerWebviewPanelSerializer(PREVIEW, preview),
    vscode.commands.registerCommand('ungula.openPreview', (file?: vscode.Uri) => preview.open(file)),
    vscode.commands.registerCommand('ungula.restartServer', () => server.restart()),
  );
  await Promise.all([decoded.sweep(Date.now()), server.start()]);
}
