import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { expectEqual, expectThat, type Checks } from './checks.ts';
import { MockPane } from './mock-pane.ts';

const examples = join(import.meta.dirname, '..', '..', 'examples');
const juniper = readFileSync(join(examples, 'juniper.hoof'), 'utf8');

/** The first film of Juniper, whose true places are known, and a plan on it. */
const film = /^ {2}film LF[^]*?(?=\n\n)/m.exec(juniper)?.[0] ?? '';
const key = `hoof 1\n\nvisit 2026-03-04\n${film.replace('    p3.tip', '    read "Rowan"\n    p3.tip')}\n\n  plan LF\n    heel  down 4 mm\n`;

/** As a student might place it: the tip 5 mm down the bone's line, the heel contact too far back, no sole at the heel, a larger cut. */
const student = `hoof 1

case "A first lesson"
  key "teacher.hoof" by "Rowan"

visit 2026-03-04
${film
  .replace(/p3\.tip .*/, 'p3.tip            @  412,  989')
  .replace(/heel\.ground .*/, 'heel.ground       @  996, 1045.5')
  .replace(/\n.*sole\.heel .*/, '')}

  plan LF
    heel  down 9 mm
    leave toe sole
`;

/** A lesson in the page by itself: what is kept back, and what showing the key tells. */
export async function lessonPageChecks(checks: Checks, browser: Browser, shots: string): Promise<void> {
  await checks.check('a lesson keeps values back until the key is shown', 60, async () => {
    const pane = await MockPane.start(student, 'light', { key });
    const page = await browser.newPage({ viewport: { width: 1400, height: 1000 } });
    try {
      await pane.open(page);
      await page.getByRole('button', { name: 'Show the key' }).waitFor();
      await page.screenshot({ path: join(shots, 'lesson-before.png'), fullPage: true });
      expectThat(!/\d°/.test(await told(page)), `an angle shows before the key does: ${await told(page)}`);
      expectEqual(await page.locator('.measures, .key-ring, .over-choice, .views').count(), 0, 'what would tell');
      await page.getByRole('button', { name: 'Place landmarks' }).click();
      await page.locator('.stage').waitFor();
      expectThat(!/\d°/.test(await told(page)), 'an angle shows while a student places');
      expectEqual(await page.locator('.ghost').count(), 0, 'proposals');
      await page.screenshot({ path: join(shots, 'lesson-placing.png') });
      await page.getByRole('button', { name: 'Done' }).click();

      await page.getByRole('button', { name: 'Show the key' }).click();
      await page.locator('.lesson-points').first().waitFor();
      const tip = await page.locator('tr[data-point="p3.tip"]').innerText();
      // 20 px to the toe and 22 px down are 29.7 px, at 100 mm to 549.6 px of marker 5.4 mm (Pythagoras).
      expectThat(tip.includes('5.4 mm') && tip.includes('too low'), `the tip: ${tip}`);
      expectEqual(await page.locator('.key-mark.is-off').count(), 2, 'places that are off');
      expectEqual(await page.locator('.key-mark.is-missing').count(), 1, 'places that are missing');
      expectThat((await page.locator('.lesson-measures').first().innerText()).includes('clear'), 'no measure is clear');
      expectThat((await page.locator('.measures').count()) === 1, 'the values are not there');
      await page.screenshot({ path: join(shots, 'lesson-shown.png') });

      // The student's plan and the key's, in half a window of a laptop beside each other, and below each other in less.
      const places = async (): Promise<(readonly [number, number, number])[]> =>
        Promise.all(
          (await page.locator('.plan-ink svg').all()).map(async (svg) => {
            const box = await svg.boundingBox();
            return [Math.round(box?.x ?? -1), Math.round(box?.y ?? -1), Math.round(box?.width ?? 0)] as const;
          }),
        );
      await page.setViewportSize({ width: 700, height: 1000 });
      const [left, right, ...more] = await places();
      expectThat(left !== undefined && right !== undefined && more.length === 0, 'there are not two plans');
      expectThat(left?.[0] !== right?.[0] && left?.[2] === right?.[2], `not beside each other: ${left} and ${right}`);
      const [boxes] = [
        await page.locator('.plan-ink svg').evaluateAll((all) => all.map((svg) => svg.getAttribute('viewBox'))),
      ];
      expectThat(boxes[0] === boxes[1], `the two are not at one scale: ${boxes.join(' and ')}`);
      const words = await page.locator('.plans-beside').innerText();
      for (const said of ['heel down 9 mm', 'The key: heel down 4 mm', 'Breaks a limit', 'palmar angle'])
        expectThat(words.includes(said), `the plans do not say ${said}: ${words}`);
      await page.locator('.plans-beside').screenshot({ path: join(shots, 'lesson-plans.png') });
      await page.setViewportSize({ width: 520, height: 1000 });
      const [upper, lower] = await places();
      expectThat(upper?.[0] === lower?.[0] && (upper?.[1] ?? 0) < (lower?.[1] ?? 0), 'they are not below each other');
      await page.setViewportSize({ width: 1400, height: 1000 });

      await page.reload();
      await page.getByRole('button', { name: 'Hide the key' }).click();
      await page.getByRole('button', { name: 'Show the key' }).waitFor();
      await page.locator('.measures').waitFor({ state: 'detached' });
    } finally {
      await page.close();
      await pane.stop();
    }
  });
}

const told = (page: Page): Promise<string> => page.locator('main').innerText();
