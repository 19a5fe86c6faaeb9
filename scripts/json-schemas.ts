// Writes what the command line prints as JSON into schemas/, as JSON Schema, so that other programs can hold it to that.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import * as z from 'zod/mini';
import { jsonShapes } from '../shared/export/json-shapes.ts';

/** The text of each file by its path. */
export function jsonSchemas(): ReadonlyMap<string, string> {
  return new Map(
    Object.entries(jsonShapes).map(([command, shape]) => {
      const { $schema, ...schema } = z.toJSONSchema(shape, { target: 'draft-7', override: open });
      const titled = { $schema, title: `What ungula ${command} --format json prints`, ...schema };
      return [
        join(import.meta.dirname, '..', 'schemas', `${command}-output.schema.json`),
        `${JSON.stringify(titled, null, 2)}\n`,
      ];
    }),
  );
}

/** Later versions may say more; who reads passes over what it does not know. */
function open({ jsonSchema }: { readonly jsonSchema: { additionalProperties?: unknown } }): void {
  if (jsonSchema.additionalProperties === false) delete jsonSchema.additionalProperties;
}

function now(path: string): string | null {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return null;
  }
}

if (import.meta.main) for (const [path, text] of jsonSchemas()) if (now(path) !== text) writeFileSync(path, text);
