import * as vscode from 'vscode';
import { LanguageClient, TransportKind, type ServerOptions } from 'vscode-languageclient/node';
import { begin } from './begin.ts';
import { nodeThread } from './node-thread.ts';
import type { Surroundings } from './surroundings.ts';
import { WorkerDecoder } from './worker-decoder.ts';

/** The desktop, and any other place with Node: the server is a process, the decoders are a thread. */
const desktop: Surroundings = {
  link(context, options) {
    const module = vscode.Uri.joinPath(context.extensionUri, 'dist', 'server.cjs').fsPath;
    const server: ServerOptions = {
      run: { module, transport: TransportKind.ipc },
      debug: { module, transport: TransportKind.ipc, options: { execArgv: ['--nolazy', '--inspect=6021'] } },
    };
    // The client ends the process itself.
    return { client: new LanguageClient('ungula', 'Ungula', server, options), end: () => {} };
  },
  decoder: ({ extensionUri }) => {
    const { fsPath } = vscode.Uri.joinPath(extensionUri, 'dist', 'picture-decoder.thread.cjs');
    return new WorkerDecoder(() => nodeThread(fsPath));
  },
};

export const activate = (context: vscode.ExtensionContext): Promise<void> => begin(context, desktop);
