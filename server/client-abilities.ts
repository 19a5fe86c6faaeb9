import type { ClientCapabilities } from 'vscode-languageserver';

/** The few things that the server does one way or the other, by what the client can. */
export interface ClientAbilities {
  readonly snippets: boolean;
  readonly relatedInformation: boolean;
  /** Edits that name the version of the document that they are meant for. */
  readonly versionedEdits: boolean;
  readonly configuration: boolean;
  readonly configurationRegistration: boolean;
  readonly watcherRegistration: boolean;
  /** Parameters of a signature as places in its label. */
  readonly labelOffsets: boolean;
  readonly prepareRename: boolean;
  readonly inlayHintRefresh: boolean;
  readonly codeLensRefresh: boolean;
  /** Reads and lists files for the server (`shared/protocol/files.ts`). */
  readonly answersForFiles: boolean;
  /** Where the client keeps the pages about codes, as a URI that ends in a slash; null where it has none. */
  readonly docs: string | null;
}

export function clientAbilities(capabilities: ClientCapabilities | undefined, options?: unknown): ClientAbilities {
  const { textDocument, workspace } = capabilities ?? {};
  return {
    snippets: textDocument?.completion?.completionItem?.snippetSupport === true,
    relatedInformation: textDocument?.publishDiagnostics?.relatedInformation === true,
    versionedEdits: workspace?.workspaceEdit?.documentChanges === true,
    configuration: workspace?.configuration === true,
    configurationRegistration: workspace?.didChangeConfiguration?.dynamicRegistration === true,
    watcherRegistration: workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
    labelOffsets: textDocument?.signatureHelp?.signatureInformation?.parameterInformation?.labelOffsetSupport === true,
    prepareRename: textDocument?.rename?.prepareSupport === true,
    inlayHintRefresh: workspace?.inlayHint?.refreshSupport === true,
    codeLensRefresh: workspace?.codeLens?.refreshSupport === true,
    answersForFiles: saysOf(options, 'answersForFiles') === true,
    docs: docsIn(options),
  };
}

function docsIn(options: unknown): string | null {
  const docs = saysOf(options, 'docs');
  return typeof docs === 'string' && docs.endsWith('/') ? docs : null;
}

function saysOf(options: unknown, name: string): unknown {
  return typeof options === 'object' && options !== null ? (options as Record<string, unknown>)[name] : undefined;
}
