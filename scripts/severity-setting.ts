// Writes the names that the setting ungula.severity takes into package.json, from the table of codes.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { levelNames, levels } from '../shared/findings/engine/severity-levels.ts';

export const MANIFEST = join(import.meta.dirname, '..', 'package.json');

/** The manifest as it should be. */
export function manifestWithCodes(text: string): string {
  const manifest = JSON.parse(text) as { contributes: { configuration: { properties: Record<string, object> } } };
  const setting = manifest.contributes.configuration.properties['ungula.severity'];
  if (!setting) throw new Error('package.json has no setting ungula.severity');
  Object.assign(setting, {
    propertyNames: { enum: levelNames },
    additionalProperties: { type: 'string', enum: levels },
  });
  return `${JSON.stringify(manifest, null, 2)}\n`;
}

if (import.meta.main) {
  const text = readFileSync(MANIFEST, 'utf8');
  const wanted = manifestWithCodes(text);
  if (wanted !== text) {
    writeFileSync(MANIFEST, wanted);
    console.log('package.json written');
  }
}
