import {
  CodeLensRefreshRequest,
  MessageType,
  ShowMessageNotification,
  TextDocumentSyncKind,
  TextDocuments,
  type CancellationToken,
  type CodeAction,
  type CompletionParams,
  type Connection,
  type DocumentOnTypeFormattingParams,
  type InitializeParams,
  type ReferenceParams,
  type RenameParams,
  type SemanticTokensDeltaParams,
  type ServerCapabilities,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { Inspection } from '../shared/findings/inspect.ts';
import { isLesson } from '../shared/findings/withheld.ts';
import { courseRequest, type CourseParams } from '../shared/protocol/course.ts';
import { pageGroundsRequest, type PageGroundsParams } from '../shared/protocol/page-grounds.ts';
import { newFilmsRequest, type NewFilmsParams } from '../shared/protocol/new-films.ts';
import { placeRequest, type PlaceResult } from '../shared/protocol/placing.ts';
import { heelRequest } from '../shared/protocol/plans.ts';
import { readingsRequest, type ReadingsResult } from '../shared/protocol/readings.ts';
import { sheetsChanged, sheetsRequest, type SheetsParams } from '../shared/protocol/sheets.ts';
import { dueRequest, type DueResult } from '../shared/protocol/due.ts';
import { footStateRequest, type FootStateResult } from '../shared/protocol/foot-state.ts';
import { footStateAt } from '../shared/views/foot-state.ts';
import { useWords } from '../shared/language/words.ts';
import { acceptActions } from './features/accept-actions.ts';
import { foldersOf } from './serving/client-folders.ts';
import { clientAbilities, type ClientAbilities } from './serving/client-abilities.ts';
import { ClientFiles } from './serving/client-files.ts';
import { codeActions } from './features/code-actions.ts';
import { codeLenses } from './features/code-lenses.ts';
import { completionList, triggerCharacters } from './features/completion.ts';
import { course, noCourse } from './features/course.ts';
import { due } from './features/due.ts';
import { definition } from './features/definition.ts';
import { DiagnosticsPull } from './features/diagnostics-pull.ts';
import { DiagnosticsPush } from './features/diagnostics.ts';
import { documentLinks } from './features/document-links.ts';
import { fixAll, fixAllKind } from './features/fix-all.ts';
import { folding } from './features/folding.ts';
import { Inspections } from './serving/inspections.ts';
import { enter, formatting, onEnter, rangeFormatting } from './features/formatting.ts';
import { guardOn } from './serving/guard.ts';
import { askedHeel, heel } from './features/heel.ts';
import { highlights } from './features/highlights.ts';
import { hover } from './features/hover.ts';
import { inlayHints } from './features/inlay-hints.ts';
import { LessonKeys } from './serving/lesson-keys.ts';
import { MissingPictures } from './serving/missing-pictures.ts';
import { OwnSetBook, watchOwnSets } from './serving/own-sets.ts';
import { askedPlacing, gone, place } from './features/placing.ts';
import { filmsFor } from './features/new-films.ts';
import {
  askedContext,
  askedDocument,
  askedOffset,
  askedOffsets,
  askedQuery,
  askedRange,
  askedReadings,
  askedRanges,
} from './serving/params.ts';
import { planActions, planDataOf, planEdit } from './features/plan-actions.ts';
import { noReadings, readings } from './features/readings.ts';
import { references } from './features/references.ts';
import { prepareRename, rename } from './features/rename.ts';
import { selectionRanges } from './features/selection-ranges.ts';
import { SemanticTokensBook, tokensLegend, tokensWithin } from './features/semantic-tokens.ts';
import { followSettings, referenceFiles, wantsInlayHints, wordsIn } from './serving/settings.ts';
import type { Lifecycle } from './serving/lifecycle.ts';
import { SeverityWords } from './serving/severity-setting.ts';
import { noGrounds, pageGrounds } from './features/page-grounds.ts';
import { askedLook, noSheets, sheets } from './features/sheets.ts';
import { signatureHelp, signatureTriggers } from './features/signature-help.ts';
import { spreadActions } from './features/spread-actions.ts';
import type { Files } from './serving/files.ts';
import { ShownLessons } from './serving/shown-lessons.ts';
import { StoredScaleBook, watchPictures } from './serving/stored-scales.ts';
import { symbols } from './features/symbols.ts';
import { workspaceSymbols } from './features/workspace-symbols.ts';
import { Workspace, workspaceCapabilities } from './workspace/workspace.ts';

/** The machine that the server runs on. */
export interface OwnMachine {
  now(): Date;
  /** Whether it reaches a file by itself; the client is asked for the rest. */
  reaches(uri: string): boolean;
  /** Null where it reaches none. */
  readonly files: Files | null;
}

/** Wires the features to a connection, whatever it runs over: no module but `node.ts` knows of Node. */
export function start(connection: Connection, own: OwnMachine, lifecycle: Lifecycle): void {
  lifecycle.listen(connection);
  const clientFiles = new ClientFiles(connection);
  const filesAt = (uri: string): Files => (own.files && own.reaches(uri) ? own.files : clientFiles);
  /** Of the open folders. */
  const machine = {
    now: own.now,
    readBytes: (uri: string, most: number) => filesAt(uri).readBytes(uri, folders, most),
    listFolder: (uri: string) => filesAt(uri).listFolder(uri, folders),
  };
  const documents = new TextDocuments(TextDocument);
  const news = (): void => {
    retell(documents.keys());
    void connection.sendNotification(sheetsChanged);
    refresh();
  };
  /** Numbers that stand in the text: the client asks for them anew only when the text changes, or when it is told to. */
  const refresh = (): void => {
    const ignored = (): void => undefined;
    if (client.inlayHintRefresh) connection.languages.inlayHint.refresh().catch(ignored);
    if (client.codeLensRefresh) connection.sendRequest(CodeLensRefreshRequest.type).catch(ignored);
  };
  /** Findings that are others although no text changed: told, or the client has to be told to ask. */
  const retell = (uris: readonly string[]): void => {
    for (const uri of uris) push.soon(uri);
    if (client.pullsDiagnostics && client.diagnosticsRefresh) pull.refreshSoon();
  };
  const warn = (message: string): void => {
    const told = { type: MessageType.Warning, message: `Ungula: ${message}` };
    void connection.sendNotification(ShowMessageNotification.method, told);
  };
  const scales = new StoredScaleBook(filesAt, () => folders, {
    news,
    changed: (uris) => workspace.index.touched(uris),
  });
  const ownSets = new OwnSetBook(machine.readBytes, {
    sets(sets) {
      inspections.useReference(sets);
      news();
      workspace.index.again();
    },
    problem: (message) => warn(message),
  });
  const severityWords = new SeverityWords((message) => warn(`ungula.severity: ${message}`));
  const missing = new MissingPictures(filesAt, () => folders, news);
  const keys = new LessonKeys({
    filesAt,
    folders: () => folders,
    scales,
    settings: () => inspections.by,
    open: () => documents.all(),
    news,
  });
  const inspections = new Inspections(scales, missing, keys);
  const lessons = new ShownLessons();
  /** As it is told beside the text: of a lesson without what gives the answer away. */
  const told = (document: TextDocument): Inspection => lessons.told(document, inspections.of(document));
  const tokens = new SemanticTokensBook();
  const guard = guardOn(connection.console);
  let inlayHintsWanted = true;
  let client: ClientAbilities = clientAbilities(undefined);
  let folders: readonly string[] = [];
  const asked = (): ClientAbilities => client;
  const workspace = new Workspace({
    connection,
    machine,
    documents,
    inspections,
    lessons,
    scales,
    missing,
    keys,
    client: asked,
    retell,
  });
  const push = new DiagnosticsPush(connection, documents, asked, (document) => workspace.diagnostics(document));
  const pull = new DiagnosticsPull(connection, documents, workspace, machine.now());

  connection.onInitialize((params: InitializeParams) => {
    // Before anything is said: what is said of a text is remembered.
    useWords(wordsIn(params?.initializationOptions));
    client = clientAbilities(params?.capabilities, params?.initializationOptions);
    clientFiles.answers = client.answersForFiles;
    inspections.use(params?.initializationOptions);
    severityWords.use(params?.initializationOptions);
    inlayHintsWanted = wantsInlayHints(params?.initializationOptions);
    folders = foldersOf(params, (line) => connection.console.warn(line));
    ownSets.within(folders);
    ownSets.use(referenceFiles(params?.initializationOptions));
    lifecycle.initialized();
    return { capabilities: capabilities(client), serverInfo: { name: 'ungula' } };
  });
  connection.onInitialized(() => {
    clientFiles.initialized();
    followSettings(connection, client, (section) => {
      const wanted = wantsInlayHints(section);
      const counts = inspections.use(section);
      if (counts) {
        retell(documents.keys());
        workspace.index.again();
      }
      if (counts || wanted !== inlayHintsWanted) {
        inlayHintsWanted = wanted;
        refresh();
      }
      ownSets.use(referenceFiles(section));
      severityWords.use(section);
    });
    if (client.watcherRegistration) watchOwnSets(connection);
    if (client.watcherRegistration) watchPictures(connection);
    workspace.begin(folders, (open) => {
      folders = open;
      // What lies in a folder that is open now may be read, and what lies in none no more.
      scales.forgetAll();
      missing.forgetAll();
      keys.forgetAll();
      ownSets.within(open);
    });
  });

  connection.onDidChangeWatchedFiles(({ changes }) => {
    const uris = changes.map(({ uri }) => uri);
    scales.forget(uris);
    missing.forget(uris);
    keys.forget(uris);
    ownSets.changed(uris);
    workspace.index.touched(uris);
  });
  documents.onDidChangeContent(({ document }) => {
    push.soon(document.uri);
    // Not every client tells of pictures that change, and none of what is not in an open folder.
    scales.lookAgainSoon(document);
    missing.lookAgainSoon(document);
    keys.changed(document.uri);
  });
  documents.onDidSave(({ document }) => {
    scales.lookAgainSoon(document);
    missing.lookAgainSoon(document);
    keys.forget([document.uri]);
  });
  documents.onDidClose(({ document }) => {
    push.clear(document.uri);
    pull.forget(document.uri);
    missing.close(document);
    keys.changed(document.uri);
  });

  /** A request about a whole document; null where it is not open. */
  const onDocument = <P, R>(
    feature: string,
    answer: (document: TextDocument, inspection: Inspection, params: P) => R,
  ): ((params: P, token?: CancellationToken) => R | null) =>
    guard<P, R | null>(feature, null, (params) => {
      const document = askedDocument(documents, params);
      return document && answer(document, told(document), params);
    });
  /** A request about one place of a document. */
  const onPlace = <P, R>(
    feature: string,
    answer: (document: TextDocument, inspection: Inspection, offset: number, params: P, token: CancellationToken) => R,
  ): ((params: P, token: CancellationToken) => R | null) =>
    guard<P, R | null>(feature, null, (params, token) => {
      const document = askedDocument(documents, params);
      const offset = askedOffset(document, params);
      return document && answer(document, told(document), offset, params, token);
    });

  connection.onHover(
    onPlace('hover', (document, inspection, offset) =>
      hover(document, inspection, offset, { ...client, keepsBack: lessons.keepsBack(document, inspection) }),
    ),
  );
  connection.onCompletion(
    guard('completion', null, async (params: CompletionParams, token) => {
      const document = askedDocument(documents, params);
      const offset = askedOffset(document, params);
      const listFolder: Files['listFolder'] = (uri, roots) => filesAt(uri).listFolder(uri, roots);
      const place = { client, now: machine.now(), listFolder, folders, token };
      return document && (await completionList(document, told(document), offset, place));
    }),
  );
  connection.onSignatureHelp(
    onPlace('signature help', (_, inspection, offset) => signatureHelp(inspection, offset, client)),
  );
  connection.onDefinition(onPlace('definition', definition));
  connection.onReferences(
    onPlace('references', (document, inspection, offset, { context }: ReferenceParams, token) =>
      references(document, inspection, offset, {
        declaration: context?.includeDeclaration !== false,
        workspace,
        token,
      }),
    ),
  );
  connection.onDocumentHighlight(onPlace('highlights', highlights));
  connection.onPrepareRename(onPlace('rename', prepareRename));
  connection.onRenameRequest(
    onPlace('rename', (document, inspection, offset, { newName: name }: RenameParams, token) =>
      rename(document, inspection, offset, { name, client, workspace, token }),
    ),
  );
  connection.onWorkspaceSymbol(
    guard('workspace symbols', null, (params, token) => workspaceSymbols(workspace, askedQuery(params), token)),
  );
  connection.languages.diagnostics.on(
    guard('diagnostics', { kind: 'full', items: [] }, (params) => pull.document(params)),
  );
  connection.languages.diagnostics.onWorkspace((params, token, _, partial) =>
    guard('workspace diagnostics', { items: [] }, () => pull.all(params, token, partial))(params, token),
  );
  connection.onDocumentSymbol(onDocument('document symbols', symbols));
  connection.onFoldingRanges(onDocument('folding', (_, inspection) => folding(inspection)));
  connection.onSelectionRanges(
    guard('selection ranges', null, (params) => {
      const document = askedDocument(documents, params);
      const offsets = askedOffsets(document, params);
      return document && selectionRanges(document, inspections.of(document), offsets);
    }),
  );
  connection.onDocumentLinks(
    onDocument('document links', (document, inspection) => documentLinks(document, inspection, folders)),
  );
  connection.onCodeLens(
    onDocument('code lenses', (document, inspection) =>
      codeLenses(document, inspection, client, lessons.keepsBack(document, inspection)),
    ),
  );
  connection.languages.inlayHint.on(
    guard('inlay hints', null, (params) => {
      const document = askedDocument(documents, params);
      const range = askedRange(document, params);
      if (!document) return null;
      const inspection = inspections.of(document);
      return inlayHintsWanted && !lessons.keepsBack(document, inspection)
        ? inlayHints(document, inspection, range)
        : [];
    }),
  );
  connection.languages.semanticTokens.on(
    onDocument('semantic tokens', (document, inspection) => tokens.full(document, inspection)),
  );
  connection.languages.semanticTokens.onDelta(
    onDocument('semantic tokens', (document, inspection, { previousResultId }: SemanticTokensDeltaParams) =>
      tokens.delta(document, inspection, previousResultId),
    ),
  );
  connection.languages.semanticTokens.onRange(
    guard('semantic tokens', null, (params) => {
      const document = askedDocument(documents, params);
      const range = askedRange(document, params);
      return document && tokensWithin(document, inspections.of(document), range);
    }),
  );
  connection.onCodeAction(
    guard('code actions', null, (params) => {
      const document = askedDocument(documents, params);
      const range = askedRange(document, params);
      if (!document) return null;
      const context = askedContext(params);
      const inspection = told(document);
      return [
        ...codeActions(document, inspection, range, context, client),
        ...acceptActions(document, inspection, range, context, client),
        // A plan that is worked out would be the answer.
        ...(lessons.keepsBack(document, inspection) ? [] : planActions(document, inspection, range, context, client)),
        ...spreadActions(document, inspection, range, context, client),
        ...fixAll(document, inspection, context, client),
      ];
    }),
  );
  connection.onCodeActionResolve((action) => {
    const resolve = guard('plan', action, (chosen: CodeAction) => {
      const data = planDataOf(chosen.data);
      const document = data && documents.get(data.plan.uri);
      const written = document && planEdit(document, inspections.of(document), data, client);
      return written ? { ...chosen, ...written } : chosen;
    });
    return resolve(action);
  });
  connection.onDocumentFormatting(onDocument('formatting', formatting));
  connection.onDocumentRangeFormatting(
    guard('formatting', null, (params) => {
      const document = askedDocument(documents, params);
      const range = askedRange(document, params);
      return document && rangeFormatting(document, [range]);
    }),
  );
  connection.onDocumentRangesFormatting(
    guard('formatting', null, (params) => {
      const document = askedDocument(documents, params);
      const ranges = askedRanges(document, params);
      return document && rangeFormatting(document, ranges);
    }),
  );
  connection.onDocumentOnTypeFormatting(
    onPlace('formatting', (document, inspection, offset, { ch }: DocumentOnTypeFormattingParams) =>
      onEnter(document, inspection, offset, ch),
    ),
  );
  connection.onRequest(
    sheetsRequest,
    guard('sheets', noSheets, (params: SheetsParams) => {
      const document = askedDocument(documents, params);
      const look = askedLook(params);
      if (!document) return noSheets;
      const inspection = inspections.of(document);
      const made = sheets(document, inspection, look, keys.keyOf(document, inspection));
      // What stands beside the text goes by what the page shows.
      if (look && lessons.tell(document.uri, isLesson(inspection.study) && !made.keepsBack)) {
        retell([document.uri]);
        refresh();
      }
      return made;
    }),
  );
  connection.onRequest<PlaceResult, void>(
    heelRequest,
    guard<unknown, PlaceResult>('heel cut', gone, (params) => {
      const document = askedDocument(documents, params);
      return document ? heel(document, inspections.of(document), askedHeel(params)) : gone;
    }),
  );
  connection.onRequest<PlaceResult, void>(
    placeRequest,
    guard<unknown, PlaceResult>('placing', gone, (params) => {
      const document = askedDocument(documents, params);
      return document ? place(document, inspections.of(document), askedPlacing(params)) : gone;
    }),
  );
  connection.onRequest(
    courseRequest,
    guard('course', noCourse, (params: CourseParams) => {
      const document = askedDocument(documents, params);
      if (!document) return noCourse;
      const inspection = inspections.of(document);
      return lessons.keepsBack(document, inspection) ? noCourse : course(document, inspection);
    }),
  );
  connection.onRequest<ReadingsResult, void>(
    readingsRequest,
    guard<unknown, Promise<ReadingsResult>>('readings', noReadings, async (params, token) => {
      const document = askedDocument(documents, params);
      return document
        ? readings(document, askedReadings(params), { inspections, workspace, lessons }, token)
        : noReadings;
    }),
  );
  connection.onRequest(
    footStateRequest,
    onPlace('state of a foot', (document, inspection, offset): FootStateResult =>
      footStateAt(offset, inspection, lessons.keepsBack(document, inspection)),
    ),
  );
  connection.onRequest(
    dueRequest,
    guard<unknown, Promise<DueResult | null>>('what is due', null, (_, token) => due(workspace, lessons, token)),
  );
  connection.onRequest(
    pageGroundsRequest,
    guard('page grounds', noGrounds, (params: PageGroundsParams) => {
      const document = askedDocument(documents, params);
      return document ? pageGrounds(document, inspections.of(document), inspections.by) : noGrounds;
    }),
  );
  connection.onRequest(
    newFilmsRequest,
    onPlace('new films', (document, inspection, offset, params: NewFilmsParams) =>
      filmsFor(document, inspection, offset, params, machine.now()),
    ),
  );

  documents.listen(connection);
  connection.listen();
}

function capabilities({ prepareRename, pullsDiagnostics, formatsRanges }: ClientAbilities): ServerCapabilities {
  return {
    positionEncoding: 'utf-16',
    textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental, save: true },
    hoverProvider: true,
    completionProvider: { triggerCharacters },
    signatureHelpProvider: { triggerCharacters: signatureTriggers },
    definitionProvider: true,
    referencesProvider: true,
    documentHighlightProvider: true,
    // The protocol forbids the longer answer towards a client that does not ask beforehand.
    renameProvider: prepareRename ? { prepareProvider: true } : true,
    documentSymbolProvider: { label: 'Ungula' },
    foldingRangeProvider: true,
    selectionRangeProvider: true,
    documentLinkProvider: { resolveProvider: false },
    codeLensProvider: { resolveProvider: false },
    inlayHintProvider: true,
    semanticTokensProvider: { legend: tokensLegend, full: { delta: true }, range: true },
    codeActionProvider: { codeActionKinds: ['quickfix', 'refactor.rewrite', fixAllKind], resolveProvider: true },
    documentFormattingProvider: true,
    workspaceSymbolProvider: true,
    ...(pullsDiagnostics && {
      diagnosticProvider: { identifier: 'ungula', interFileDependencies: true, workspaceDiagnostics: true },
    }),
    workspace: workspaceCapabilities,
    documentRangeFormattingProvider: formatsRanges ? { rangesSupport: true } : true,
    documentOnTypeFormattingProvider: { firstTriggerCharacter: enter },
  };
}
