import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type {
  CodeLens,
  DocumentHighlight,
  DocumentLink,
  FoldingRange,
  InlayHint,
  Location,
  Position,
  Range,
  SelectionRange,
  SignatureHelp,
} from 'vscode-languageserver';
import { expect, it } from 'vitest';
import { LanguageClient } from './language-client.ts';
import { linesOf, offsetAt, positionAt, textIn } from './text-positions.ts';

const fixture = (name: string): string => readFileSync(join(import.meta.dirname, 'fixtures', name), 'utf8');
const names = ['film.hoof', 'words.hoof', 'names.hoof', 'whole.hoof'];

const places = (text: string): Position[] =>
  linesOf(text).flatMap(({ length }, line) =>
    Array.from({ length: length + 1 }, (_, character) => ({ line, character })),
  );

/** A range that lies in the text as it is told: no place beyond the end of a line, and no end before a start. */
function expectReal(text: string, range: Range, context: string): void {
  for (const place of [range.start, range.end]) expect(positionAt(text, offsetAt(text, place)), context).toEqual(place);
  expect(offsetAt(text, range.start), context).toBeLessThanOrEqual(offsetAt(text, range.end));
}

const holds = (text: string, range: Range, at: Position): boolean =>
  offsetAt(text, range.start) <= offsetAt(text, at) && offsetAt(text, at) <= offsetAt(text, range.end);

it.each(
  names.flatMap(
    (name) =>
      [
        [name, '\r\n'],
        [name, '\r'],
      ] as const,
  ),
)('places named, defined and grown from answer at every place of %s, lines ending in %j', async (name, end) => {
  const client = await LanguageClient.start();
  const text = fixture(name).replace(/cob/, '🐴').replace(/\n/g, end);
  const uri = `file:///${name}`;
  client.open(uri, text);
  const counts = { definitions: 0, references: 0, renames: 0, refusals: 0, helps: 0, steps: 0 };
  for (const position of places(text)) {
    const at = `${position.line}:${position.character}`;
    const [defined, referred, lit, help, grown, renamed] = await Promise.all([
      client.about<Location[]>('definition', uri, { position }),
      client.about<Location[]>('references', uri, { position, context: { includeDeclaration: true } }),
      client.about<DocumentHighlight[]>('documentHighlight', uri, { position }),
      client.about<SignatureHelp | null>('signatureHelp', uri, { position }),
      client.about<SelectionRange[]>('selectionRange', uri, { positions: [position] }),
      client.about<{ range: Range }>('prepareRename', uri, { position }).catch((error: { code: number }) => error.code),
    ]);
    for (const { range } of [...defined, ...referred, ...lit]) expectReal(text, range, at);
    // Whatever is named here is among the places where it is named, and reads the same at each.
    expect(
      lit.map(({ range }) => range),
      at,
    ).toEqual(referred.map(({ range }) => range));
    const here = referred.filter(({ range }) => holds(text, range, position));
    expect(here.length, at).toBe(referred.length > 0 ? 1 : 0);
    counts.definitions += defined.length;
    counts.references += referred.length;
    if (typeof renamed === 'number') {
      expect(renamed, at).toBe(-32803);
      counts.refusals += 1;
    } else {
      expect(holds(text, (here[0] as Location).range, renamed.range.start), at).toBe(true);
      counts.renames += 1;
    }
    if (help) {
      counts.helps += 1;
      const parameters = help.signatures[help.activeSignature ?? 0]?.parameters ?? [];
      expect(help.activeParameter, at).toBeGreaterThanOrEqual(0);
      expect(help.activeParameter, at).toBeLessThan(parameters.length);
    }
    expect(grown, at).toHaveLength(1);
    for (let one = grown[0]; one; one = one.parent) {
      counts.steps += 1;
      expectReal(text, one.range, at);
      expect(holds(text, one.range, position), at).toBe(true);
      if (!one.parent) expect(textIn(text, one.range)).toBe(text);
      else expect(textIn(text, one.parent.range).length, at).toBeGreaterThan(textIn(text, one.range).length);
    }
  }
  expect(counts.refusals).toBeGreaterThan(100);
  expect(counts.helps).toBeGreaterThan(50);
  expect(counts.steps).toBeGreaterThan(1000);
  if (name === 'film.hoof') expect(counts.references).toBeGreaterThan(50);
  if (name === 'film.hoof' || name === 'whole.hoof') expect(counts.definitions).toBeGreaterThan(5);
  expect(client.log).toEqual([]);
  await client.stop();
});

it.each(names)('what is told of the whole of %s lies in it, cut off anywhere', async (name) => {
  const client = await LanguageClient.start();
  const whole = fixture(name).replace(/\n/g, '\r\n');
  const uri = `file:///${name}`;
  client.open(uri, '');
  let told = 0;
  for (let length = 0, version = 2; length <= whole.length; length += 7, version++) {
    const text = whole.slice(0, length);
    client.change(uri, version, [{ text }]);
    const lines = linesOf(text).length;
    const range = { start: { line: 0, character: 0 }, end: { line: lines, character: 0 } };
    const [folds, links, lenses, hints] = await Promise.all([
      client.about<FoldingRange[]>('foldingRange', uri),
      client.about<DocumentLink[]>('documentLink', uri),
      client.about<CodeLens[]>('codeLens', uri),
      client.about<InlayHint[]>('inlayHint', uri, { range }),
    ]);
    const context = `cut off at ${length}`;
    for (const { startLine, endLine } of folds) {
      expect(startLine, context).toBeLessThan(endLine);
      expect(endLine, context).toBeLessThan(lines);
    }
    for (const one of [...links, ...lenses]) expectReal(text, one.range, context);
    for (const { position } of hints) expectReal(text, { start: position, end: position }, context);
    for (const { command } of lenses) expect(command?.title, context).toMatch(/./);
    told += folds.length + links.length + lenses.length + hints.length;
  }
  expect(told).toBeGreaterThan(50);
  expect(client.log).toEqual([]);
  await client.stop();
});
