import { readFileSync, writeFileSync } from 'node:fs';
import { Checks } from '../checks.ts';
import type { CaseFile } from '../expected.ts';
import { addExtensionChecks } from './extension-checks.ts';
import { addManyFilesChecks } from './many-files-checks.ts';

/** What the extension host calls. It has to end in a throw where a check failed. */
export async function run(): Promise<void> {
  const checks = new Checks((line) => console.log(`[suite]${line}`));
  await addExtensionChecks(checks, JSON.parse(readFileSync(named('UNGULA_SUITE_EXPECTED'), 'utf8')) as CaseFile[]);
  // The last one: it leaves them open.
  await addManyFilesChecks(checks);
  writeFileSync(named('UNGULA_SUITE_RESULT'), JSON.stringify(checks.outcome));
  if (checks.outcome.failed > 0) throw new Error(`${checks.outcome.failed} checks failed`);
}

function named(variable: string): string {
  const value = process.env[variable];
  if (value === undefined) throw new Error(`${variable} is not set`);
  return value;
}
