// Writes into syntaxes/ whatever colours a case file where there is no server, made from the vocabulary.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { GRAMMAR_FILE, grammar } from './grammar.ts';
import { HIGHLIGHT_FILE, highlightLanguage } from './highlight-language.ts';
import { VIM_FILETYPE_FILE, VIM_SYNTAX_FILE, vimFiletype, vimSyntax } from './vim-syntax.ts';

/** The text of each file by its path. */
export function colourFiles(): ReadonlyMap<string, string> {
  return new Map([
    [GRAMMAR_FILE, grammar()],
    [HIGHLIGHT_FILE, highlightLanguage()],
    [VIM_SYNTAX_FILE, vimSyntax()],
    [VIM_FILETYPE_FILE, vimFiletype()],
  ]);
}

function textOf(file: string): string | null {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    return null;
  }
}

if (import.meta.main)
  for (const [path, text] of colourFiles()) {
    // Left alone where nothing changed, so that a watcher or a build by date sees nothing new.
    if (textOf(path) === text) continue;
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, text);
  }
