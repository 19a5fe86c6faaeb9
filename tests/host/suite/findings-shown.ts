import * as vscode from 'vscode';
import { expectEqual } from '../checks.ts';
import type { CaseFile, Finding } from '../expected.ts';
import { uriOf } from './case-document.ts';

const SEVERITIES = ['error', 'warning', 'info', 'hint'] as const;

/** The editor's diagnostics of a file, one line each, sorted. */
export function findingsShown(uri: vscode.Uri): string[] {
  return vscode.languages.getDiagnostics(uri).map(diagnosticAsLine).sort();
}

export function expectFindings(file: CaseFile): void {
  expectEqual(findingsShown(uriOf(file)), file.findings.map(asLine).sort(), `diagnostics of ${file.name}`);
}

function asLine({ line, severity, code, message }: Finding): string {
  return `${line} ${severity} ${code} ${message}`;
}

function diagnosticAsLine({ range, severity, code, message }: vscode.Diagnostic): string {
  const name = typeof code === 'object' ? code.value : code;
  return `${range.start.line + 1} ${SEVERITIES[severity]} ${name} ${message}`;
}
