import { Checks } from '../checks.ts';
import type { CaseFile } from '../expected.ts';
import { addExtensionChecks } from './extension-checks.ts';

/** Put in when this is bundled: a web worker has neither files nor an environment to find it in. */
declare const UNGULA_SUITE_EXPECTED: readonly CaseFile[];

/** What the web extension host calls. What became of the checks goes the only way out, the log. */
export async function run(): Promise<void> {
  const checks = new Checks((line) => console.log(`[suite]${line}`));
  await addExtensionChecks(checks, UNGULA_SUITE_EXPECTED);
  console.log(`[suite-result]${JSON.stringify(checks.outcome)}`);
  if (checks.outcome.failed > 0) throw new Error(`${checks.outcome.failed} checks failed`);
}
