import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { SemanticTokensBook, tokensLegend } from '../../server/features/semantic-tokens.ts';
import { colourWords } from '../../scripts/colour-words.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { byteEdit, randomFrom, tokenEdit } from '../property/random-edits.ts';

/** A stretch of a line and how it is coloured, as the protocol names it. */
export interface Coloured {
  readonly start: number;
  readonly end: number;
  readonly type: string;
}

/** By line of a text: what the server colours in it. Lines that it leaves plain are missing. */
export function productColours(text: string): ReadonlyMap<number, readonly Coloured[]> {
  const document = TextDocument.create('file:///a.hoof', 'hoof', 1, text);
  const { data } = new SemanticTokensBook().full(document, inspect(text));
  const byLine = new Map<number, Coloured[]>();
  let [line, character] = [0, 0];
  for (let at = 0; at < data.length; at += 5) {
    const [lines, characters, length, type] = data.slice(at, at + 4) as [number, number, number, number];
    line += lines;
    character = lines > 0 ? characters : character + characters;
    const tokens = byLine.get(line) ?? [];
    tokens.push({ start: character, end: character + length, type: tokensLegend.tokenTypes[type] ?? '' });
    byLine.set(line, tokens);
  }
  return byLine;
}

/** The lines of a text as the notation parts them. */
export const linesOf = (text: string): string[] => text.split(/\r\n|\r|\n/);

/**
 * Where a highlighter colours a line otherwise than the server does, in words; empty where it agrees. `typeAt` gives its colour of a
 * character in the server's words, null for none and for punctuation. A line that the server leaves plain holds a mistake, is
 * prose or is empty: there is nothing to compare. A misspelt word that the server reads all the same (`known` is false of it) may be
 * plain, as a list of words cannot know it.
 */
export function differences(
  line: string,
  tokens: readonly Coloured[],
  typeAt: (column: number) => string | null,
  known: (word: string) => boolean,
): string[] {
  const found: string[] = [];
  for (const { start, end, type } of tokens) {
    const text = line.slice(start, end);
    for (let column = start; column < end; column++) {
      if (/\s/.test(line[column] ?? '') && type !== 'string' && type !== 'comment') continue;
      const other = typeAt(column);
      if (other === type || (other === null && !known(text))) continue;
      found.push(`${text}: ${type}, not ${other}`);
      break;
    }
  }
  for (let column = 0; column < line.length; column++) {
    if (/\s/.test(line[column] ?? '') || tokens.some(({ start, end }) => column >= start && column < end)) continue;
    const other = typeAt(column);
    if (other !== null) found.push(`${line[column]} at ${column}: none, not ${other}`);
  }
  return found;
}

const { coded: _, ...lists } = colourWords();
const words = new Set(Object.values(lists).flat());

/** Whether something that the server colours could be coloured by a list of words: all but a misspelt word. */
export const isKnown = (text: string): boolean => words.has(text) || !/^\p{L}[\p{L}\p{N}_./-]*$/u.test(text);

const folder = join(import.meta.dirname, '..', '..', 'examples');
export const examples: ReadonlyMap<string, string> = new Map(
  readdirSync(folder)
    .filter((name) => name.endsWith('.hoof'))
    .map((name) => [name, readFileSync(join(folder, name), 'utf8')]),
);

/** So many texts, each an example with eight random changes; the same ones for a seed. */
export function* editedTexts(count: number, seed: number): Iterable<string> {
  const random = randomFrom(seed);
  const texts = [...examples.values()];
  for (let done = 0; done < count; done++) {
    let text = texts[done % texts.length] as string;
    for (let step = 0; step < 8; step++) text = step % 2 === 0 ? tokenEdit(text, random) : byteEdit(text, random);
    yield text;
  }
}
