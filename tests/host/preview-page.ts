import { Checks, type Outcome } from './checks.ts';
import { labelChecks } from './label-checks.ts';
import { paneIsAccessible } from './pane-access-checks.ts';
import { paneIsSafe } from './pane-safe-checks.ts';
import { paneIsTranslated } from './pane-words-checks.ts';
import { plateChecks } from './plate-checks.ts';
import type { UnderTest } from './under-test.ts';

/** The built page of the preview pane in Chromium, with a host that only listens. */
export async function runPreviewPage(subject: UnderTest): Promise<Outcome> {
  console.log('The page of the preview pane in Chromium');
  const checks = new Checks();
  await paneIsSafe(checks, subject);
  await plateChecks(checks, subject);
  await labelChecks(checks, subject);
  await paneIsAccessible(checks, subject);
  await paneIsTranslated(checks, subject);
  return checks.outcome;
}
