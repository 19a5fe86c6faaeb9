import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { AxeResults } from 'axe-core';
import type { Page } from 'playwright-core';
import { closeBrowser, launchBrowser } from './browser.ts';
import { Checks, expectEqual, expectThat, type Outcome } from './checks.ts';
import { ensureChromium } from './chromium.ts';
import { drawingChecks } from './drawing-checks.ts';
import { sheetsOf, type PrintedSheet } from './printed-page.ts';
import { scratchFolder, type UnderTest } from './under-test.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const readers = ['owner', 'vet', 'yard'] as const;
type Reader = (typeof readers)[number];

/** Of paper, mm (ISO 216; ANSI/ASME Y14.1, size A). */
const papers = { A4: [210, 297], Letter: [215.9, 279.4] } as const;
/** Of a phone and a laptop, CSS pixels. */
const PHONE = 390;
const WIDTHS = [1100, PHONE] as const;
/** Lettering below this is not read on a phone, CSS pixels. */
const LEGIBLE = 11;

/** Each page that is handed over, of each example: seen, read on a phone and printed by a browser. */
export async function runPages(subject: UnderTest): Promise<Outcome> {
  console.log('The pages that are handed over, in Chromium and on paper');
  const checks = new Checks();
  const folder = scratchFolder('pages');
  const browser = await launchBrowser(await ensureChromium());
  try {
    const page = await browser.newPage();
    let bars = 0;
    await checks.check('faults are seen that are put there', 30, async () => {
      const wide = `<svg width="500" height="20" viewBox="0 0 1000 40"><text y="20" font-size="12">tiny</text></svg>`;
      await page.setViewportSize({ width: PHONE, height: 800 });
      await page.setContent(`<title>x</title><main><p style="color:#eee;background:#fff">faint</p>${wide}</main>`);
      const faults = (await faultsOn(page)).map((fault) => fault.split(':')[0]);
      expectThat(faults.includes('color-contrast'), 'axe does not see a faint text');
      const seen = await page.evaluate(onPhone, LEGIBLE);
      expectEqual([seen.sideways > 100, seen.small.length], [true, 1], 'what is too wide and too small');
      const sheets = await sheetsOf(await page.pdf({ format: 'A4', margin: { top: '0', left: '0' } }));
      expectEqual(sheets.length, 1, 'sheets of a short page');
      expectSize(sheets, 'A4');
    });
    await drawingChecks(checks, page, subject, folder);
    for (const name of readdirSync(subject.examples).filter((one) => one.endsWith('.hoof')))
      for (const reader of readers)
        await checks.check(`${name}, for the ${reader}`, 120, async () => {
          const file = pageFile(subject, name, reader, folder);
          await page.goto(pathToFileURL(file).href);
          const printed = await asPrinted(page, reader);
          bars += printed.bars;
          const faults = [...(await asSeen(page)), ...printed.faults];
          expectThat(faults.length === 0, faults.slice(0, 12).join('\n'));
        });
    // A yard's page whose foot may not be drawn has none, so that each could be without.
    await checks.check('bars were measured', 1, async () => expectThat(bars > 4, `only ${bars} bars were printed`));
  } finally {
    await closeBrowser(browser);
  }
  return checks.outcome;
}

/** As it is handed over on the day after the newest visit, when a plan is open. */
function pageFile({ cli, examples }: UnderTest, name: string, reader: Reader, folder: string): string {
  const text = readFileSync(join(examples, name), 'utf8');
  const newest = [...text.matchAll(/^visit +(\d{4}-\d{2}-\d{2})/gm)]
    .map(([, date = '']) => date)
    .sort()
    .at(-1);
  const day = new Date(Date.parse(newest ?? '2026-01-01') + 86_400_000).toISOString().slice(0, 10);
  const file = join(folder, `${name}-${reader}.html`);
  const argv = [cli, 'report', join(examples, name), '--for', reader, '--on', day, '-o', file];
  execFileSync(process.execPath, argv, { stdio: ['ignore', 'ignore', 'inherit'] });
  return file;
}

