import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { eventually, expectEqual, expectThat, type Checks } from './checks.ts';
import { MockPane } from './mock-pane.ts';

const bare = `hoof 1

case "Juniper"

visit 2026-03-04
  film LF lateral "films/juniper-lf-2026-03-03.png"
    p3.tip            @  432,  967
    p3.wing           @  874.5,  877.5
`;

/** The page by itself in a browser: what a keyboard, fingers and a reload do, which no editor is needed for. */
export async function placingPageChecks(checks: Checks, browser: Browser, shots: string): Promise<void> {
  await checks.check('placing by keyboard alone', 60, () =>
    withPage(browser, {}, async (page, pane) => {
      await page.getByRole('button', { name: 'Place landmarks' }).focus();
      await page.keyboard.press('Enter');
      await page.locator('.stage:focus').waitFor();
      await page.keyboard.press('Tab');
      expectEqual(await page.locator(':focus').getAttribute('data-handle'), 'p3.tip', 'the first stop of the Tab key');
      await page.keyboard.press('ArrowRight');
      await holds(pane, '433,  967');
      await page.keyboard.press('Shift+ArrowUp');
      await holds(pane, '433,  957');
      await page.keyboard.press('Alt+ArrowLeft');
      await holds(pane, '432.9,  957');
      // A key that is held is one step.
      await page.keyboard.down('ArrowDown');
      for (let repeat = 0; repeat < 5; repeat++) await page.keyboard.down('ArrowDown');
      await page.keyboard.up('ArrowDown');
      await holds(pane, '432.9,  963');
      await page.keyboard.press('Control+Z');
      await holds(pane, '432.9,  957');
      await page.keyboard.press('Control+Shift+Z');
      await holds(pane, '432.9,  963');
      await page.keyboard.press('Delete');
      await eventually(5, () => expectThat(!pane.text.includes('p3.tip'), 'the tip is still there'));
      await page.keyboard.press('Control+Z');
      await holds(pane, '432.9,  963');
      // The walk stands at the scale: Enter does nothing until the cross was moved; then one end, a step of the cross, the other, and the length.
      await page.locator('.stage').focus();
      await page.keyboard.press('Enter');
      await page.getByText('Move the cross to the place with the arrow keys').waitFor();
      await page.keyboard.press('Shift+ArrowLeft');
      await page.keyboard.press('Enter');
      await page.keyboard.press('Shift+ArrowRight');
      await page.keyboard.press('Enter');
      await page.locator('.marker-length input:focus').waitFor();
      expectThat(!pane.text.includes('scale'), 'a length was assumed');
      await page.keyboard.type('80');
      await page.keyboard.press('Enter');
      await eventually(5, () => expectThat(/scale {3}80 mm = \d.* \.\. \d/.test(pane.text), pane.text));
      await page.locator('.stage:focus').waitFor();
      await page.keyboard.press('Escape');
      await page.locator('.plate').waitFor();
    }),
  );

  await checks.check('fingers: one aims under the glass, two bring the film closer', 60, () =>
    withPage(browser, { width: 620, height: 900, touch: true }, async (page, pane) => {
      await page.getByRole('button', { name: 'Place landmarks' }).tap();
      await page.getByRole('button', { name: 'Skip', exact: true }).tap();
      await page.getByRole('button', { name: 'Skip', exact: true }).tap();
      const fingers = await page.context().newCDPSession(page);
      const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', ...touchPoints: { x: number; y: number }[]) =>
        fingers.send('Input.dispatchTouchEvent', { type, touchPoints });
      const box = await page.locator('.stage').boundingBox();
      expectThat(box !== null, 'there is no stage');
      const middle = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
      const zoom = (): Promise<number> =>
        page.locator('.film-picture').evaluate((film) => new DOMMatrix(getComputedStyle(film).transform).a);
      const whole = await zoom();
      const before = pane.text;
      await touch('touchStart', { x: middle.x - 30, y: middle.y });
      await touch('touchStart', { x: middle.x - 30, y: middle.y }, { x: middle.x + 30, y: middle.y });
      await touch('touchMove', { x: middle.x - 90, y: middle.y }, { x: middle.x + 90, y: middle.y });
      await touch('touchEnd');
      await eventually(5, async () => expectThat((await zoom()) > 2.5 * whole, 'two fingers bring nothing closer'));
      expectEqual(pane.text, before, 'the text after a pinch');
      await touch('touchStart', { x: middle.x - 40, y: middle.y + 60 });
      await touch('touchMove', { x: middle.x + 10, y: middle.y + 80 });
      const glass = page.locator('.glass');
      await glass.waitFor({ state: 'visible' });
      const seen = await glass.boundingBox();
      expectThat(seen !== null && seen.y + seen.height < middle.y + 80 - 40, 'the finger lies over the glass');
      await page.screenshot({ path: join(shots, 'placing-finger.png') });
      await touch('touchEnd');
      await eventually(5, () =>
        expectEqual(pane.text.split('@').length, before.split('@').length + 1, 'places in the text'),
      );
    }),
  );

  await checks.check('where one was and how the film was looked at survive a reload', 60, () =>
    withPage(browser, { theme: 'dark' }, async (page) => {
      await page.getByRole('button', { name: 'Place landmarks' }).click();
      await page.getByRole('button', { name: 'Skip', exact: true }).click();
      await page.getByRole('button', { name: 'Inverted' }).click();
      for (let times = 0; times < 3; times++) await page.getByRole('button', { name: 'Closer' }).click();
      const state = (): Promise<unknown> =>
        page.locator('.film-picture').evaluate((film) => {
          const { transform, filter } = getComputedStyle(film);
          return { transform, filter, step: document.querySelector('.walk-card h2')?.textContent };
        });
      // What is kept is kept a moment after the last move.
      await page.waitForTimeout(500);
      const before = await state();
      await page.reload();
      await page.locator('.film-picture').waitFor();
      await eventually(5, async () => expectEqual(await state(), before, 'the stage after a reload'));
    }),
  );

  await checks.check('the buttons of the page do what they say', 60, () =>
    withPage(browser, { text: `${bare}  film RF lateral "films/bramble-rf-2026-02-10.png"\n` }, async (page) => {
      await page.getByRole('button', { name: /right fore/ }).click();
      await page.getByText('Right fore, lateral film, 2026-03-04').waitFor();
      await page.getByRole('button', { name: 'Place landmarks' }).click();
      const drawing = page.getByRole('button', { name: 'Drawing' });
      await drawing.click();
      await eventually(5, async () => expectEqual(await drawing.getAttribute('aria-pressed'), 'false', 'the drawing'));
    }),
  );

  const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
  for (const theme of ['light', 'dark'] as const)
    await checks.check(`nothing stands in the way of anyone while placing (axe, ${theme})`, 60, () =>
      withPage(browser, { theme }, async (page) => {
        await page.getByRole('button', { name: 'Place landmarks' }).click();
        await page.locator('.wanted > summary').click();
        await page.locator('.stage [data-handle]').first().waitFor();
        await page.evaluate(`${axe}; 0`);
        const faults = await page.evaluate(async () => {
          const { axe } = globalThis as unknown as {
            axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
          };
          const { violations } = await axe.run();
          return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 120)).join(' | ')}`);
        });
        expectEqual(faults, [], 'what axe found');
      }),
    );
}

const holds = (pane: MockPane, text: string): Promise<void> =>
  eventually(5, () => expectThat(pane.text.includes(text), `no ${text} in ${pane.text}`));

interface Wish {
  readonly width?: number;
  readonly height?: number;
  readonly touch?: boolean;
  readonly theme?: 'light' | 'dark';
  readonly text?: string;
}

export async function withPage(
  browser: Browser,
  { width = 1280, height = 860, touch = false, theme = 'light', text = bare }: Wish,
  work: (page: Page, pane: MockPane) => Promise<void>,
): Promise<void> {
  const pane = await MockPane.start(text, theme);
  const context = await browser.newContext({ viewport: { width, height }, hasTouch: touch, bypassCSP: true });
  try {
    const page = await context.newPage();
    page.setDefaultTimeout(10_000);
    await pane.open(page);
    await work(page, pane);
  } finally {
    await context.close();
    await pane.stop();
  }
}
