import { t } from '../../../shared/language/words.ts';
import { CompletionItemKind } from 'vscode-languageserver';
import { whyNever } from '../../../shared/findings/engine/accepted.ts';
import { codes } from '../../../shared/findings/catalogue.ts';
import type { Finding } from '../../../shared/findings/finding.ts';
import type { Item } from '../../../shared/notation/tree.ts';
import { describeCode } from '../describe/code.ts';
import { paragraphs, plain } from '../describe/markdown.ts';
import type { LineAt } from './line-at.ts';
import type { Offer } from './offer.ts';
import type { OpenBlocks } from './open-blocks.ts';

/** As many messages of one code as somebody reads beside a list. */
const most = 10;

/** Codes that may be accepted: those that are told in the open block first, with what they tell. */
export function* findingOffers(open: OpenBlocks, findings: readonly Finding[], line: LineAt): Iterable<Offer> {
  const told = new Map<string, string[]>();
  for (const { code, message, accepted } of toldIn(open, findings))
    if (accepted === undefined) {
      const messages = told.get(code) ?? [];
      messages.push(message);
      told.set(code, messages);
    }
  const acceptable = codes.filter(({ code }) => whyNever(code) === undefined);
  const first = acceptable.filter(({ code }) => told.has(code));
  for (const row of [...first, ...acceptable.filter((one) => !first.includes(one))]) {
    const { code, title } = row;
    const all = told.get(code) ?? [];
    const messages = [
      ...all.slice(0, most).map((message) => `- ${plain(message)}`),
      ...(all.length > most ? [t('- and {0} more', all.length - most)] : []),
    ].join('\n');
    yield {
      label: code,
      takes: title,
      kind: CompletionItemKind.EnumMember,
      documentation: paragraphs(messages && t('Told here:\n\n{0}', messages), describeCode(row, null)),
      text: code,
      ...(!line.goesOn && { snippet: `${code} because "\${1}"` }),
    };
  }
}

/** The measures of which the code on the line is told, where there are several of them. */
export function* acceptedMeasureOffers(
  open: OpenBlocks,
  findings: readonly Finding[],
  [code]: readonly Item[],
): Iterable<Offer> {
  if (code?.kind !== 'word') return;
  const told = toldIn(open, findings).filter((finding) => finding.code === code.image);
  const names = new Set(told.flatMap(({ measure }) => measure ?? []));
  if (names.size < 2) return;
  for (const name of names) yield { label: name, kind: CompletionItemKind.Property, text: name };
}

function toldIn({ blocks: [innermost] }: OpenBlocks, findings: readonly Finding[]): readonly Finding[] {
  if (!innermost) return [];
  const { start, end } = innermost.span;
  return findings.filter(({ at }) => at.start >= start && at.start <= end);
}
