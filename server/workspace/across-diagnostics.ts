import type { Diagnostic, Range } from 'vscode-languageserver';
import { pageOf } from '../../shared/findings/catalogue.ts';
import type { AcrossFinding } from '../../shared/findings/across/across-rule.ts';
import type { LineSpan } from '../../shared/notation/line-span.ts';
import type { ClientAbilities } from '../serving/client-abilities.ts';
import { severities } from '../features/diagnostics.ts';

export function rangeAt({ line, from, to }: LineSpan): Range {
  return { start: { line, character: from }, end: { line, character: to } };
}

/** A finding that rests on other files, with the way to them. */
export function acrossDiagnostic(
  { at, severity, code, message, related }: AcrossFinding,
  { relatedInformation, docs }: Pick<ClientAbilities, 'relatedInformation' | 'docs'>,
): Diagnostic {
  return {
    range: rangeAt(at),
    severity: severities[severity],
    code,
    source: 'ungula',
    message,
    ...(docs !== null && { codeDescription: { href: `${docs}${pageOf(code)}` } }),
    ...(relatedInformation && {
      relatedInformation: related.map((one) => ({
        location: { uri: one.file, range: rangeAt(one.at) },
        message: one.message,
      })),
    }),
  };
}
