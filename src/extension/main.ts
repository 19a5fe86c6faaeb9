import * as vscode from 'vscode';
import { CaseServer } from './language-client.ts';
import { PREVIEW, Preview } from './preview-panel.ts';

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const server = new CaseServer(context);
  const preview = new Preview(context.extensionUri, server);
  context.subscriptions.push(
    server,
    preview,
    vscode.window.registerWebviewPanelSerializer(PREVIEW, preview),
    vscode.commands.registerCommand('ungula.openPreview', (file?: vscode.Uri) => preview.open(file)),
    vscode.commands.registerCommand('ungula.restartServer', () => server.restart()),
  );
  await server.start();
}
