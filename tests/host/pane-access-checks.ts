import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import type { AxeResults } from 'axe-core';
import type { Page } from 'playwright-core';
import { mockedPage } from '../bench/mocked-page.ts';
import { expectEqual, expectThat, type Checks } from './checks.ts';
import { exampleOf, openIn, tell, toldOf } from './pane.ts';
import { putOn, themes } from './pane-themes.ts';
import { views } from './pane-views.ts';
import { ROOT, type UnderTest } from './under-test.ts';

const SHOTS = join(ROOT, 'out', 'screenshots', 'pane');
const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const WIDTHS = [1100, 420] as const;
const HEIGHT = 900;

/** Everybody can see and use the page: by eye in each theme and width, by keyboard, enlarged, without motion, on paper. */
export async function paneIsAccessible(checks: Checks, { extension, examples }: UnderTest): Promise<void> {
  const pane = await mockedPage(examples, null, { extension });
  const { page } = pane;
  const told = toldOf(exampleOf(examples, 'juniper.hoof'), 'Juniper', (picture) => `/${picture}`);
  try {
    await checks.check('axe finds a fault that is put there', 30, async () => {
      await openIn(pane, {}, told.sheets);
      await page.evaluate(AXE);
      await page.evaluate(() => {
        const faint = document.createElement('p');
        faint.textContent = 'hardly to be seen';
        faint.style.color = '#eee';
        document.body.append(faint, document.createElement('button'));
        document.body.style.background = '#fff';
      });
      const ids = (await faultsOn(page)).map((fault) => fault.split(':')[0]);
      expectEqual(
        [ids.includes('color-contrast'), ids.includes('button-name')],
        [true, true],
        'contrast and name are seen',
      );
    });

    for (const [view, open] of Object.entries(views)) {
      await checks.check(`${view}: axe finds nothing serious in four themes and two widths`, 120, async () => {
        const faults = new Set<string>();
        for (const width of WIDTHS) {
          await page.setViewportSize({ width, height: HEIGHT });
          await open(pane, told);
          // What is folded is looked at too.
          await page.evaluate(() => document.querySelectorAll('details').forEach((one) => (one.open = true)));
          await page.evaluate(AXE);
          for (const [name, theme] of Object.entries(themes)) {
            await putOn(page, theme);
            for (const fault of await faultsOn(page)) faults.add(`${name}, ${width} px: ${fault}`);
          }
          await page.evaluate(() => document.querySelectorAll('details').forEach((one) => (one.open = false)));
          for (const [name, theme] of Object.entries(themes)) {
            await putOn(page, theme);
            await page.screenshot({ path: join(SHOTS, `${view}, ${name}, ${width}.png`), fullPage: true });
          }
        }
        expectThat(faults.size === 0, [...faults].slice(0, 12).join('\n'));
      });

      await checks.check(
        `${view}: the Tab key comes to every control, each has a name and shows its focus`,
        60,
        async () => {
          await page.setViewportSize({ width: 1100, height: HEIGHT });
          await open(pane, told);
          await putOn(page, themes['light'] as (typeof themes)[string]);
          const all = await controlsOn(page);
          const reached = new Set<number>();
          for (let steps = 0; steps <= all.length + 2; steps++) {
            await page.keyboard.press('Tab');
            const at = await page.evaluate(focused);
            if (at === null) continue;
            expectThat(at.outline, `${at.name} does not show its focus`);
            reached.add(at.index);
          }
          expectEqual(
            all.filter(({ index }) => !reached.has(index)).map(({ name }) => name),
            [],
            'controls that the Tab key does not come to',
          );
          expectEqual(all.filter(({ name }) => name === '').length, 0, 'controls without a name');
        },
      );

      await checks.check(
        `${view}: enlarged to 200 % and as narrow as a phone nothing is cut off at the side`,
        60,
        async () => {
          // 1100 pixels at 200 %, and what WCAG 2.2, 1.4.10 asks for.
          for (const width of [550, 320]) {
            await page.setViewportSize({ width, height: 450 });
            await open(pane, told);
            const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
            expectThat(wide <= 0, `at ${width} pixels the page is ${wide} too wide`);
          }
        },
      );
    }

    await checks.check('where less motion is asked for nothing moves', 30, async () => {
      await page.setViewportSize({ width: 1100, height: HEIGHT });
      for (const by of ['system', 'editor'] as const) {
        await page.emulateMedia({ reducedMotion: by === 'system' ? 'reduce' : 'no-preference' });
        await openIn(pane, {}, told.sheets);
        const moving = (): Promise<number> =>
          page.evaluate(
            () =>
              [...document.querySelectorAll('*')].filter((one) => {
                const { transitionDuration, animationName } = getComputedStyle(one);
                return transitionDuration.split(', ').some((time) => time !== '0s') || animationName !== 'none';
              }).length,
          );
        if (by === 'editor') {
          // It can be seen at all.
          expectThat((await moving()) > 0, 'nothing moves where motion is welcome, so nothing was checked');
          await page.evaluate(() => document.body.classList.add('vscode-reduce-motion'));
        }
        expectEqual(await moving(), 0, `parts that move, asked by the ${by}`);
      }
      await page.emulateMedia({ reducedMotion: null });
    });

    await checks.check(
      'the arrow keys go from landmark to landmark, from visit to visit and along the slider',
      30,
      async () => {
        // From the first film on there is a way to the right.
        await openIn(pane, {}, told.first);
        for (const group of ['.plate [data-landmark][tabindex="0"]', '.strip .visit[tabindex="0"]']) {
          await page.locator(group).first().focus();
          const first = await page.evaluate(focused);
          await page.keyboard.press('ArrowRight');
          const second = await page.evaluate(focused);
          expectThat(second !== null && second.name !== first?.name, `in ${group} the arrow stays at ${first?.name}`);
        }
        const slider = page.locator('.heel-slider input').first();
        await slider.focus();
        const before = await slider.getAttribute('aria-valuetext');
        await page.keyboard.press('ArrowRight');
        await tell(page);
        const after = await slider.getAttribute('aria-valuetext');
        expectThat(before !== after && after?.endsWith('mm') === true, `the slider says ${after} after ${before}`);
        await page.locator('.layers summary').focus();
        await page.keyboard.press('Enter');
        expectThat(await page.locator('.layer-menu').isVisible(), 'the layers do not unfold');
        await page.keyboard.press('Escape');
        expectThat(!(await page.locator('.layer-menu').isVisible()), 'Escape does not fold the layers');
      },
    );

    await checks.check('on paper the film is black on white, with nothing to press', 30, async () => {
      await page.setViewportSize({ width: 800, height: HEIGHT });
      await openIn(pane, {}, told.sheets);
      await putOn(page, themes['dark'] as (typeof themes)[string]);
      await page.emulateMedia({ media: 'print' });
      await page.screenshot({ path: join(SHOTS, 'paper, film.png'), fullPage: true });
      const { ink, paper, controls, hidden } = await page.evaluate(() => ({
        ink: getComputedStyle(document.body).color,
        paper: getComputedStyle(document.documentElement).backgroundColor,
        hidden: [...document.querySelectorAll('.notes li')].filter((one) => !one.checkVisibility()).length,
        controls: [...document.querySelectorAll('select, input, .layers summary, [aria-pressed]')].filter((one) =>
          one.checkVisibility(),
        ).length,
      }));
      expectEqual(
        { ink, paper, controls, hidden },
        { ink: 'rgb(0, 0, 0)', paper: 'rgb(255, 255, 255)', controls: 0, hidden: 0 },
        'the print',
      );
      await page.emulateMedia({ media: null });
    });
  } finally {
    await pane.close();
  }
}

