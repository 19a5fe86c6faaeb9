import type { Position, Range, ServerCapabilities } from 'vscode-languageserver';

/** What a random request is made of. */
export interface Draw {
  readonly uri: string;
  below(count: number): number;
  position(): Position;
  range(): Range;
  /** Something that an earlier answer held, to be asked about in turn; null where there is none yet. */
  earlier(method: string): unknown;
  /** By which an earlier answer of the method is known to the server. */
  earlierId(method: string): string;
}

interface Request {
  readonly method: string;
  /** What has to be announced below the key. */
  readonly needs?: string;
  params(draw: Draw): unknown;
}

const document = ({ uri }: Draw) => ({ textDocument: { uri } });
const atPosition = (draw: Draw) => ({ ...document(draw), position: draw.position() });
const inRange = (draw: Draw) => ({ ...document(draw), range: draw.range() });
const layout = { options: { tabSize: 2, insertSpaces: true } };
const words = ['', 'a', 'p3.tip', 'toe', '🐴', 'LF', 'two words', '"'];
const word = (draw: Draw) => words[draw.below(words.length)] ?? '';
const kinds = [undefined, ['quickfix'], ['refactor.rewrite'], ['source.fixAll'], ['nothing.known'], []];

function of(method: string, params: Request['params'], needs?: string): Request {
  return { method: `textDocument/${method}`, params, ...(needs !== undefined && { needs }) };
}

/** Asks for the rest of something that an earlier answer left out. */
function resolving(method: string, of: string): Request {
  return { method, needs: 'resolveProvider', params: (draw) => draw.earlier(of) ?? neverOffered };
}

const neverOffered = { title: 'never offered', label: 'never offered', range: null };

/** What may be asked of a server that announces the key: the requests of the protocol, so that a new feature is in at once. */
const requests: Readonly<Record<string, readonly Request[]>> = {
  hoverProvider: [of('hover', atPosition)],
  completionProvider: [
    of('completion', (draw) => ({
      ...atPosition(draw),
      context: { triggerKind: 1 + draw.below(3), triggerCharacter: '.' },
    })),
    resolving('completionItem/resolve', 'textDocument/completion'),
  ],
  signatureHelpProvider: [of('signatureHelp', atPosition)],
  declarationProvider: [of('declaration', atPosition)],
  definitionProvider: [of('definition', atPosition)],
  typeDefinitionProvider: [of('typeDefinition', atPosition)],
  implementationProvider: [of('implementation', atPosition)],
  referencesProvider: [
    of('references', (draw) => ({ ...atPosition(draw), context: { includeDeclaration: draw.below(2) === 0 } })),
  ],
  documentHighlightProvider: [of('documentHighlight', atPosition)],
  documentSymbolProvider: [of('documentSymbol', document)],
  codeActionProvider: [
    of('codeAction', (draw) => ({
      ...inRange(draw),
      context: { diagnostics: [], only: kinds[draw.below(kinds.length)] },
    })),
    resolving('codeAction/resolve', 'textDocument/codeAction'),
  ],
  codeLensProvider: [of('codeLens', document), resolving('codeLens/resolve', 'textDocument/codeLens')],
  documentLinkProvider: [of('documentLink', document), resolving('documentLink/resolve', 'textDocument/documentLink')],
  colorProvider: [of('documentColor', document)],
  documentFormattingProvider: [of('formatting', (draw) => ({ ...document(draw), ...layout }))],
  documentRangeFormattingProvider: [
    of('rangeFormatting', (draw) => ({ ...inRange(draw), ...layout })),
    of(
      'rangesFormatting',
      (draw) => ({
        ...document(draw),
        ranges: Array.from({ length: draw.below(4) }, () => draw.range()),
        ...layout,
      }),
      'rangesSupport',
    ),
  ],
  documentOnTypeFormattingProvider: [of('onTypeFormatting', (draw) => ({ ...atPosition(draw), ch: '\n', ...layout }))],
  renameProvider: [
    of('prepareRename', atPosition, 'prepareProvider'),
    of('rename', (draw) => ({ ...atPosition(draw), newName: word(draw) })),
  ],
  foldingRangeProvider: [of('foldingRange', document)],
  selectionRangeProvider: [
    of('selectionRange', (draw) => ({
      ...document(draw),
      positions: Array.from({ length: draw.below(4) }, () => draw.position()),
    })),
  ],
  linkedEditingRangeProvider: [of('linkedEditingRange', atPosition)],
  semanticTokensProvider: [
    of('semanticTokens/full', document, 'full'),
    of(
      'semanticTokens/full/delta',
      (draw) => ({ ...document(draw), previousResultId: draw.earlierId('textDocument/semanticTokens/full') }),
      'full.delta',
    ),
    of('semanticTokens/range', inRange, 'range'),
  ],
  inlayHintProvider: [of('inlayHint', inRange), resolving('inlayHint/resolve', 'textDocument/inlayHint')],
  diagnosticProvider: [
    of('diagnostic', document),
    {
      method: 'workspace/diagnostic',
      needs: 'workspaceDiagnostics',
      params: (draw) => ({ previousResultIds: draw.below(2) === 0 ? [] : [{ uri: draw.uri, value: word(draw) }] }),
    },
  ],
  workspaceSymbolProvider: [{ method: 'workspace/symbol', params: (draw) => ({ query: word(draw) }) }],
  executeCommandProvider: [
    { method: 'workspace/executeCommand', params: (draw) => ({ command: word(draw), arguments: [draw.uri] }) },
  ],
};

/** Announced, but nothing that a client asks. */
const unasked = new Set(['positionEncoding', 'textDocumentSync', 'workspace', 'experimental']);

export function announcedRequests(capabilities: ServerCapabilities): readonly Request[] {
  const keys = Object.entries(capabilities).flatMap(([key, value]) =>
    unasked.has(key) || value === false || value === undefined || value === null ? [] : [key],
  );
  const unknown = keys.filter((key) => !(key in requests));
  if (unknown.length > 0)
    throw new Error(`the server announces ${unknown.join(', ')}; add how to ask for it to announced.ts`);
  const asked = keys.flatMap((key) =>
    (requests[key] ?? []).filter(({ needs }) => needs === undefined || has(capabilities, key, needs)),
  );
  return [
    ...asked,
    ...['ungula/sheets', 'ungula/course', 'ungula/pageGrounds'].map((method) => ({ method, params: document })),
  ];
}

function has(capabilities: ServerCapabilities, key: string, needs: string): boolean {
  let value: unknown = capabilities;
  for (const step of [key, ...needs.split('.')])
    value = typeof value === 'object' && value !== null ? (value as Record<string, unknown>)[step] : undefined;
  return Boolean(value);
}
