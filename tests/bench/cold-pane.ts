// From the key to the first drawing of a cold pane, in the real editor in a browser, beside the editor's own preview of
// Markdown in the same window. The extension is active and the file is open; each window is new. Prints; nothing fails on a time.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { closeBrowser, launchBrowser, openWorkbench } from '../host/browser.ts';
import { startCodeServer } from '../host/code-server.ts';
import { installExtension } from '../host/install-extension.ts';
import { setUp } from '../host/setup.ts';
import { copyOfExamples, scratchFolder, underTest } from '../host/under-test.ts';

const RUNS = 6;
const subjects = [
  { name: 'Ungula, Juniper with its film', file: 'juniper.hoof', drawn: '.plate svg image' },
  { name: 'the editor’s own preview of Markdown', file: 'short.md', drawn: 'h1' },
] as const;

const subject = underTest();
const host = await setUp();
const workspace = copyOfExamples(subject.examples, scratchFolder('pane'));
writeFileSync(join(workspace, 'short.md'), '# Short\n\nA line.\n');
const server = await startCodeServer(host, { fillExtensions: (folder) => installExtension(subject, folder) });
const browser = await launchBrowser(host.chromium);
const times = new Map<string, number[]>(subjects.map(({ name }) => [name, []]));
try {
  for (let run = 0; run < RUNS; run++)
    for (const { name, file, drawn } of run % 2 === 0 ? subjects : subjects.toReversed()) {
      const bench = await openWorkbench(browser, server.url, workspace);
      // Active, and done with what it does when it begins.
      await bench.openFile('juniper.hoof');
      await bench.page.locator('.codelens-decoration').first().waitFor({ timeout: 60_000 });
      await bench.openFile(file);
      await bench.page.waitForTimeout(2000);
      await bench.page.keyboard.press('Control+K');
      const began = performance.now();
      await bench.page.keyboard.press('v');
      await bench.preview().locator(drawn).first().waitFor();
      times.get(name)?.push(performance.now() - began);
      await bench.page.context().close();
    }
} finally {
  await closeBrowser(browser);
  await server.stop();
}
for (const [name, all] of times) {
  const sorted = all.toSorted((a, b) => a - b);
  console.log(
    `${name}: ${sorted[0]?.toFixed(0)} ms at the least, ${sorted[Math.floor(sorted.length / 2)]?.toFixed(0)} ms at the median of ${sorted.length} windows`,
  );
}
process.exit(0);
