import { findCode } from '../findings/catalogue.ts';
import type { Severity } from '../reference/severity.ts';
import type { PrintedFinding } from './json-shapes.ts';
import { program } from './structured/uids.ts';

/** The parts of SARIF 2.1.0 (OASIS) that are written. */
export interface SarifLog {
  readonly $schema: string;
  readonly version: '2.1.0';
  readonly runs: readonly [SarifRun];
}

interface SarifRun {
  readonly tool: {
    readonly driver: { readonly name: string; readonly version: string; readonly rules: readonly SarifRule[] };
  };
  readonly columnKind: 'utf16CodeUnits';
  readonly invocations: readonly [SarifInvocation];
  readonly results: readonly SarifResult[];
}

interface SarifText {
  readonly text: string;
}

interface SarifRule {
  readonly id: string;
  readonly shortDescription?: SarifText;
  readonly fullDescription?: SarifText;
  readonly defaultConfiguration?: { readonly level: SarifLevel };
}

type SarifLevel = 'error' | 'warning' | 'note';

interface SarifInvocation {
  readonly executionSuccessful: boolean;
  readonly toolExecutionNotifications?: readonly { readonly level: 'error'; readonly message: SarifText }[];
}

interface SarifResult {
  readonly ruleId: string;
  readonly ruleIndex: number;
  readonly level: SarifLevel;
  readonly message: SarifText;
  readonly locations: readonly [
    {
      readonly physicalLocation: {
        readonly artifactLocation: { readonly uri: string };
        readonly region: Pick<PrintedFinding, 'endColumn' | 'endLine'> & {
          readonly startLine: number;
          readonly startColumn: number;
        };
      };
    },
  ];
  readonly suppressions?: readonly [{ readonly kind: 'inSource'; readonly justification: string }];
  readonly properties?: { readonly past: true };
}

/** SARIF has one level below a warning that is shown. */
const levels: Readonly<Record<Severity, SarifLevel>> = {
  error: 'error',
  warning: 'warning',
  info: 'note',
  hint: 'note',
};

/**
 * What `check` tells, for the services and editors that read SARIF. A finding that the case accepts is suppressed in the source,
 * with its reason; lines and columns count as SARIF counts them, columns in UTF-16 units.
 *
 * @param problems what went wrong with files that could not be read, a sentence each
 */
export function sarifLog(findings: readonly PrintedFinding[], problems: readonly string[]): SarifLog {
  const places = new Map<string, number>();
  for (const { code } of findings) if (!places.has(code)) places.set(code, places.size);
  return {
    $schema: 'https://json.schemastore.org/sarif-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: { driver: { ...program, rules: [...places.keys()].map(ruleOf) } },
        columnKind: 'utf16CodeUnits',
        invocations: [
          {
            executionSuccessful: problems.length === 0,
            ...(problems.length > 0 && {
              toolExecutionNotifications: problems.map((text) => ({ level: 'error' as const, message: { text } })),
            }),
          },
        ],
        results: findings.map((finding) => resultOf(finding, places.get(finding.code) ?? 0)),
      },
    ],
  };
}

function ruleOf(id: string): SarifRule {
  const row = findCode(id);
  if (!row) return { id };
  const { title, about, severity } = row;
  return {
    id,
    shortDescription: { text: title },
    fullDescription: { text: about },
    defaultConfiguration: { level: levels[severity] },
  };
}

function resultOf(finding: PrintedFinding, ruleIndex: number): SarifResult {
  const { file, line, column, endLine, endColumn, severity, code, message, accepted, past } = finding;
  return {
    ruleId: code,
    ruleIndex,
    level: levels[severity],
    message: { text: message },
    locations: [
      {
        physicalLocation: {
          artifactLocation: { uri: uriOf(file) },
          region: { startLine: line, startColumn: column, endLine, endColumn },
        },
      },
    ],
    ...(accepted !== undefined && { suppressions: [{ kind: 'inSource', justification: accepted }] }),
    ...(past && { properties: { past } }),
  };
}

/** A path as it was given, as a reference: relative stays relative, so that a service finds it from the root of the checkout. */
function uriOf(file: string): string {
  const path = file.replaceAll('\\', '/').replace(/^(?:\.\/)+/, '');
  const drive = /^[a-z]:(?=\/)/i.exec(path)?.[0] ?? '';
  const encoded = path.slice(drive.length).split('/').map(encodeURIComponent).join('/');
  if (drive !== '') return `file:///${drive}${encoded}`;
  return path.startsWith('//') ? `file:${encoded}` : path.startsWith('/') ? `file://${encoded}` : encoded;
}
