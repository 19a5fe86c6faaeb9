import { writeFileSync } from 'node:fs';
import { Checks } from '../checks.ts';
import { addExtensionChecks } from './extension-checks.ts';

/** What the extension host calls. It has to end in a throw where a check failed. */
export async function run(): Promise<void> {
  const result = process.env['UNGULA_SUITE_RESULT'];
  if (result === undefined) throw new Error('UNGULA_SUITE_RESULT is not set');
  const checks = new Checks((line) => console.log(`[suite]${line}`));
  await addExtensionChecks(checks);
  writeFileSync(result, JSON.stringify(checks.outcome));
  if (checks.outcome.failed > 0) throw new Error(`${checks.outcome.failed} checks failed`);
}
