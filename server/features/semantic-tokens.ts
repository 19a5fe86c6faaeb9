import type { SemanticTokens, SemanticTokensDelta, SemanticTokensLegend } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Inspection } from '../../shared/findings/inspect.ts';
import { findCode } from '../../shared/findings/catalogue.ts';
import { findHandMeasure } from '../../shared/measures/by-hand.ts';
import { findMeasure } from '../../shared/measures/registry.ts';
import type { Argument } from '../../shared/notation/signature.ts';
import type { Item, PlacedBlock, Span, Statement } from '../../shared/notation/tree.ts';
import { statementsOf } from '../text/every-statement.ts';
import { argumentsOf } from '../text/spot.ts';

/** The protocol's own types, each that which themes colour most like the grammar's scope for the same word. */
const types = [
  'keyword',
  'property',
  'type',
  'variable',
  'enumMember',
  'operator',
  'number',
  'string',
  'comment',
] as const;
type TokenType = (typeof types)[number];

export const tokensLegend: SemanticTokensLegend = { tokenTypes: [...types], tokenModifiers: [] };

interface Token extends Span {
  readonly type: TokenType;
}

/** What each document was last given, so that after an edit only what differs is sent. */
export class SemanticTokensBook {
  private readonly given = new WeakMap<TextDocument, { readonly resultId: string; readonly data: readonly number[] }>();
  private count = 0;

  full(document: TextDocument, inspection: Inspection): SemanticTokens {
    const resultId = String((this.count += 1));
    const data = tokenData(inspection);
    this.given.set(document, { resultId, data });
    return { resultId, data };
  }

  /** Everything anew for a client that names another result than the last. */
  delta(document: TextDocument, inspection: Inspection, previous: unknown): SemanticTokens | SemanticTokensDelta {
    const before = this.given.get(document);
    const { resultId = '', data } = this.full(document, inspection);
    if (before?.resultId !== previous || !before) return { resultId, data };
    return { resultId, edits: difference(before.data, data) };
  }
}

/** Those of the lines that a range touches, for a client that shows the visible part first. */
export function tokensWithin(document: TextDocument, inspection: Inspection, { start, end }: Span): SemanticTokens {
  const lines = { first: document.positionAt(start).line, last: document.positionAt(end).line };
  return { data: tokenData(inspection, lines) };
}

/** One edit between the common beginning and the common end: what is typed changes one place. */
function difference(before: readonly number[], after: readonly number[]): SemanticTokensDelta['edits'] {
  const shorter = Math.min(before.length, after.length);
  let start = 0;
  while (start < shorter && before[start] === after[start]) start += 1;
  let same = 0;
  while (same < shorter - start && before[before.length - 1 - same] === after[after.length - 1 - same]) same += 1;
  const deleteCount = before.length - same - start;
  const data = after.slice(start, after.length - same);
  return deleteCount === 0 && data.length === 0 ? [] : [{ start, deleteCount, data }];
}

function tokenData({ tree }: Inspection, { first, last } = { first: 0, last: Infinity }): number[] {
  const data: number[] = [];
  let lastLine = 0;
  let lastCharacter = 0;
  for (const placed of tree.blocks)
    for (const { line, start, end, type } of tokensOf(placed)) {
      if (line < first || line > last) continue;
      data.push(
        line - lastLine,
        line === lastLine ? start - lastCharacter : start,
        end - start,
        types.indexOf(type),
        0,
      );
      lastLine = line;
      lastCharacter = start;
    }
  return data;
}

/** Places are characters of the line. A line with a mistake gets none: half of it coloured would look as if it counted. */
function* tokensOf(placed: PlacedBlock): Generator<Token & { readonly line: number }> {
  const byLine = new Map([...statementsOf(placed)].map(({ statement }) => [statement.line, statement]));
  for (const [number, { start, items, comment }] of placed.block.lines.entries()) {
    const statement = byLine.get(number);
    if (items.length > 0 && (!statement?.whole || namesNothing(statement))) continue;
    const tokens = statement ? [...statementTokens(statement, items)] : [];
    if (comment) tokens.push({ start: comment.start, end: comment.end, type: 'comment' });
    for (const token of tokens)
      yield { line: placed.line + number, start: token.start - start, end: token.end - start, type: token.type };
  }
}

/** Which measures and findings there are the line grammar does not know. */
function namesNothing({ kind, word, args }: Statement): boolean {
  const measure = args.get('measure')?.[0];
  if (kind === 'taped' && findHandMeasure(word)) return false;
  if (kind === 'limit' || kind === 'taped') return !findMeasure(word);
  const finding = args.get('finding')?.[0];
  if (finding?.kind === 'word' && !findCode(finding.image)) return true;
  return measure?.kind === 'word' && !findMeasure(measure.image);
}

const heads: Readonly<Record<Statement['kind'], TokenType>> = {
  header: 'keyword',
  statement: 'property',
  placing: 'type',
  taped: 'variable',
  limit: 'variable',
  unknown: 'property',
};

function* statementTokens(statement: Statement, [head, ...rest]: readonly Item[]): Generator<Token> {
  const named = argumentsOf(statement);
  // A visit whose word is forgotten begins with its date.
  if (head?.kind === 'date') yield* itemTokens(head, undefined);
  else if (head) yield { start: head.start, end: head.end, type: heads[statement.kind] };
  for (const item of rest) yield* itemTokens(item, named.get(item)?.take);
}

function* itemTokens(item: Item, take: Argument['take'] | undefined): Generator<Token> {
  const as = (type: TokenType, { start, end }: Span = item): Token => ({ start, end, type });
  if (take === 'code') return yield as('string');
  switch (item.kind) {
    case 'text':
      return yield as('string');
    case 'date':
      return yield as('number');
    case 'number':
      yield as('number', item.number);
      if (item.unit) yield as('keyword', item.unit);
      return;
    case 'point':
      return yield* [as('number', item.x), as('number', item.y)];
    case 'segment':
      return yield* [...item.from, ...item.to].map((leaf) => as('number', leaf));
    case 'sign':
      return yield as('operator');
    case 'word':
      yield as(take === 'measure' ? 'variable' : take === 'mark' ? 'operator' : 'enumMember');
  }
}
