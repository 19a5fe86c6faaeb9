import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { commandLine } from '../../src/cli/command-line.ts';
import type { AgreeJson } from '../../shared/export/json-shapes.ts';
import { eventually, expectEqual, expectThat, type Checks } from './checks.ts';
import { MockPane } from './mock-pane.ts';
import { ROOT } from './under-test.ts';

const EXAMPLE = join(ROOT, 'tests', 'agreement', 'three-readers.hoof');

/** The view Agreement by itself in a browser, wide and narrow: the numbers of the command line, and the keyboard. */
export async function agreementChecks(checks: Checks, browser: Browser, shots: string): Promise<void> {
  for (const width of [1100, 480])
    await checks.check(`agreement at ${width} px: the figures of the command line, by keyboard too`, 60, async () => {
      const pane = await MockPane.start(readFileSync(EXAMPLE, 'utf8'));
      const context = await browser.newContext({ viewport: { width, height: 900 } });
      try {
        const page = await context.newPage();
        const faults: string[] = [];
        page.on('pageerror', ({ message }) => faults.push(message));
        await pane.open(page);
        await page.getByRole('button', { name: 'Agreement' }).click();
        const plot = page.getByRole('slider');
        await plot.waitFor();
        const { measures } = await onCommandLine();
        const angle = measures.find(({ measure }) => measure === 'palmar-angle');
        expectThat(angle !== undefined && 'icc21' in angle.table, 'the command line has no correlation');
        const row = page.locator('.figures tr[data-measure="film palmar-angle"]');
        expectEqual(
          (await row.locator('.value').first().innerText()).trim(),
          angle.table.icc21.value.toFixed(3),
          'the correlation',
        );
        expectEqual(await page.locator('.difference-plot .film-point').count(), 6, 'rings of films');
        await plot.focus();
        const first = await plot.getAttribute('aria-valuetext');
        await page.keyboard.press('ArrowRight');
        await eventually(5, async () => {
          const second = await plot.getAttribute('aria-valuetext');
          expectThat(second !== first && /difference/.test(second ?? ''), `the plot reads ${second} after ${first}`);
          expectEqual(await page.locator('.cursor-ring').count(), 1, 'rings of the cursor');
        });
        // Another measure, chosen by its row, and the ellipses larger: neither leaves the page wider than the pane.
        await page.locator('.figures button', { hasText: 'Toe length' }).press('Enter');
        await eventually(5, async () =>
          expectThat((await plot.getAttribute('aria-label'))?.startsWith('Toe length') === true, 'the plot stays'),
        );
        const ellipse = page.locator('.scatter [data-landmark="p3.tip"] .most');
        const before = await ellipse.boundingBox();
        await page.getByRole('button', { name: '5 times as large' }).click();
        const after = await ellipse.boundingBox();
        const grown = (after?.width ?? 0) / (before?.width ?? 1);
        expectThat(grown > 4 && grown < 5.5, `the ellipse is ${grown} times as wide`);
        expectEqual(
          await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth),
          true,
          'the page fits the pane',
        );
        expectEqual(faults, [], 'errors of the page');
        await page.screenshot({ path: join(shots, `agreement, ${width}.png`), fullPage: true });
      } finally {
        await context.close();
        await pane.stop();
      }
    });
}

async function onCommandLine(): Promise<AgreeJson> {
  let out = '';
  await commandLine(['agree', EXAMPLE, '--format', 'json'], { out: (text) => (out += text), err: () => undefined });
  return JSON.parse(out) as AgreeJson;
}
