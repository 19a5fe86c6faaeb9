import { LineMap } from '../../shared/notation/line-map.ts';
import type { Finding } from '../../shared/findings/finding.ts';
import { acrossFiles } from '../../shared/findings/across/across-files.ts';
import type { AcrossFinding } from '../../shared/findings/across/across-rule.ts';
import { caseFacts } from '../../shared/findings/across/case-facts.ts';
import { readPast, usualPast } from '../../shared/findings/past.ts';
import { atLevels } from '../../shared/findings/severity-levels.ts';
import { readCaseFiles, type CaseFile } from './case-files.ts';
import { oneOf, type Command } from './command.ts';
import { inspected } from './inspected.ts';
import { referenceOption, settingsWith } from './reference-files.ts';
import { levelsFrom, severityOption } from './severity-option.ts';

export const check: Command = {
  name: 'check',
  usage:
    'ungula check FILE… [--format text|json] [--max-severity error|warning] [--severity CODE=LEVEL]… [--past-films hint|as-new|off] [--reference FILE]…',
  doc: 'Findings: one a line, or as JSON.',
  options: {
    format: { type: 'string' },
    'max-severity': { type: 'string' },
    severity: severityOption,
    'past-films': { type: 'string' },
    reference: referenceOption,
  },
  async run(names, options, io) {
    const format = oneOf('format', options['format'], ['text', 'json']);
    const counted = oneOf('max-severity', options['max-severity'], ['error', 'warning']);
    const levels = levelsFrom(options['severity'], io);
    const past = readPast(oneOf('past-films', options['past-films'], ['hint', 'as-new', 'off'])) ?? usualPast;
    const settings = { ...(await settingsWith(options['reference'])), levels, past };
    const { files, unreadable } = await readCaseFiles(names, io);
    const read = files.map((file) => ({ file, inspection: inspected(file, settings) }));
    const across = acrossFiles(
      read.map(({ file, inspection }) => ({ file: file.name, called: file.name, facts: caseFacts(inspection.tree) })),
    );
    const found = read.flatMap(({ file, inspection }) => {
      const map = new LineMap(file.text);
      return inOrder([
        ...atLevels(across.get(file.name) ?? [], levels).map((finding) => printedAcross(file.name, finding)),
        ...inspection.findings.map((finding) => printed(file, map, finding)),
      ]);
    });
    io.out(
      format === 'json' ? `${JSON.stringify({ ungula: 1, findings: found }, null, 2)}\n` : found.map(lineOf).join(''),
    );
    const bad = found.some(({ severity }) => severity === 'error' || (counted === 'warning' && severity === 'warning'));
    return unreadable ? 2 : bad ? 1 : 0;
  },
};

interface PrintedFinding {
  file: string;
  line: number;
  column: number;
  endLine: number;
  endColumn: number;
  severity: Finding['severity'];
  code: string;
  message: string;
  measure?: string;
  value?: number;
  limit?: number;
  source?: string;
  accepted?: string;
  past?: true;
}

/** Lines and columns from 1; columns count UTF-16 units, as editors do. */
function printed({ name }: CaseFile, map: LineMap, finding: Finding): PrintedFinding {
  const { at, severity, code, message, measure, value, limit, source, accepted, past } = finding;
  const start = map.at(at.start);
  const end = map.at(at.end);
  return {
    file: name,
    line: start.line + 1,
    column: start.column + 1,
    endLine: end.line + 1,
    endColumn: end.column + 1,
    severity,
    code,
    message,
    ...(measure !== undefined && { measure }),
    ...(value !== undefined && { value }),
    ...(limit !== undefined && { limit }),
    ...(source !== undefined && { source }),
    ...(accepted !== undefined && { accepted }),
    ...(past && { past }),
  };
}

function printedAcross(file: string, { at, severity, code, message }: AcrossFinding): PrintedFinding {
  const { line, from, to } = at;
  return { file, line: line + 1, column: from + 1, endLine: line + 1, endColumn: to + 1, severity, code, message };
}

function inOrder(findings: PrintedFinding[]): PrintedFinding[] {
  return findings.sort((a, b) => a.line - b.line || a.column - b.column);
}

function lineOf({ file, line, column, severity, code, message }: PrintedFinding): string {
  return `${file}:${line}:${column}: ${severity} ${code} ${message}\n`;
}
