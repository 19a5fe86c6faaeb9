import type { Page } from 'playwright-core';

export interface SuiteRun {
  code: number;
  /** What the suite wrote of its checks, where it can write no file. */
  result: string | null;
}

const RESULT = '[suite-result]';

/** Opens a workbench that runs a test suite, prints what the suite says, and waits until it says that it has ended. */
export async function suiteInPage(page: Page, url: string): Promise<SuiteRun> {
  let result: string | null = null;
  return new Promise<SuiteRun>((resolve, reject) => {
    page.once('crash', () => reject(new Error('the page crashed')));
    page
      .exposeFunction('codeAutomationExit', (code: number) => resolve({ code, result }))
      .then(() =>
        page.exposeFunction('codeAutomationLog', (type: string, args: unknown[]) => {
          const text = args.map((arg) => (typeof arg === 'string' ? arg : JSON.stringify(arg))).join(' ');
          if (text.includes(RESULT)) result = text.slice(text.indexOf(RESULT) + RESULT.length);
          else printFromHost(type, text);
        }),
      )
      .then(() => page.goto(url, { timeout: 60_000 }))
      .catch(reject);
  });
}

function printFromHost(type: string, text: string): void {
  // The workbench's own chatter comes this way too; ours is marked.
  if (text.includes('[suite]')) console.log(text.slice(text.indexOf('[suite]') + '[suite]'.length));
  else if (type === 'error' && process.env['UNGULA_HOST_VERBOSE'] !== undefined) console.log(`  host: ${text}`);
}
