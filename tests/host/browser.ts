import { mkdirSync, readFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { chromium, type Browser, type FrameLocator, type Locator, type Page } from 'playwright-core';
import { eventually, expectThat, within } from './checks.ts';

export const CHROMIUM_ARGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-dev-shm-usage',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export async function launchBrowser(executablePath: string): Promise<Browser> {
  return chromium.launch({ executablePath, args: CHROMIUM_ARGS, timeout: 30_000 });
}

export async function closeBrowser(browser: Browser | undefined): Promise<void> {
  // One that hangs is left to playwright, which kills it when this process ends.
  if (browser !== undefined) await within(15, 'closing the browser', browser.close()).catch(console.error);
}

export async function openWorkbench(browser: Browser, url: string, folder: string): Promise<Workbench> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, locale: 'en-US' });
  const page = await context.newPage();
  page.setDefaultTimeout(20_000);
  await page.goto(`${url}/?folder=${encodeURIComponent(folder)}`, { timeout: 60_000 });
  await page.locator('.explorer-folders-view .monaco-list-row').first().waitFor({ timeout: 60_000 });
  return new Workbench(page);
}

export interface ProblemCounts {
  errors: number;
  warnings: number;
  infos: number;
}

/** What a person does in the workbench, by the page's own names for it. */
export class Workbench {
  readonly page: Page;

  constructor(page: Page) {
    this.page = page;
  }

  /** Opens a file of the workspace from the explorer and waits for its text; `name` may hold folders. */
  async openFile(name: string): Promise<void> {
    const parts = name.split('/');
    for (const [depth, part] of parts.entries()) {
      const row = this.#rowNamed(`.explorer-folders-view .monaco-list-row[aria-level="${depth + 1}"]`, part);
      await row.waitFor();
      if (depth === parts.length - 1) await row.dblclick();
      else if ((await row.getAttribute('aria-expanded')) === 'false') await row.click();
    }
    const file = parts.at(-1) ?? name;
    await this.page.locator(`.tabs-container .tab.active[data-resource-name="${file}"]`).first().waitFor();
    // The first file of a fresh editor waits for the extension host too.
    await this.lines().first().waitFor({ timeout: 60_000 });
  }

  /** Back to a file that is open already; the explorer would open it once more, over the preview. */
  async returnTo(file: string): Promise<void> {
    await this.page.locator(`.tabs-container .tab[data-resource-name="${file}"]`).first().click();
    await this.lines().first().waitFor();
  }

