import * as vscode from 'vscode';
import { CaseServer } from './case-server.ts';
import { DecodedPictures } from './decoded-pictures.ts';
import { DueList } from './due-list.ts';
import { registerFilmDrops } from './film-drops.ts';
import { FootStatus } from './foot-status.ts';
import { addVisit, newCase } from './new-case.ts';
import { pictureFolder } from './picture-folder.ts';
import { HandedPages } from './page-panel.ts';
import { planTrim } from './plan-trim.ts';
import { PREVIEW, Preview } from './preview-panel.ts';
import { showLine } from './show-line.ts';
import { StructuredReports } from './structured-reports.ts';
import { useWords } from '../../shared/language/words.ts';
import type { Platform } from './platform.ts';

/** Everything that the extension is, wherever it runs. */
export async function begin(context: vscode.ExtensionContext, platform: Platform): Promise<void> {
  useWords(vscode.l10n.bundle);
  const server = new CaseServer(context, platform);
  const decoder = platform.decoder(context);
  const pictures = vscode.Uri.joinPath(context.globalStorageUri, 'pictures');
  const decoded = new DecodedPictures(pictureFolder(pictures), decoder);
  const preview = new Preview(context.extensionUri, server, {
    files: platform.files,
    decoded,
    decodedFolder: pictures,
    printFolder: vscode.Uri.joinPath(context.globalStorageUri, 'print'),
    kept: context.globalState,
  });
  const pages = new HandedPages({
    server,
    maker: platform.pages(context),
    files: platform.files,
    decoder,
    folder: vscode.Uri.joinPath(context.globalStorageUri, 'pages'),
    previewed: () => preview.document,
    besideText: () => preview.column ?? vscode.ViewColumn.Beside,
  });
  const reports = new StructuredReports({
    server,
    maker: platform.pages(context),
    files: platform.files,
    previewed: () => preview.document,
  });
  context.subscriptions.push(
    server,
    decoder,
    preview,
    pages,
    reports,
    new FootStatus(server),
    new DueList(server),
    ...registerFilmDrops(server),
    vscode.window.registerWebviewPanelSerializer(PREVIEW, preview),
    vscode.commands.registerCommand('ungula.openPreview', (file?: vscode.Uri) => preview.open(file)),
    vscode.commands.registerCommand('ungula.placeLandmark', (uri: unknown, line: unknown, landmark: unknown) =>
      preview.placeAt(uri, line, landmark),
    ),
    vscode.commands.registerCommand('ungula.showLine', showLine),
    vscode.commands.registerCommand('ungula.showPreview', (uri: unknown, line: unknown) => preview.showAt(uri, line)),
    vscode.commands.registerCommand('ungula.planTrim', planTrim),
    // The menu on a drawing of the preview.
    vscode.commands.registerCommand('ungula.copyDrawing', () => preview.take('copy')),
    vscode.commands.registerCommand('ungula.savePicture', () => preview.take('png')),
    vscode.commands.registerCommand('ungula.saveDrawing', () => preview.take('svg')),
    vscode.commands.registerCommand('ungula.printDrawing', () => preview.take('print')),
    vscode.commands.registerCommand('ungula.newCase', (folder?: vscode.Uri) =>
      newCase((file) => preview.open(file), folder),
    ),
    vscode.commands.registerCommand('ungula.addVisit', () => addVisit((file) => preview.open(file))),
    vscode.commands.registerCommand('ungula.handOver', (file?: unknown) => pages.open(uriOf(file))),
    vscode.commands.registerCommand('ungula.structuredReport', () => reports.write()),
    // The buttons of the page's own pane.
    vscode.commands.registerCommand('ungula.savePage', () => pages.save()),
    vscode.commands.registerCommand('ungula.printPage', () => pages.print()),
    vscode.commands.registerCommand('ungula.copyPage', () => pages.copy()),
    vscode.commands.registerCommand('ungula.restartServer', () => server.restart()),
  );
  await Promise.all([decoded.sweep(Date.now()), server.start()]);
}

/** What a menu or a lens says of a file; undefined where neither stands for one. */
function uriOf(file: unknown): vscode.Uri | undefined {
  if (file instanceof vscode.Uri) return file;
  return typeof file === 'string' ? vscode.Uri.parse(file, true) : undefined;
}
