import * as vscode from 'vscode';
import { DecodedPictures } from './decoded-pictures.ts';
import { CaseServer } from './language-client.ts';
import { PREVIEW, Preview } from './preview-panel.ts';

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const server = new CaseServer(context);
  const decoded = new DecodedPictures(vscode.Uri.joinPath(context.globalStorageUri, 'pictures'));
  const preview = new Preview(context.extensionUri, server, decoded);
  context.subscriptions.push(
    server,
    preview,
    vscode.window.registerWebviewPanelSerializer(PREVIEW, preview),
    vscode.commands.registerCommand('ungula.openPreview', (file?: vscode.Uri) => preview.open(file)),
    vscode.commands.registerCommand('ungula.restartServer', () => server.restart()),
  );
  await Promise.all([decoded.clear(), server.start()]);
}