  // By the label, since a row's own aria-label also tells how many problems there are.
  #rowNamed(rows: string, name: string): Locator {
    const exactly = new RegExp(`^${name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}$`);
    return this.page
      .locator(rows)
      .filter({ has: this.page.locator('.label-name', { hasText: exactly }) })
      .first();
  }

  lines(): Locator {
    return this.page.locator('.editor-group-container.active .monaco-editor .view-lines .view-line');
  }

  squiggles(kind: 'error' | 'warning' | 'info'): Locator {
    return this.page.locator(`.monaco-editor .squiggly-${kind}`);
  }

  /** The numbers in the status bar, for everything that has been reported so far. */
  async problemsCount(): Promise<ProblemCounts> {
    const label = (await this.page.locator('#status\\.problems').getAttribute('aria-label')) ?? '';
    const read = (word: string): number => Number(new RegExp(`${word}: (\\d+)`).exec(label)?.[1] ?? 0);
    if (!/\d|No Problems/i.test(label)) throw new Error(`the status bar says ${JSON.stringify(label)} of problems`);
    return { errors: read('Errors'), warnings: read('Warnings'), infos: read('Infos') };
  }

  /** More room for the editors. */
  async hidePanel(): Promise<void> {
    if (!(await this.page.locator('.part.panel').isVisible())) return;
    await this.page.keyboard.press('Control+J');
    await this.page.locator('.part.panel').waitFor({ state: 'hidden' });
  }

  async showProblems(): Promise<void> {
    if (!(await this.page.locator('.markers-panel').isVisible()))
      await this.runCommand('Problems: Focus on Problems View');
    await this.page.locator('.markers-panel').waitFor();
  }

  /** How many problems the panel counts for one file; 0 where it has no row. */
  async problemsOf(file: string): Promise<number> {
    // The panel draws only the rows that it has room for: with every file folded there is room for all files.
    await this.#foldProblems();
    const row = this.#rowNamed('.markers-panel .monaco-list-row[aria-level="1"]', file);
    if ((await row.count()) === 0) return 0;
    return Number(await row.locator('.monaco-count-badge').innerText());
  }

  async #foldProblems(): Promise<void> {
    if ((await this.page.locator('.markers-panel .monaco-list-row[aria-level="2"]').count()) === 0) return;
    await this.page.locator('.part.panel .action-label.codicon-collapse-all').first().click();
  }

  /** The problems of one file that the panel has room for, one text a row. */
  async problemRows(file: string): Promise<string[]> {
    await this.#foldProblems();
    const row = this.#rowNamed('.markers-panel .monaco-list-row[aria-level="1"]', file);
    await row.locator('.monaco-tl-twistie').click();
    await this.page.locator('.markers-panel .monaco-list-row[aria-level="2"]').first().waitFor();
    return this.page.locator('.markers-panel .monaco-list-row[aria-level="2"]').allInnerTexts();
  }

  /** Rests the mouse on the first place where `text` shows in the active editor; returns what pops up. */
  async hover(text: string): Promise<string> {
    const popup = this.page.locator('.monaco-editor .monaco-hover:visible, .monaco-resizable-hover:visible').first();
    // Lenses and hints come a moment after the text and push the lines down: the place is looked up again for each try.
    for (let tries = 1; ; tries++) {
      const place = await this.#placeOf(text);
      // From outside the word, since a mouse that is already there does not move onto it.
      await this.page.mouse.move(place.x, place.y + 200);
      await this.page.mouse.move(place.x, place.y, { steps: 4 });
      try {
        await popup.waitFor({ timeout: 4000 });
        break;
      } catch (error) {
        if (tries === 5) throw error;
      }
    }
    return eventually(10, async () => {
      const shown = (await popup.innerText()).trim();
      if (shown === '' || shown === 'Loading...') throw new Error(`the hover over ${text} stays empty`);
      return shown;
    });
  }

  async #placeOf(text: string): Promise<{ x: number; y: number }> {
    return eventually(10, async () => {
      const place = await this.lines().evaluateAll((lines, wanted) => {
        for (const line of lines) {
          // The editor draws spaces as no-break spaces and cuts the line into coloured spans.
          const at = (line.textContent ?? '').replaceAll('\u00a0', ' ').indexOf(wanted);
          if (at < 0) continue;
          const walker = document.createTreeWalker(line, NodeFilter.SHOW_TEXT);
          let seen = 0;
          const middle = at + Math.floor(wanted.length / 2);
          for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
            const length = node.textContent?.length ?? 0;
            if (middle < seen + length) {
              const range = document.createRange();
              range.setStart(node, middle - seen);
              range.setEnd(node, middle - seen + 1);
              const box = range.getBoundingClientRect();
              return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
            }
            seen += length;
          }
        }
        return null;
      }, text);
      if (place === null) throw new Error(`the editor shows no ${JSON.stringify(text)}`);
      return place;
    });
  }

  /** Drops a file from outside on the first place where `text` shows, with Shift held, which is how a file is dropped into a text. */
  async drop(text: string, file: { name: string; type: string; base64: string }): Promise<void> {
    const place = await this.#placeOf(text);
    await this.page.evaluate(
      ({ place, file }) => {
        const bytes = Uint8Array.from(atob(file.base64), (character) => character.charCodeAt(0));
        const dataTransfer = new DataTransfer();
        dataTransfer.items.add(new File([bytes], file.name, { type: file.type }));
        const target = document.elementFromPoint(place.x, place.y);
        for (const kind of ['dragenter', 'dragover', 'drop'])
          target?.dispatchEvent(
            new DragEvent(kind, {
              dataTransfer,
              clientX: place.x,
              clientY: place.y,
              shiftKey: true,
              bubbles: true,
              cancelable: true,
              composed: true,
            }),
          );
      },
      { place, file },
    );
  }

  /** Drags a file of the workspace from the explorer onto the first place where `text` shows, with Shift held. */
  async dragFromExplorer(folder: string, name: string, text: string): Promise<void> {
    if (!(await this.explorerShows(folder, name))) throw new Error(`the explorer shows no ${name} in ${folder}`);
    const row = this.#rowNamed('.explorer-folders-view .monaco-list-row[aria-level="2"]', name);
    const place = await this.#placeOf(text);
    await row.hover();
    await this.page.mouse.down();
    await this.page.keyboard.down('Shift');
    // The first move is what begins a drag, the last one where it ends is what the editor shows the place for.
    await this.page.mouse.move(place.x, place.y + 40, { steps: 8 });
    await this.page.mouse.move(place.x, place.y, { steps: 4 });
    await this.page.mouse.up();
    await this.page.keyboard.up('Shift');
  }

  /** Puts a PNG on the clipboard and pastes it where the cursor is, both as a hand would. */
  async pastePicture(base64: string): Promise<void> {
    await this.page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
    await this.page.evaluate(async (base64) => {
      const bytes = Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
      await navigator.clipboard.write([new ClipboardItem({ 'image/png': new Blob([bytes], { type: 'image/png' }) })]);
    }, base64);
    await this.page.keyboard.press('Control+V');
  }

  /** The lines of the active editor that show, spaces as the file has them. */
  async shownText(): Promise<string> {
    const texts = await this.lines().evaluateAll((lines) =>
      lines
        .map((line) => ({ top: line.getBoundingClientRect().top, text: line.textContent ?? '' }))
        .sort((a, b) => a.top - b.top)
        .map(({ text }) => text.replaceAll('\u00a0', ' ')),
    );
    return texts.join('\n');
  }

  /** Whether the explorer has a row of this name in a folder of the workspace, which is opened for it. */
  async explorerShows(folder: string, name: string): Promise<boolean> {
    const rows = '.explorer-folders-view .monaco-list-row';
    const row = this.#rowNamed(`${rows}[aria-level="1"]`, folder);
    if ((await row.getAttribute('aria-expanded')) === 'false') await row.click();
    return (await this.#rowNamed(`${rows}[aria-level="2"]`, name).count()) > 0;
  }

  /** By its title as the palette shows it, category included. */
  async runCommand(title: string): Promise<void> {
    await this.#palette(`>${title}`);
    // Begins with: a key or 'recently used' may follow.
    await this.page.locator(`.quick-input-list .monaco-list-row[aria-label^="${title}"]`).first().click();
    await this.page.locator('.quick-input-widget').waitFor({ state: 'hidden' });
  }

  /** A command that asks for one of a list, by the beginnings of both titles. */
  async runAndChoose(title: string, choice: string): Promise<void> {
    await this.#palette(`>${title}`);
    const row = (words: string) =>
      this.page.locator(`.quick-input-list .monaco-list-row[aria-label^="${words}"]`).first();
    await row(title).click();
    await row(choice).click();
    await this.page.locator('.quick-input-widget').waitFor({ state: 'hidden' });
  }

  async goTo(line: number, column = 1): Promise<void> {
    await this.#palette(`:${line}:${column}`);
    await this.page.keyboard.press('Enter');
    await this.page.locator('.quick-input-widget').waitFor({ state: 'hidden' });
  }

  /** The one that the last command used may be going away still, and nothing can be typed into it: then once more. */
  async #palette(words: string): Promise<void> {
    const input = this.page.locator('.quick-input-widget:not([inert]) .quick-input-box input');
    await eventually(20, async () => {
      await this.page.keyboard.press('F1');
      await input.waitFor({ timeout: 3000 });
      // It may still go away when something else takes the focus: then it is opened anew.
      await input.fill(words, { timeout: 3000 });
      expectThat((await input.inputValue({ timeout: 1000 })) === words, 'nothing can be typed into the palette');
    });
  }

  /** Replaces a whole line of the file with the focus, at once, as a paste would. */
  async replaceLine(line: number, text: string): Promise<void> {
    await this.goTo(line);
    await this.page.keyboard.press('End');
    await this.page.keyboard.press('Shift+Home');
    await this.page.keyboard.press('Shift+Home');
    await this.page.keyboard.insertText(text);
  }

  async type(text: string): Promise<void> {
    await this.page.keyboard.type(text, { delay: 20 });
  }

  /** Saves the active editor and waits until the file has what `written` looks for. */
  async save(path: string, written: string): Promise<void> {
    await this.page.keyboard.press('Control+S');
    await eventually(10, () => {
      if (!readFileSync(path, 'utf8').includes(written)) throw new Error(`${path} was not saved with ${written}`);
    });
  }

  /** The page inside the one webview that shows. */
  preview(): FrameLocator {
    return this.page.frameLocator('iframe.webview.ready >> visible=true').frameLocator('#active-frame');
  }

  async errorNotices(): Promise<string[]> {
    return this.page
      .locator('.notification-list-item:has(.codicon-error) .notification-list-item-message')
      .allInnerTexts();
  }

  /** `pointer`: keep the mouse where it is, for what shows only under it. */
  async screenshot(path: string, pointer = false): Promise<void> {
    mkdirSync(dirname(path), { recursive: true });
    if (!pointer) {
      await this.page.mouse.move(720, 890);
      await this.page.locator('.monaco-hover:visible').waitFor({ state: 'detached' });
    }
    await this.page.screenshot({ path });
  }
}
