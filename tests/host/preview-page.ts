import { join } from 'node:path';
import { agreementChecks } from './agreement-checks.ts';
import { closeBrowser, launchBrowser } from './browser.ts';
import { Checks, type Outcome } from './checks.ts';
import { ensureChromium } from './chromium.ts';
import { labelChecks } from './label-checks.ts';
import { lessonPageChecks } from './lesson-page-checks.ts';
import { paneIsAccessible } from './pane-access-checks.ts';
import { paneIsSafe } from './pane-safe-checks.ts';
import { paneHasRoomForGerman } from './pane-german-checks.ts';
import { paneIsTranslated } from './pane-words-checks.ts';
import { placingPageChecks } from './placing-page-checks.ts';
import { placingStageChecks } from './placing-stage-checks.ts';
import { plateChecks } from './plate-checks.ts';
import { ROOT, type UnderTest } from './under-test.ts';

const SHOTS = join(ROOT, 'out', 'screenshots');

/** The built page of the preview pane in Chromium, with a host that only listens. */
export async function runPreviewPage(subject: UnderTest): Promise<Outcome> {
  console.log('The page of the preview pane in Chromium');
  const checks = new Checks();
  await paneIsSafe(checks, subject);
  const browser = await launchBrowser(await ensureChromium());
  try {
    await placingPageChecks(checks, browser, SHOTS);
    await placingStageChecks(checks, browser, SHOTS);
    await lessonPageChecks(checks, browser, SHOTS);
    await agreementChecks(checks, browser, SHOTS);
  } finally {
    await closeBrowser(browser);
  }
  await plateChecks(checks, subject);
  await labelChecks(checks, subject);
  await paneIsAccessible(checks, subject);
  await paneIsTranslated(checks, subject);
  await paneHasRoomForGerman(checks, subject);
  return checks.outcome;
}
