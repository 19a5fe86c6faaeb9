import * as vscode from 'vscode';
import { LanguageClient, TransportKind, type ServerOptions } from 'vscode-languageclient/node';
import { usePicture } from '../../disk/use-picture.ts';
import { begin } from './begin.ts';
import { editorFiles } from './editor-files.ts';
import { nodeThread } from './node-thread.ts';
import { PageMaker } from './page-maker.ts';
import { pageWorker } from './page-worker.ts';
import type { Platform } from './platform.ts';
import { WorkerDecoder } from './worker-decoder.ts';

const byEditor = editorFiles(vscode.workspace.fs);

/** The desktop, and any other place with Node: the server is a process, the decoders are a thread. */
const desktop: Platform = {
  link(context, options) {
    const module = vscode.Uri.joinPath(context.extensionUri, 'dist', 'server.js').fsPath;
    const server: ServerOptions = {
      run: { module, transport: TransportKind.ipc },
      debug: { module, transport: TransportKind.ipc, options: { execArgv: ['--nolazy', '--inspect=6021'] } },
    };
    // The client ends the process itself.
    return { client: new LanguageClient('ungula', 'Ungula', server, options), end: () => {} };
  },
  // On the disk by Node, which can tell where links lead and reads by pieces.
  files: (uri, roots, use) =>
    uri.scheme === 'file'
      ? usePicture(
          uri.fsPath,
          roots.map(({ fsPath }) => fsPath),
          use,
        )
      : byEditor(uri, roots, use),
  decoder: ({ extensionUri }) => {
    const { fsPath } = vscode.Uri.joinPath(extensionUri, 'dist', 'picture-decoder.thread.cjs');
    return new WorkerDecoder(() => nodeThread(fsPath));
  },
  pages: ({ extensionUri }) => {
    const { fsPath } = vscode.Uri.joinPath(extensionUri, 'dist', 'cli.js');
    return new PageMaker(() => pageWorker(fsPath));
  },
};

export const activate = (context: vscode.ExtensionContext): Promise<void> => begin(context, desktop);
