import type { ClientCapabilities } from 'vscode-languageserver';

/** The few things that the server does one way or the other, by what the client can. */
export interface ClientAbilities {
  readonly snippets: boolean;
  readonly relatedInformation: boolean;
  /** Edits that name the version of the document that they are meant for. */
  readonly versionedEdits: boolean;
  readonly configuration: boolean;
  readonly configurationRegistration: boolean;
}

export function clientAbilities(capabilities: ClientCapabilities | undefined): ClientAbilities {
  const { textDocument, workspace } = capabilities ?? {};
  return {
    snippets: textDocument?.completion?.completionItem?.snippetSupport === true,
    relatedInformation: textDocument?.publishDiagnostics?.relatedInformation === true,
    versionedEdits: workspace?.workspaceEdit?.documentChanges === true,
    configuration: workspace?.configuration === true,
    configurationRegistration: workspace?.didChangeConfiguration?.dynamicRegistration === true,
  };
}
