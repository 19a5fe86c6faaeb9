import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Position, Range, TextEdit } from 'vscode-languageserver';
import { expect, it } from 'vitest';
import { LanguageClient } from './language-client.ts';
import { linesOf } from './text-positions.ts';

const holds = ({ start, end }: Range, { line, character }: Position): boolean =>
  start.line === line && end.line === line && start.character <= character && character <= end.character;

it.each(['film.hoof', 'words.hoof', 'names.hoof', 'whole.hoof'])(
  'hover and completion answer at every place of %s, about that place',
  async (name) => {
    const client = await LanguageClient.start();
    const text = readFileSync(join(import.meta.dirname, 'fixtures', name), 'utf8').replace(/\n/g, '\r\n');
    const uri = `file:///${name}`;
    client.open(uri, text);
    let hovers = 0;
    let offers = 0;
    for (const [line, { length }] of linesOf(text).entries())
      for (let character = 0; character <= length; character++) {
        const at = { line, character };
        const [hover, items] = await Promise.all([client.hover(uri, at), client.completion(uri, at)]);
        if (hover) {
          hovers += 1;
          expect(hover.range && holds(hover.range, at), `hover at ${line}:${character}`).toBe(true);
        }
        for (const { label, textEdit } of items) {
          offers += 1;
          expect(holds((textEdit as TextEdit).range, at), `${label} at ${line}:${character}`).toBe(true);
        }
      }
    expect(hovers).toBeGreaterThan(30);
    expect(offers).toBeGreaterThan(500);
    expect(client.log).toEqual([]);
    await client.stop();
  },
);
