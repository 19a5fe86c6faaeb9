import * as vscode from 'vscode';
import { BrowserMessageReader, BrowserMessageWriter, LanguageClient } from 'vscode-languageclient/browser';
import { begin } from './begin.ts';
import { editorFiles } from './editor-files.ts';
import { PageMaker } from './page-maker.ts';
import { pageWebWorker } from './page-web-worker.ts';
import type { Platform } from './platform.ts';
import { WorkerDecoder } from './worker-decoder.ts';

/** A browser: the server, the decoders and what makes pages are web workers. */
const browser: Platform = {
  link(context, options) {
    let worker: Worker | null = null;
    const end = (): void => {
      worker?.terminate();
      worker = null;
    };
    const server = async () => {
      end();
      worker = workerOf(context, 'server.worker.js');
      // Not the worker itself: the extension host has a `Worker` of its own, by which the client would not know it for one.
      return { reader: new BrowserMessageReader(worker), writer: new BrowserMessageWriter(worker) };
    };
    return { client: new LanguageClient('ungula', 'Ungula', server, options), end };
  },
  files: editorFiles(vscode.workspace.fs),
  // The server's own bundle, which holds all that a page takes.
  pages: (context) => new PageMaker(() => pageWebWorker(workerOf(context, 'server.worker.js')), false),
  decoder: (context) => new WorkerDecoder(() => workerOf(context, 'picture-decoder.worker.js')),
};

function workerOf(context: vscode.ExtensionContext, bundle: string): Worker {
  return new Worker(vscode.Uri.joinPath(context.extensionUri, 'dist', bundle).toString(true));
}

export const activate = (context: vscode.ExtensionContext): Promise<void> => begin(context, browser);
