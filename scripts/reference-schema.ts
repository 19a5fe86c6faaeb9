// Writes the JSON Schema by which editors check a set of reference values of one's own.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import * as z from 'zod/mini';
import { referenceSchema } from '../shared/findings/limits/read-reference.ts';

export const REFERENCE_SCHEMA_FILE = join(import.meta.dirname, '..', 'schemas', 'reference.schema.json');

/** Draft 7: the one that VS Code checks in full. */
export function referenceSchemaText(): string {
  const { $schema, ...schema } = z.toJSONSchema(referenceSchema(), { target: 'draft-7', io: 'input' });
  return `${JSON.stringify({ $schema, title: 'Reference values of one’s own for Ungula', ...schema }, null, 2)}\n`;
}

function now(): string | null {
  try {
    return readFileSync(REFERENCE_SCHEMA_FILE, 'utf8');
  } catch {
    return null;
  }
}

if (import.meta.main && now() !== referenceSchemaText()) {
  mkdirSync(dirname(REFERENCE_SCHEMA_FILE), { recursive: true });
  writeFileSync(REFERENCE_SCHEMA_FILE, referenceSchemaText());
}
