import {
  DocumentDiagnosticReportKind,
  type CancellationToken,
  type Connection,
  type Diagnostic,
  type DocumentDiagnosticReport,
  type ResultProgressReporter,
  type TextDocuments,
  type WorkspaceDiagnosticReport,
  type WorkspaceDocumentDiagnosticReport,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { stopIfCancelled } from '../serving/guard.ts';
import { askedPrevious, askedPreviousIds, askedUri } from '../serving/params.ts';
import { keyOf } from '../workspace/file-key.ts';
import type { PackedDiagnostics } from '../workspace/packed-diagnostics.ts';
import { Pauses } from '../workspace/pause.ts';
import type { IndexedFile } from '../workspace/read-case.ts';
import type { Workspace } from '../workspace/workspace.ts';

/** Files in one message. */
const portion = 200;
/** Between two messages while files are still being read, ms. */
const pace = 250;

interface Given {
  /** By which it is known to be the same: JSON of an open document, else what the index holds. */
  readonly own: string | PackedDiagnostics;
  /** JSON of what follows from other files. */
  readonly across: string;
  readonly id: string;
}

/** Findings for clients that ask for them. What was told before, and is the same now, is not sent again. */
export class DiagnosticsPull {
  private readonly connection: Connection;
  private readonly documents: TextDocuments<TextDocument>;
  private readonly workspace: Workspace;
  /** What each file was last given, by key. */
  private readonly given = new Map<string, Given>();
  private readonly session: string;
  private count = 0;
  private refreshing = false;

  constructor(connection: Connection, documents: TextDocuments<TextDocument>, workspace: Workspace, started: Date) {
    this.connection = connection;
    this.documents = documents;
    this.workspace = workspace;
    // A client may still hold what a server before this one gave it.
    this.session = started.getTime().toString(36);
  }

  /** Of one document, open or not. */
  async document(params: unknown): Promise<DocumentDiagnosticReport> {
    const uri = askedUri(params);
    const key = keyOf(uri);
    const document = this.documents.get(uri);
    if (document) return this.report(key, document, askedPrevious(params)).report;
    const file = await this.workspace.index.newest(key);
    return file
      ? this.report(key, file, askedPrevious(params)).report
      : { kind: DocumentDiagnosticReportKind.Full, items: [] };
  }

  /** Of every case in the workspace; while they are still being read, of each as soon as it is. */
  async all(
    params: unknown,
    token: CancellationToken,
    partial: ResultProgressReporter<WorkspaceDiagnosticReport> | undefined,
  ): Promise<WorkspaceDiagnosticReport> {
    const previous = new Map(askedPreviousIds(params).map(({ uri, value }) => [keyOf(uri), { uri, value }]));
    const { index } = this.workspace;
    const told = new Map<string, Given>();
    const items: WorkspaceDocumentDiagnosticReport[] = [];
    const pauses = new Pauses();
    const look = async (): Promise<void> => {
      for (const { key, uri, document } of this.workspace.cases()) {
        await pauses.now();
        stopIfCancelled(token);
        const before = told.get(key);
        const what = document ?? index.onDisk.get(key);
        if (!what) continue;
        const known = before ? before.id : (previous.get(key)?.value ?? null);
        const { given, report } = this.report(key, what, known);
        told.set(key, given);
        if (given === before) continue;
        items.push({ ...report, uri, version: document?.version ?? null });
        if (items.length >= portion) flush();
      }
    };
    const flush = (): void => {
      if (partial && items.length > 0) partial.report({ items: items.splice(0) });
    };
    if (partial)
      while (index.busy) {
        await look();
        flush();
        const since = performance.now();
        while (index.busy && !token.isCancellationRequested && performance.now() - since < pace)
          await index.step(token);
      }
    await index.settled(token);
    await look();
    for (const [key, { uri }] of previous)
      if (!told.has(key)) {
        this.given.delete(key);
        items.push({ kind: DocumentDiagnosticReportKind.Full, uri, version: null, items: [] });
      }
    flush();
    return { items };
  }

  forget(uri: string): void {
    this.given.delete(keyOf(uri));
  }

  /** Has the client ask anew; of several reasons at once only one is told. */
  refreshSoon(): void {
    if (this.refreshing) return;
    this.refreshing = true;
    setTimeout(() => {
      this.refreshing = false;
      this.connection.languages.diagnostics.refresh().catch(() => {
        // The client is gone, or asks when it likes.
      });
    }, 0);
  }

  private report(
    key: string,
    what: TextDocument | IndexedFile,
    previous: string | null,
  ): { given: Given; report: DocumentDiagnosticReport } {
    const across = this.workspace.acrossDiagnostics(what.uri);
    const now = {
      own: 'told' in what ? what.told : JSON.stringify(this.workspace.ownDiagnostics(what)),
      across: JSON.stringify(across),
    };
    const known = this.given.get(key);
    const same = known && known.own === now.own && known.across === now.across;
    const given = same ? known : { ...now, id: `${this.session}-${(this.count += 1)}` };
    this.given.set(key, given);
    if (previous === given.id)
      return { given, report: { kind: DocumentDiagnosticReportKind.Unchanged, resultId: given.id } };
    const own = typeof given.own === 'string' ? (JSON.parse(given.own) as Diagnostic[]) : given.own.unpacked();
    const items = [...own, ...across];
    return { given, report: { kind: DocumentDiagnosticReportKind.Full, resultId: given.id, items } };
  }
}
