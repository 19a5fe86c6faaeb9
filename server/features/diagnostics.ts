import { t } from '../../shared/language/words.ts';
import { DiagnosticSeverity, type Connection, type Diagnostic, type TextDocuments } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { pageOf } from '../../shared/findings/catalogue.ts';
import type { Finding, Severity } from '../../shared/findings/finding.ts';
import type { ClientAbilities } from '../serving/client-abilities.ts';
import { described } from '../serving/guard.ts';
import { rangeOf } from '../text/ranges.ts';

export const severities: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  info: DiagnosticSeverity.Information,
  hint: DiagnosticSeverity.Hint,
};

/** Something else than a case file, opened as one, may have a finding in every line: nobody reads more than this. */
const most = 1000;
/** A message quotes what is wrong, and what is wrong may be as long as the file. */
const longest = 2000;

export function diagnosticsOf(
  document: TextDocument,
  findings: readonly Finding[],
  client: Pick<ClientAbilities, 'relatedInformation' | 'docs'>,
): Diagnostic[] {
  const diagnostics = findings.slice(0, most).map((finding) => diagnosticOf(document, finding, client));
  const left = findings.length - diagnostics.length;
  const start = { line: 0, character: 0 };
  if (left > 0)
    diagnostics.push({
      range: { start, end: start },
      severity: DiagnosticSeverity.Information,
      source: 'ungula',
      message: t('{0} more findings further down are not shown.', left),
    });
  return diagnostics;
}

export function diagnosticOf(
  document: TextDocument,
  finding: Finding,
  { relatedInformation, docs }: Pick<ClientAbilities, 'relatedInformation' | 'docs'>,
): Diagnostic {
  const { code, message, at, related } = finding;
  const diagnostic: Diagnostic = {
    range: rangeOf(document, at),
    severity: severities[finding.severity],
    code,
    source: 'ungula',
    message: shortened(message),
    ...(docs !== null && { codeDescription: { href: `${docs}${pageOf(code)}` } }),
  };
  if (relatedInformation && related.length > 0)
    diagnostic.relatedInformation = related.map((one) => ({
      location: { uri: document.uri, range: rangeOf(document, one.at) },
      message: one.message,
    }));
  return diagnostic;
}

function shortened(message: string): string {
  return message.length <= longest ? message : `${message.slice(0, longest)}…`;
}

/** Tells a client that does not ask for them the findings of each open document after it changes; of several changes at once only the last. */
export class DiagnosticsPush {
  private readonly connection: Connection;
  private readonly documents: TextDocuments<TextDocument>;
  private readonly client: () => ClientAbilities;
  private readonly diagnostics: (document: TextDocument) => Diagnostic[];
  private readonly waiting = new Set<string>();

  constructor(
    connection: Connection,
    documents: TextDocuments<TextDocument>,
    client: () => ClientAbilities,
    diagnostics: (document: TextDocument) => Diagnostic[],
  ) {
    this.connection = connection;
    this.documents = documents;
    this.client = client;
    this.diagnostics = diagnostics;
  }

  soon(uri: string): void {
    if (this.client().pullsDiagnostics || this.waiting.has(uri)) return;
    this.waiting.add(uri);
    // A turn of the event loop later: changes that have already arrived are taken in first.
    setTimeout(() => {
      this.waiting.delete(uri);
      const document = this.documents.get(uri);
      if (document) this.push(document);
    }, 0);
  }

  all(): void {
    for (const uri of this.documents.keys()) this.soon(uri);
  }

  clear(uri: string): void {
    if (!this.client().pullsDiagnostics) this.send(uri, undefined, []);
  }

  private push(document: TextDocument): void {
    try {
      this.send(document.uri, document.version, this.diagnostics(document));
    } catch (error) {
      this.connection.console.error(`diagnostics of ${document.uri} failed: ${described(error)}`);
    }
  }

  private send(uri: string, version: number | undefined, diagnostics: Diagnostic[]): void {
    const told = { uri, diagnostics, ...(version !== undefined && { version }) };
    this.connection.sendDiagnostics(told).catch(() => {
      // The client is gone, and the process soon with it.
    });
  }
}
