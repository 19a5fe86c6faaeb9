import { mockedPage } from '../bench/mocked-page.ts';
import { expectEqual, expectThat, type Checks } from './checks.ts';
import { exampleOf, openIn, toldOf } from './pane.ts';
import type { UnderTest } from './under-test.ts';

interface Saved {
  readonly type: string;
  readonly kind?: string;
  readonly name?: string;
  readonly content?: string;
}

/** The plate under the pointer, and taken along. */
export async function plateChecks(checks: Checks, { extension, examples }: UnderTest): Promise<void> {
  const pane = await mockedPage(examples, null, { extension });
  const { page, address } = pane;
  const plate = page.locator('.plate').first();
  const isCloser = async (): Promise<boolean> => (await plate.getAttribute('data-closer')) !== null;
  try {
    const { sheets } = toldOf(exampleOf(examples, 'juniper.hoof'), 'Juniper', (path) => `${address}/${path}`);

    await checks.check(
      'Ctrl and the wheel come closer where the pointer is, and a drag presses nothing',
      30,
      async () => {
        await openIn(pane, {}, sheets);
        const tip = page.locator('.plate [data-landmark="p3.tip"] .mark').first();
        const middle = async () => {
          const box = await tip.boundingBox();
          if (!box) throw new Error('the tip is not on the plate');
          return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
        };
        const before = await middle();
        await page.mouse.move(before.x, before.y);
        await page.keyboard.down('Control');
        for (let turn = 0; turn < 3; turn++) await page.mouse.wheel(0, -200);
        await page.keyboard.up('Control');
        expectThat(await isCloser(), 'the plate is as large as before');
        const after = await middle();
        // The pointer's place is told in whole pixels, and they are six times as large now.
        expectThat(
          Math.hypot(after.x - before.x, after.y - before.y) < 10,
          `what lay under the pointer went from ${before.x}, ${before.y} to ${after.x}, ${after.y}`,
        );
        const told = () => page.evaluate(() => (globalThis as unknown as { told: Saved[] }).told.length);
        const heard = await told();
        await page.mouse.down();
        await page.mouse.move(before.x + 60, before.y - 40, { steps: 3 });
        await page.mouse.up();
        const moved = await middle();
        expectThat(Math.abs(moved.x - after.x - 60) < 2, `the tip went by ${moved.x - after.x} instead of 60`);
        expectEqual(await told(), heard, 'what the editor was told while the plate was moved');
        await page.mouse.dblclick(moved.x, moved.y);
        expectThat(!(await isCloser()), 'a double click does not show the whole');
      },
    );

    await checks.check('the plate is saved as a drawing and as a picture, the film within it', 30, async () => {
      await openIn(pane, { hidden: ['bones'] }, sheets);
      // As the editor's own menu asks for it.
      for (const way of ['svg', 'png', 'print'])
        await page.evaluate((data) => dispatchEvent(new MessageEvent('message', { data })), { type: 'take', way });
      await page.waitForFunction(
        () => (globalThis as unknown as { told: Saved[] }).told.filter(({ type }) => type === 'save').length === 3,
      );
      const saved = await page.evaluate(() =>
        (globalThis as unknown as { told: Saved[] }).told.filter(({ type }) => type === 'save'),
      );
      const svg = saved.find(({ kind }) => kind === 'svg');
      expectEqual(svg?.name, 'juniper-left-fore-lateral-film-2026-05-26', 'the name of the file');
      expectThat(svg?.content?.includes('href="data:image/jpeg;base64,') === true, 'the film is not in the drawing');
      expectThat(svg?.content?.includes(address) === false, 'the drawing needs another file');
      expectThat(svg?.content?.includes('layer-bones') === false, 'a layer that is turned off is in the drawing');
      expectEqual(saved.find(({ kind }) => kind === 'print')?.content, svg?.content, 'the drawing for print');
      const png = Buffer.from(saved.find(({ kind }) => kind === 'png')?.content ?? '', 'base64');
      expectEqual(png.subarray(1, 4).toString(), 'PNG', 'the picture');
      expectEqual(png.readUInt32BE(16), 2400, 'its width');
      // Neither all paper nor all film: the shades of the middle row differ.
      const shades = await page.evaluate(async (content) => {
        const image = new Image();
        const bytes = Uint8Array.from(atob(content), (letter) => letter.charCodeAt(0));
        image.src = URL.createObjectURL(new Blob([bytes], { type: 'image/png' }));
        await image.decode();
        const canvas = document.createElement('canvas');
        [canvas.width, canvas.height] = [image.naturalWidth, 1];
        const pen = canvas.getContext('2d');
        pen?.drawImage(image, 0, -Math.round(image.naturalHeight * 0.3));
        const { data } = pen?.getImageData(0, 0, canvas.width, 1) ?? { data: [] };
        const row = Array.from(data).filter((_, index) => index % 4 === 0);
        return { dark: row.filter((one) => one < 60).length, light: row.filter((one) => one > 220).length };
      }, png.toString('base64'));
      expectThat(shades.dark > 300 && shades.light > 300, `the picture's row has ${JSON.stringify(shades)}`);
    });
  } finally {
    await pane.close();
  }
}
