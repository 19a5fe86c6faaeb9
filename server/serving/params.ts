import { ErrorCodes, ResponseError, type CodeActionContext, type TextDocuments } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { ReadingsOf } from '../../shared/protocol/readings.ts';
import type { Span } from '../../shared/notation/tree.ts';
import { isCase } from './inspections.ts';

/** Parameters come from any client, so their shape is looked at before it is trusted. */

export const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null;

function refuse(what: string): never {
  throw new ResponseError(ErrorCodes.InvalidParams, what);
}

/**
 * Null for a document that is not open, which is nothing to complain about: it may just have been closed. Null too for
 * one that is too large to be a case: its one finding says so, and nothing else is known of it.
 */
export function askedDocument(documents: TextDocuments<TextDocument>, params: unknown): TextDocument | null {
  const document = documents.get(askedUri(params));
  return document && isCase(document) ? document : null;
}

export function askedUri(params: unknown): string {
  const identifier = isObject(params) ? params['textDocument'] : undefined;
  const uri = isObject(identifier) ? identifier['uri'] : undefined;
  if (typeof uri !== 'string') refuse('textDocument.uri is missing');
  return uri;
}

export function askedOffset(document: TextDocument | null, params: unknown): number {
  return offsetOf(document, isObject(params) ? params['position'] : undefined, 'position');
}

export function askedRange(document: TextDocument | null, params: unknown): Span {
  return spanOf(document, isObject(params) ? params['range'] : undefined, 'range');
}

export function askedRanges(document: TextDocument | null, params: unknown): Span[] {
  const ranges = isObject(params) ? params['ranges'] : undefined;
  if (!Array.isArray(ranges)) refuse('ranges are missing');
  return ranges.map((range) => spanOf(document, range, 'a range of ranges'));
}

function spanOf(document: TextDocument | null, range: unknown, what: string): Span {
  if (!isObject(range)) refuse(`${what} is missing`);
  return {
    start: offsetOf(document, range['start'], `${what}.start`),
    end: offsetOf(document, range['end'], `${what}.end`),
  };
}

export function askedOffsets(document: TextDocument | null, params: unknown): number[] {
  const positions = isObject(params) ? params['positions'] : undefined;
  if (!Array.isArray(positions)) refuse('positions are missing');
  return positions.map((position) => offsetOf(document, position, 'a position of positions'));
}

/** The requested kinds of code action, malformed ones left out; all kinds where the client names none. */
export function askedContext(params: unknown): CodeActionContext {
  const context = isObject(params) ? params['context'] : undefined;
  const only = isObject(context) ? context['only'] : undefined;
  return { diagnostics: [], ...(Array.isArray(only) && { only: only.filter((kind) => typeof kind === 'string') }) };
}

function offsetOf(document: TextDocument | null, position: unknown, what: string): number {
  if (!isObject(position)) refuse(`${what} is missing`);
  const { line, character } = position;
  if (!isCount(line) || !isCount(character)) refuse(`${what} needs a line and a character, whole numbers from 0`);
  return document?.offsetAt({ line, character }) ?? 0;
}

function isCount(value: unknown): value is number {
  return Number.isInteger(value) && (value as number) >= 0;
}

/** The id of the result that the client was given before. */
export function askedPrevious(params: unknown): string | null {
  const id = isObject(params) ? params['previousResultId'] : undefined;
  return typeof id === 'string' ? id : null;
}

/** The same for many files; malformed entries are left out. */
export function askedPreviousIds(params: unknown): { uri: string; value: string }[] {
  const ids: unknown = isObject(params) ? params['previousResultIds'] : undefined;
  return (Array.isArray(ids) ? (ids as unknown[]) : []).flatMap((one) => {
    const { uri, value } = isObject(one) ? one : {};
    return typeof uri === 'string' && typeof value === 'string' ? [{ uri, value }] : [];
  });
}

/** The search query; refused where it is missing. */
export function askedQuery(params: unknown): string {
  const query = isObject(params) ? params['query'] : undefined;
  if (typeof query !== 'string') refuse('query is missing');
  return query;
}

/** Of the case alone unless its folder is asked for. */
export const askedReadings = (params: unknown): ReadingsOf =>
  isObject(params) && params['of'] === 'folder' ? 'folder' : 'case';
