import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Page } from 'playwright-core';
import { PNG } from 'pngjs';
import { expectThat, type Checks } from './checks.ts';
import { ROOT, type UnderTest } from './under-test.ts';

/** CSS pixels, as wide as the picture has pixels. */
const WIDTH = 1000;
/** Of 255, by which two pixels are another tone. */
const TONE = 96;
/** Edges and letters are smoothed in two ways, which makes 0.3 % of these drawings another tone; without its bones a foot differs by more. */
const MOST = 0.006;

/** The pictures that the command line draws, beside what a browser makes of the same drawing. */
export async function drawingChecks(checks: Checks, page: Page, subject: UnderTest, folder: string): Promise<void> {
  const views = { film: ['--without', 'film'], course: ['--view', 'course'] } as const;
  await checks.check('a drawn picture (PNG) is what a browser shows of the drawing (SVG)', 60, async () => {
    const file = (name: string, options: readonly string[]): string => {
      const to = join(folder, name);
      // Of the whole build: the package has none of what makes pictures.
      const argv = [
        join(ROOT, 'dist', 'cli.js'),
        'draw',
        join(subject.examples, 'juniper.hoof'),
        ...options,
        '--width',
        String(WIDTH),
      ];
      execFileSync(process.execPath, [...argv, '-o', to], { stdio: ['ignore', 'ignore', 'inherit'] });
      return to;
    };
    const shown = new Map<string, PNG>();
    for (const [name, options] of Object.entries(views)) {
      const drawn = PNG.sync.read(readFileSync(file(`${name}.png`, options)));
      await page.setViewportSize({ width: WIDTH, height: drawn.height });
      await page.goto(pathToFileURL(file(`${name}.svg`, options)).href);
      const seen = PNG.sync.read(await page.screenshot());
      shown.set(name, seen);
      const share = otherTone(drawn, seen);
      expectThat(share < MOST, `${name}: ${(100 * share).toFixed(1)} % of the pixels have another tone`);
    }
    const film = shown.get('film');
    const boneless = PNG.sync.read(readFileSync(file('boneless.png', [...views.film, '--without', 'bones'])));
    expectThat(film !== undefined && film.height === boneless.height, 'the two cannot be compared');
    expectThat(otherTone(film, boneless) > MOST, 'a foot without its bones is taken for the whole');
  });
}

/** The share of pixels that have another tone, over the part that both have. */
function otherTone(one: PNG, other: PNG): number {
  const [width, height] = [Math.min(one.width, other.width), Math.min(one.height, other.height)];
  let count = 0;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const tone = ({ data, width: row }: PNG): number => data[4 * (y * row + x) + 1] ?? 0;
      if (Math.abs(tone(one) - tone(other)) > TONE) count++;
    }
  return count / (width * height);
}
