// How long a frame takes while a landmark is dragged over a film, in the built page with a host that is none. Prints; nothing fails on a time.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { MockPane } from '../host/mock-pane.ts';

const STEPS = 300;

const text = readFileSync(join(import.meta.dirname, '..', '..', 'examples', 'juniper.hoof'), 'utf8');
const pane = await MockPane.start(text);
const browser = await chromium.launch({
  executablePath: process.env['CHROMIUM'] ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu'],
});
try {
  const page = await browser.newPage({ viewport: { width: 1280, height: 860 } });
  // What the page itself does at a frame, apart from waiting and painting.
  await page.addInitScript(() => {
    const own = globalThis.requestAnimationFrame.bind(globalThis);
    const spent = { ms: 0 };
    Object.assign(globalThis, { spent });
    globalThis.requestAnimationFrame = (work) =>
      own((time) => {
        const began = performance.now();
        work(time);
        spent.ms += performance.now() - began;
      });
  });
  await pane.open(page);
  await page.getByRole('button', { name: 'Place landmarks' }).click();
  await page.locator('[data-handle="p3.tip"]').waitFor();
  const before = await page.locator('tr[data-measure="palmar-angle"] .value').innerText();
  const times = await page.evaluate(async (steps) => {
    const handle = document.querySelector('[data-handle="p3.tip"] .hit');
    const stage = document.querySelector('.stage');
    if (!handle || !stage) throw new Error('there is no tip to drag');
    const box = handle.getBoundingClientRect();
    const at = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
    const send = (type: string, target: Element, step: number): void => {
      const place = { clientX: at.x + 40 * Math.sin(step / 20), clientY: at.y + 25 * Math.sin(step / 13) };
      target.dispatchEvent(
        new PointerEvent(type, { ...place, pointerId: 1, pointerType: 'mouse', button: 0, buttons: 1, bubbles: true }),
      );
    };
    // No pointer of the browser's own is down, so there is none to capture.
    stage.setPointerCapture = () => undefined;
    send('pointerdown', handle, 0);
    const frame = (): Promise<number> => new Promise((done) => requestAnimationFrame(done));
    const script: number[] = [];
    const whole: number[] = [];
    const values = new Set<string>();
    let last = await frame();
    for (let step = 1; step <= steps; step++) {
      send('pointermove', stage, step);
      // The page's own drawing was asked for before this: it has run when this one does.
      const { spent } = globalThis as unknown as { spent: { ms: number } };
      spent.ms = 0;
      const now = await frame();
      script.push(spent.ms);
      whole.push(now - last);
      last = now;
      values.add(document.querySelector('tr[data-measure="palmar-angle"] .value')?.textContent ?? '');
    }
    send('pointerup', stage, steps);
    return { script, whole, values: values.size };
  }, STEPS);
  const after = await page.locator('tr[data-measure="palmar-angle"] .value').innerText();
  if (after === before || times.values < 20) throw new Error('the numbers did not move with the tip');
  const at = (all: number[], share: number): string =>
    ([...all].sort((a, b) => a - b)[Math.floor(share * (all.length - 1))] ?? Number.NaN).toFixed(1);
  console.log(`Dragging p3.tip ${STEPS} steps; the palmar angle took ${times.values} values as shown.\n`);
  console.log('| | median, ms | 95th percentile, ms |\n| --- | --- | --- |');
  console.log(`| script of a frame | ${at(times.script, 0.5)} | ${at(times.script, 0.95)} |`);
  console.log(`| from frame to frame | ${at(times.whole, 0.5)} | ${at(times.whole, 0.95)} |`);
} finally {
  await browser.close();
  await pane.stop();
}