async function asSeen(page: Page): Promise<string[]> {
  const faults = new Set<string>();
  for (const width of WIDTHS) {
    await page.setViewportSize({ width, height: 900 });
    for (const fault of await faultsOn(page)) faults.add(`at ${width} px: ${fault}`);
  }
  const { sideways, small } = await page.evaluate(onPhone, LEGIBLE);
  if (sideways > 0) faults.add(`on a phone it scrolls sideways by ${sideways} px`);
  for (const words of small) faults.add(`on a phone too small: ${words}`);
  return [...faults];
}

async function asPrinted(page: Page, reader: Reader): Promise<{ faults: string[]; bars: number }> {
  const faults: string[] = [];
  let measured = 0;
  await page.setViewportSize({ width: 1100, height: 900 });
  for (const paper of ['A4', 'Letter'] as const) {
    const pdf = await page.pdf({ format: paper });
    const sheets = await sheetsOf(pdf);
    expectSize(sheets, paper);
    const most = { owner: 2, yard: 1, vet: Number.POSITIVE_INFINITY }[reader];
    if (sheets.length > most) faults.push(`${sheets.length} sheets of ${paper}, and may have ${most}`);
    if (reader === 'vet' && !(await firstSheetEnds(page, sheets)))
      faults.push(`the first side is longer than one ${paper}`);
    if (reader === 'yard' && (await page.locator('[data-part="bar"]').count()) > 0) {
      const bars = sheets.flatMap(({ strokes }) => strokes).filter((length) => Math.abs(length - 100) < 2);
      measured += bars.length;
      if (bars.length === 0) faults.push(`no bar of 100 mm on ${paper}`);
      for (const bar of bars)
        if (Math.abs(bar - 100) > 0.05) faults.push(`the bar is ${bar.toFixed(2)} mm long on ${paper}`);
    }
  }
  return { faults, bars: measured };
}

function expectSize(sheets: readonly PrintedSheet[], paper: keyof typeof papers): void {
  for (const { width, height } of sheets) {
    const [short, long] = papers[paper];
    const isIt = Math.abs(Math.min(width, height) - short) < 1 && Math.abs(Math.max(width, height) - long) < 1;
    expectThat(isIt, `a sheet of ${width.toFixed(1)} by ${height.toFixed(1)} mm is no ${paper}`);
  }
}

/** Whether what stands behind the first side of the vet's page begins on the second sheet. */
async function firstSheetEnds(page: Page, sheets: readonly PrintedSheet[]): Promise<boolean> {
  const heading = await page
    .locator('.rest h2')
    .first()
    .textContent({ timeout: 2000 })
    .catch(() => null);
  if (heading === null) return sheets.length === 1;
  const plain = (words: string): string => words.replaceAll(/\s+/g, '');
  return sheets.findIndex(({ words }) => plain(words).includes(plain(heading))) === 1;
}

async function faultsOn(page: Page): Promise<string[]> {
  await page.evaluate(AXE);
  const { violations } = await page.evaluate(() =>
    (globalThis as unknown as { axe: { run(what: Document): Promise<AxeResults> } }).axe.run(document),
  );
  return violations.flatMap(({ id, nodes }) =>
    nodes.slice(0, 3).map(({ html, any }) => `${id}: ${html.slice(0, 110)} ${any[0]?.message.slice(0, 160) ?? ''}`),
  );
}

/** Runs in the page: by how much it is wider than the screen, and which lettering is smaller than can be read. */
function onPhone(legible: number): { sideways: number; small: string[] } {
  const { scrollWidth, clientWidth } = document.documentElement;
  const small = new Map<string, string>();
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const words = node.textContent?.trim() ?? '';
    const holder = node.parentElement;
    if (words === '' || !holder?.checkVisibility({ visibilityProperty: true }) || holder.closest('style, title, desc'))
      continue;
    const svgText = holder.closest('text');
    const matrix = svgText?.getScreenCTM();
    const scale = matrix ? Math.hypot(matrix.b, matrix.d) : 1;
    const size = Number.parseFloat(getComputedStyle(holder).fontSize) * scale;
    if (size < legible - 0.05) small.set(`${size.toFixed(1)} px “${words.slice(0, 40)}”`, '');
  }
  return { sideways: scrollWidth - clientWidth, small: [...small.keys()].slice(0, 6) };
}
