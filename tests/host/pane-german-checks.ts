import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { useWords } from '../../shared/language/words.ts';
import { mockedPage } from '../bench/mocked-page.ts';
import { expectEqual, expectThat, type Checks } from './checks.ts';
import { exampleOf, toldOf } from './pane.ts';
import { views } from './pane-views.ts';
import { ROOT, type UnderTest } from './under-test.ts';

const SHOTS = join(ROOT, 'out', 'screenshots', 'pane-german');
/** Beside a text, and as narrow as a pane is made; each with letters of the usual size and twice as large (WCAG 2.2, 1.4.4). */
const sizes = [
  [1000, 1],
  [480, 1],
  [1000, 2],
  [480, 2],
] as const;
const LETTERS = 13;

/** German words are long: none is cut off, none lies over another, and nothing stands out of the pane, at any size of its letters. */
export async function paneHasRoomForGerman(checks: Checks, { extension, examples }: UnderTest): Promise<void> {
  const words = JSON.parse(readFileSync(join(ROOT, 'l10n', 'bundle.l10n.de.json'), 'utf8')) as Record<string, string>;
  const pane = await mockedPage(examples, null, { extension, words });
  const { page } = pane;
  useWords(words);
  const told = toldOf(exampleOf(examples, 'juniper.hoof'), 'Juniper', (picture) => `/${picture}`);
  useWords(undefined);
  try {
    await checks.check('words that have no room are found where they are put', 30, async () => {
      await views['film']?.(pane, told);
      await page.evaluate(() => {
        const cut = document.createElement('button');
        cut.textContent = 'Strecksehnenfortsatz';
        cut.style.cssText = 'width:3em;overflow:hidden';
        const over = document.createElement('button');
        over.textContent = 'Kronrand';
        over.style.cssText = 'margin-left:-2em';
        document.body.append(cut, over);
      });
      const found = await withoutRoom(page);
      expectThat(
        found.some((one) => one.includes('cut off')),
        'what is cut off is not seen',
      );
      expectThat(
        found.some((one) => one.includes('over')),
        'what lies over another is not seen',
      );
    });
    for (const [view, open] of Object.entries(views))
      await checks.check(
        `${view}: in German all words have room, at 1000 and 480 px, of usual size and twice`,
        90,
        async () => {
          const found: string[] = [];
          for (const [width, times] of sizes) {
            await page.setViewportSize({ width, height: 900 });
            await open(pane, told);
            await page.evaluate(
              ([size]) => {
                document.documentElement.style.setProperty('--vscode-font-size', `${size}px`);
                document.body.style.fontSize = `${size}px`;
              },
              [LETTERS * times],
            );
            await page.waitForTimeout(100);
            found.push(...(await withoutRoom(page)).map((one) => `${width} px, letters ${times} times: ${one}`));
            await page.screenshot({ path: join(SHOTS, `${view}, ${width}, ${times}.png`), fullPage: true });
          }
          expectEqual(found.slice(0, 12), [], 'words without room');
        },
      );
  } finally {
    await pane.close();
  }
}

/** Words that are cut off, stand out of the pane, or lie over others, a line each. */
async function withoutRoom(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const found: string[] = [];
    const root = document.documentElement;
    if (root.scrollWidth > root.clientWidth + 1)
      found.push(`the page is ${root.scrollWidth} px wide in ${root.clientWidth}`);
    const said = (one: Element): string =>
      `${one.tagName.toLowerCase()}.${one.getAttribute('class') ?? ''} "${(one.textContent ?? '').trim().slice(0, 40)}"`;
    const isShown = (one: Element): boolean => one.checkVisibility({ visibilityProperty: true, opacityProperty: true });
    for (const one of document.body.querySelectorAll<HTMLElement>('*')) {
      if (one.closest('svg, script, style') || !isShown(one) || one.childElementCount > 3) continue;
      // What is there for screen readers alone has no room by design.
      if (one.clientWidth <= 1 || one.closest('thead')) continue;
      const { overflowX, textOverflow } = getComputedStyle(one);
      if (/hidden|clip/.test(overflowX) && one.scrollWidth > one.clientWidth + 1 && textOverflow !== 'ellipsis')
        found.push(`cut off: ${said(one)}`);
    }
    const boxes = [...document.body.querySelectorAll('button, select, tbody th, tbody td, label, h2, h3, summary')]
      .filter((one) => isShown(one) && !one.closest('svg'))
      .map((one) => ({ one, box: one.getBoundingClientRect() }))
      .filter(({ box }) => box.width > 1 && box.height > 1);
    for (const [index, a] of boxes.entries())
      for (const b of boxes.slice(index + 1)) {
        if (a.one.contains(b.one) || b.one.contains(a.one)) continue;
        const wide = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
        const high = Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top);
        if (wide > 2 && high > 2) found.push(`${said(a.one)} lies over ${said(b.one)}`);
      }
    return found;
  });
}
