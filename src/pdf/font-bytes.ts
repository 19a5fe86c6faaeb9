import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fontFiles } from './font-files.ts';

/** The files of type, by their names. In the bundle they stand as bytes (`scripts/pdf-bundle.mjs`), so that it needs nothing beside it. */
export const fontBytes: Readonly<Record<string, Uint8Array>> = Object.fromEntries(
  [...new Set(Object.values(fontFiles).flat())].map((name) => [
    name,
    new Uint8Array(readFileSync(join(import.meta.dirname, '..', '..', 'node_modules', name))),
  ]),
);
