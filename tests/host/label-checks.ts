import { readdirSync } from 'node:fs';
import { mockedPage } from '../bench/mocked-page.ts';
import { expectEqual, type Checks } from './checks.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { sheetsMessage } from '../told-page.ts';
import { exampleOf, openIn, toldOf, URI } from './pane.ts';
import type { UnderTest } from './under-test.ts';

/** Widths of a pane, CSS pixels: beside a text on a laptop with and without its side bar, and on a wide screen. */
const widths = [420, 520, 700, 1100];

/** Texts of the plate that meet another, or are cut off; as a browser lays them out, and not as the drawing reckons. */
export async function labelChecks(checks: Checks, { extension, examples }: UnderTest): Promise<void> {
  const pane = await mockedPage(examples, null, { extension });
  const { page, address } = pane;
  try {
    for (const file of readdirSync(examples).filter((name) => name.endsWith('.hoof') && name !== 'mistakes.hoof'))
      await checks.check(`${file}: no two words of the plate meet, and none is cut off`, 300, async () => {
        const text = exampleOf(examples, file);
        const { sheets } = toldOf(text, file, (path) => `${address}/${path}`);
        const inspection = inspect(text);
        const shown = (line: number) =>
          sheetsMessage(inspection, { uri: URI, caseName: file, pictures: sheets.pictures, cursor: line });
        const faults: string[] = [];
        for (const width of widths) {
          await page.setViewportSize({ width, height: 900 });
          for (const { title, line, cuts } of sheets.films)
            for (const at of [line, ...cuts.slice(-1).map((cut) => cut.line)]) {
              await openIn(pane, {}, shown(at));
              faults.push(...(await wordsThatMeet()).map((fault) => `${title}, line ${at}, ${width} px: ${fault}`));
            }
        }
        expectEqual(faults, [], 'words that meet or are cut off');
      });
  } finally {
    await pane.close();
  }

  async function wordsThatMeet(): Promise<string[]> {
    return page.evaluate(() => {
      // Letters reach less high and deep than the box of their line.
      const TRIM = 0.18;
      const faults: string[] = [];
      const words = [...document.querySelectorAll<SVGTextElement>('.plate svg text')]
        .filter((one) => getComputedStyle(one).visibility === 'visible' && one.textContent?.trim())
        .map((one) => {
          const { left, right, top, bottom } = one.getBoundingClientRect();
          const off = TRIM * (bottom - top);
          return { text: one.textContent ?? '', left, right, top: top + off, bottom: bottom - off };
        });
      const most = document.documentElement.clientWidth;
      words.forEach((one, index) => {
        if (one.left < 0 || one.right > most + 0.5) faults.push(`“${one.text}” is cut off`);
        for (const other of words.slice(index + 1))
          if (one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom)
            faults.push(`“${one.text}” meets “${other.text}”`);
      });
      return faults;
    });
  }
}
