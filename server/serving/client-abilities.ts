import { MarkupKind, type ClientCapabilities } from 'vscode-languageserver';

/** What the client can, as far as the server's answers depend on it. */
export interface ClientAbilities {
  readonly snippets: boolean;
  readonly relatedInformation: boolean;
  /** The format of descriptions: the first that the client names, else plain text. */
  readonly hoverFormat: MarkupKind;
  readonly completionFormat: MarkupKind;
  /** Edits that name the version of the document that they are meant for. */
  readonly versionedEdits: boolean;
  /** Edits of code actions that say where the cursor goes. */
  readonly snippetEdits: boolean;
  /** Formatting of several ranges at once. */
  readonly formatsRanges: boolean;
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
  /** The client pulls diagnostics; they are then not pushed. */
  readonly pullsDiagnostics: boolean;
  readonly diagnosticsRefresh: boolean;
  /** Several folders may be open, and come and go. */
  readonly workspaceFolders: boolean;
  /** Where the client keeps the pages about codes, as a URI that ends in a slash; null where it has none. */
  readonly docs: string | null;
  /** The client's command that asks for completions again, after a folder was taken; null where it has none. */
  readonly suggestAgain: string | null;
  /** The client's command that opens placing at a landmark: URI, line of the film's header, word of the landmark; null where it has none. */
  readonly placeLandmark: string | null;
  /** The client's command that brings a line to the front, after an action has written it: URI, line; null where it has none. */
  readonly showLine: string | null;
  /** The client's command that shows the preview at a line: URI, line; null where it has none. */
  readonly preview: string | null;
  /** The client's command that offers plans for a film: URI, line of its header; null where it has none. */
  readonly planTrim: string | null;
  /** The client's command that makes a page to hand over: URI; null where it has none. */
  readonly handOver: string | null;
  /** Shows actions that cannot be chosen, with the reason. */
  readonly disabledActions: boolean;
}

export function clientAbilities(capabilities: ClientCapabilities | undefined, options?: unknown): ClientAbilities {
  const { textDocument, workspace } = capabilities ?? {};
  return {
    snippets: textDocument?.completion?.completionItem?.snippetSupport === true,
    // From 3.18 on the protocol has it under the pull model too.
    relatedInformation:
      textDocument?.publishDiagnostics?.relatedInformation === true ||
      textDocument?.diagnostic?.relatedInformation === true,
    hoverFormat: formatIn(textDocument?.hover?.contentFormat),
    completionFormat: formatIn(textDocument?.completion?.completionItem?.documentationFormat),
    versionedEdits: workspace?.workspaceEdit?.documentChanges === true,
    snippetEdits: workspace?.workspaceEdit?.snippetEditSupport === true,
    formatsRanges: textDocument?.rangeFormatting?.rangesSupport === true,
    configuration: workspace?.configuration === true,
    configurationRegistration: workspace?.didChangeConfiguration?.dynamicRegistration === true,
    watcherRegistration: workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
    labelOffsets: textDocument?.signatureHelp?.signatureInformation?.parameterInformation?.labelOffsetSupport === true,
    prepareRename: textDocument?.rename?.prepareSupport === true,
    inlayHintRefresh: workspace?.inlayHint?.refreshSupport === true,
    codeLensRefresh: workspace?.codeLens?.refreshSupport === true,
    answersForFiles: saysOf(options, 'answersForFiles') === true,
    pullsDiagnostics: isObject(textDocument?.diagnostic),
    diagnosticsRefresh: workspace?.diagnostics?.refreshSupport === true,
    workspaceFolders: workspace?.workspaceFolders === true,
    docs: docsIn(options),
    suggestAgain: commandIn(options, 'suggestAgain'),
    placeLandmark: commandIn(options, 'placeLandmark'),
    showLine: commandIn(options, 'showLine'),
    preview: commandIn(options, 'preview'),
    planTrim: commandIn(options, 'planTrim'),
    handOver: commandIn(options, 'handOver'),
    disabledActions: textDocument?.codeAction?.disabledSupport === true,
  };
}

const isObject = (value: unknown): value is object => typeof value === 'object' && value !== null;

function formatIn(named: unknown): MarkupKind {
  const known = (Array.isArray(named) ? (named as unknown[]) : []).find(
    (one) => one === MarkupKind.Markdown || one === MarkupKind.PlainText,
  );
  return known === MarkupKind.Markdown ? MarkupKind.Markdown : MarkupKind.PlainText;
}

function docsIn(options: unknown): string | null {
  const docs = saysOf(options, 'docs');
  return typeof docs === 'string' && docs.endsWith('/') ? docs : null;
}

function commandIn(options: unknown, name: string): string | null {
  const command = saysOf(options, name);
  return typeof command === 'string' && command !== '' ? command : null;
}

function saysOf(options: unknown, name: string): unknown {
  return isObject(options) ? (options as Record<string, unknown>)[name] : undefined;
}
