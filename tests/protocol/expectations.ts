import { DiagnosticSeverity, type Diagnostic } from 'vscode-languageserver';

/**
 * A fixture carries what is expected of it: under a line stands a remark with carets under the piece that is meant, the
 * severity, the code, and, after a colon, words that the message holds. A `#` that touches the carets counts as one of
 * them, as nothing else can stand in the first column of a remark.
 */
export interface Expectation {
  readonly line: number;
  readonly start: number;
  readonly end: number;
  readonly severity: string;
  readonly code: string;
  readonly says: string;
}

const marker = /^\s*(#?)(\s*)(\^+)\s+(error|warning|info|hint) ([a-z-]+\/[a-z.-]+)(?:: (.+))?$/;

export function expectationsIn(text: string): Expectation[] {
  const expected: Expectation[] = [];
  let line = -1;
  for (const [number, written] of text.split(/\r\n|\n/).entries()) {
    const found = /^\s*#/.test(written) ? marker.exec(written) : null;
    if (!found) {
      if (/^\s*#.*\^/.test(written))
        throw new Error(`line ${number + 1} looks like an expectation and is none: ${written}`);
      line = number;
      continue;
    }
    const [, , gap = '', , severity = '', code = '', says = ''] = found;
    const end = written.lastIndexOf('^') + 1;
    const start = gap === '' ? written.indexOf('#') : written.indexOf('^');
    expected.push({ line, start, end, severity, code, says });
  }
  return expected;
}

const severities = {
  [DiagnosticSeverity.Error]: 'error',
  [DiagnosticSeverity.Warning]: 'warning',
  [DiagnosticSeverity.Information]: 'info',
  [DiagnosticSeverity.Hint]: 'hint',
};

const shown = (one: Omit<Expectation, 'says'>): string =>
  `${one.line + 1}:${one.start + 1}-${one.end + 1} ${one.severity} ${one.code}`;

export function asLines(expected: readonly Expectation[]): string[] {
  return expected.map(shown).sort();
}

export function diagnosticsAsLines(diagnostics: readonly Diagnostic[]): string[] {
  return diagnostics
    .map(({ range, severity, code }) => {
      const oneLine = range.start.line === range.end.line;
      return shown({
        line: range.start.line,
        start: range.start.character,
        end: oneLine ? range.end.character : Infinity,
        severity: severity === undefined ? 'none' : severities[severity],
        code: String(code),
      });
    })
    .sort();
}