async function faultsOn(page: Page): Promise<string[]> {
  const { violations } = await page.evaluate(() =>
    (globalThis as unknown as { axe: { run(what: Document): Promise<AxeResults> } }).axe.run(document),
  );
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .flatMap(({ id, nodes }) =>
      nodes.slice(0, 3).map(({ html, any }) => `${id}: ${html.slice(0, 110)} ${any[0]?.message.slice(0, 160) ?? ''}`),
    );
}

interface Control {
  readonly index: number;
  readonly name: string;
}

/** What a person can press, choose, move or scroll; of a group with one stop, the stop. */
async function controlsOn(page: Page): Promise<Control[]> {
  return page.evaluate(() => {
    const operable = 'button, select, input, summary, a[href], [tabindex]';
    return [...document.querySelectorAll<HTMLElement>(operable)].flatMap((one, index) => {
      one.dataset['stop'] = String(index);
      const name =
        one.getAttribute('aria-label') ??
        ((one as HTMLInputElement).labels?.[0]?.textContent || one.textContent || '').trim();
      return one.tabIndex < 0 || !one.checkVisibility() ? [] : [{ index, name: name.slice(0, 60) }];
    });
  });
}

/** Runs in the page: what has the focus, and whether that can be seen. */
function focused(): { index: number; name: string; outline: boolean } | null {
  const one = document.activeElement;
  if (!one || one === document.body) return null;
  const { outlineStyle, outlineWidth } = getComputedStyle(one);
  return {
    index: Number((one as HTMLElement).dataset['stop'] ?? -1),
    name: one.getAttribute('aria-label') ?? one.textContent?.trim().slice(0, 60) ?? '',
    outline: outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 1,
  };
}
