import type * as vscode from 'vscode';
import type { BaseLanguageClient, LanguageClientOptions } from 'vscode-languageclient';
import type { UsePicture } from '../../shared/picture/picture-files.ts';
import type { PageMaker } from './page-maker.ts';
import type { Showable } from '../../shared/picture/shown-picture.ts';

/** A client connected to the language server. */
export interface ServerLink {
  readonly client: BaseLanguageClient;
  /** Ends what still runs after the client has stopped. */
  end(): void;
}

/** All that differs between a desktop and a browser. Each entry point of the extension brings its own. */
export interface Platform {
  link(context: vscode.ExtensionContext, options: LanguageClientOptions): ServerLink;
  /** Opens the pictures of cases. */
  readonly files: UsePicture<vscode.Uri>;
  /** Makes a picture that no page can show into one that it can. */
  decoder(context: vscode.ExtensionContext): Decoder;
  /** Makes the pages that are handed over. */
  pages(context: vscode.ExtensionContext): PageMaker;
}

export interface Decoder {
  /** Never rejects: what cannot be shown is told in a sentence. */
  showable(bytes: Uint8Array): Promise<Showable>;
  dispose(): void;
}
