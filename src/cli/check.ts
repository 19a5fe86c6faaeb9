import { LineMap } from '../../shared/notation/line-map.ts';
import type { Finding } from '../../shared/findings/finding.ts';
import { acrossFiles } from '../../shared/findings/across/across-files.ts';
import type { AcrossFinding, CaseOfFile as FactsOfFile } from '../../shared/findings/across/across-rule.ts';
import { caseFacts } from '../../shared/findings/across/case-facts.ts';
import { readPast, usualPast } from '../../shared/findings/engine/past.ts';
import { atLevels } from '../../shared/findings/engine/severity-levels.ts';
import type { CheckJson, PrintedFinding } from '../../shared/export/json-shapes.ts';
import { sarifLog } from '../../shared/export/sarif.ts';
import { shownJson, shownLines } from '../../shared/export/shown-characters.ts';
import { eachCase, type CaseFile } from './case-files.ts';
import { oneOf, type Command } from './command.ts';
import { inspected } from './inspected.ts';
import { rootFrom, rootOption } from './picture-files.ts';
import { referenceOption, settingsWith } from './reference-files.ts';
import { levelsFrom, severityOption } from './severity-option.ts';

export const check: Command = {
  name: 'check',
  usage:
    'ungula check FILE… [--format text|json|sarif] [--max-severity error|warning] [--severity CODE=LEVEL]… [--past-films hint|as-new|off] [--reference FILE]… [--root DIR]',
  doc: 'Findings: one a line, as JSON, or as SARIF 2.1.0 for services that read it.',
  options: {
    format: { type: 'string' },
    'max-severity': { type: 'string' },
    severity: severityOption,
    'past-films': { type: 'string' },
    reference: referenceOption,
    root: rootOption,
  },
  async run(names, options, io) {
    const format = oneOf('format', options['format'], ['text', 'json', 'sarif']);
    const counted = oneOf('max-severity', options['max-severity'], ['error', 'warning']);
    const levels = levelsFrom(options['severity'], io);
    const past = readPast(oneOf('past-films', options['past-films'], ['hint', 'as-new', 'off'])) ?? usualPast;
    const settings = { ...(await settingsWith(options['reference'])), levels, past };
    const root = await rootFrom(options['root']);
    const read: { facts: FactsOfFile; findings: PrintedFinding[] }[] = [];
    const problems = await eachCase(names, io, async (file) => {
      const { tree, study, findings } = await inspected(file, settings, root);
      const map = new LineMap(file.text);
      read.push({
        facts: { file: file.name, called: file.name, facts: caseFacts(tree, study.record) },
        findings: findings.map((finding) => printed(file, map, finding)),
      });
    });
    const across = acrossFiles(read.map(({ facts }) => facts));
    const found = read.flatMap(({ facts: { file }, findings }) =>
      inOrder([
        ...atLevels(across.get(file) ?? [], levels).map((finding) => printedAcross(file, finding)),
        ...findings,
      ]),
    );
    if (format === 'text') io.out(shownLines(found.map(lineOf)));
    else io.out(shownJson(format === 'json' ? document(found) : sarifLog(found, problems)));
    const bad = found.some(({ severity }) => severity === 'error' || (counted === 'warning' && severity === 'warning'));
    return problems.length > 0 ? 2 : bad ? 1 : 0;
  },
  emptyJson: () => document([]),
  emptySarif: (problem) => sarifLog([], [problem]),
};

const document = (findings: PrintedFinding[]): CheckJson => ({ ungula: 1, findings });

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
  return `${file}:${line}:${column}: ${severity} ${code} ${message}`;
}
