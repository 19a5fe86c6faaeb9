import {
  MessageType,
  ShowMessageNotification,
  TextDocumentSyncKind,
  TextDocuments,
  type CodeAction,
  type Connection,
  type InitializeParams,
  type ServerCapabilities,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { sheetsChanged, sheetsRequest, type SheetsParams } from '../shared/report/requests.ts';
import { clientAbilities, type ClientAbilities } from './client-abilities.ts';
import { codeActions } from './code-actions.ts';
import { completion, triggerCharacters } from './completion.ts';
import { DiagnosticsPush } from './diagnostics.ts';
import { Inspections } from './inspections.ts';
import { formatting } from './formatting.ts';
import { guardOn } from './guard.ts';
import { hover } from './hover.ts';
import { foldersOf, OwnSetBook, watchOwnSets } from './own-sets.ts';
import { askedDocument, askedOffset, askedRange } from './params.ts';
import { planActions, planDataOf, planEdit } from './plan-actions.ts';
import { followSettings, referenceFiles } from './settings.ts';
import { noSheets, sheets } from './sheets.ts';
import { StoredScaleBook, type ReadBytes } from './stored-scales.ts';
import { symbols } from './symbols.ts';

/** What the server needs of the machine that it runs on. */
export interface Machine {
  now(): Date;
  /** The bytes of a file by its URI; null where it cannot be read. */
  readBytes: ReadBytes;
}

/** Wires the features to a connection, whatever it runs over: no module but `node.ts` knows of Node. */
export function start(connection: Connection, machine: Machine): void {
  const documents = new TextDocuments(TextDocument);
  const news = (): void => {
    push.all();
    void connection.sendNotification(sheetsChanged);
  };
  const scales = new StoredScaleBook(machine.readBytes, news);
  const ownSets = new OwnSetBook(machine.readBytes, {
    sets(sets) {
      inspections.useReference(sets);
      news();
    },
    problem: (message) => {
      const told = { type: MessageType.Warning, message: `Ungula: ${message}` };
      void connection.sendNotification(ShowMessageNotification.method, told);
    },
  });
  const inspections = new Inspections(scales);
  const guard = guardOn(connection.console);
  let client: ClientAbilities = clientAbilities(undefined);
  const push = new DiagnosticsPush(connection, documents, inspections, () => client);

  connection.onInitialize((params: InitializeParams) => {
    client = clientAbilities(params?.capabilities, params?.initializationOptions);
    inspections.use(params?.initializationOptions);
    ownSets.folders = foldersOf(params);
    ownSets.use(referenceFiles(params?.initializationOptions));
    return { capabilities, serverInfo: { name: 'ungula' } };
  });
  connection.onInitialized(() => {
    followSettings(connection, client, (section) => {
      if (inspections.use(section)) push.all();
      ownSets.use(referenceFiles(section));
    });
    if (client.watcherRegistration) watchOwnSets(connection);
  });

  connection.onDidChangeWatchedFiles(({ changes }) => {
    const uris = changes.map(({ uri }) => uri);
    scales.forget(uris);
    ownSets.changed(uris);
  });
  documents.onDidChangeContent(({ document }) => push.soon(document.uri));
  documents.onDidClose(({ document }) => push.clear(document.uri));

  connection.onHover(
    guard('hover', null, (params) => {
      const document = askedDocument(documents, params);
      const offset = askedOffset(document, params);
      return document && hover(document, inspections.of(document), offset);
    }),
  );
  connection.onCompletion(
    guard('completion', null, (params) => {
      const document = askedDocument(documents, params);
      const offset = askedOffset(document, params);
      return (
        document && {
          isIncomplete: false,
          items: completion(document, inspections.of(document), offset, { client, now: machine.now() }),
        }
      );
    }),
  );
  connection.onDocumentSymbol(
    guard('document symbols', null, (params) => {
      const document = askedDocument(documents, params);
      return document && symbols(document, inspections.of(document));
    }),
  );
  connection.onCodeAction(
    guard('code actions', null, (params) => {
      const document = askedDocument(documents, params);
      const range = askedRange(document, params);
      if (!document) return null;
      const inspection = inspections.of(document);
      const fixes = codeActions(document, inspection, range, params.context, client);
      return [...fixes, ...planActions(document, inspection, range, params.context)];
    }),
  );
  connection.onCodeActionResolve((action) => {
    const resolve = guard('plan', action, (chosen: CodeAction) => {
      const data = planDataOf(chosen.data);
      const document = data && documents.get(data.plan.uri);
      const edit = document && planEdit(document, inspections.of(document), data, client);
      return edit ? { ...chosen, edit } : chosen;
    });
    return resolve(action);
  });
  connection.onDocumentFormatting(
    guard('formatting', null, (params) => {
      const document = askedDocument(documents, params);
      return document && formatting(document);
    }),
  );
  connection.onRequest(
    sheetsRequest,
    guard('sheets', noSheets, (params: SheetsParams) => {
      const document = askedDocument(documents, params);
      return document ? sheets(document, inspections.of(document)) : noSheets;
    }),
  );

  documents.listen(connection);
  connection.listen();
}

const capabilities: ServerCapabilities = {
  positionEncoding: 'utf-16',
  textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
  hoverProvider: true,
  completionProvider: { triggerCharacters },
  documentSymbolProvider: { label: 'Ungula' },
  codeActionProvider: { codeActionKinds: ['quickfix', 'refactor.rewrite'], resolveProvider: true },
  documentFormattingProvider: true,
};
