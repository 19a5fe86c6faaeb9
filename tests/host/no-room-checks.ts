import { spawnSync } from 'node:child_process';
import { closeSync, mkdirSync, openSync, readdirSync, writeFileSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { openWorkbench } from './browser.ts';
import { eventually, expectEqual, expectThat, type Checks } from './checks.ts';
import type { RunningEditor } from './in-code-server.ts';
import { scratchFolder } from './under-test.ts';

/** A case is begun where nothing can be written: that is said, and nothing half is left. */
export async function noRoomChecks(checks: Checks, editor: RunningEditor): Promise<void> {
  for (const [why, prepare] of [
    ['the disk is full', fill],
    ['the folder is read-only', makeReadOnly],
  ] as const) {
    const name = `a new case where ${why}: it is said, and no half file is left`;
    const disk = ownDisk();
    if (disk === null) {
      checks.skip(name, 'no disk can be mounted here');
      continue;
    }
    try {
      prepare(disk);
      await checks.check(name, 90, () => newCaseFails(disk, editor));
    } finally {
      spawnSync('umount', ['-l', disk]);
    }
  }
}

/** A disk of 64 KB, where one may be mounted. */
function ownDisk(): string | null {
  const folder = join(scratchFolder('no-room'), 'cases');
  mkdirSync(folder);
  const { status } = spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=64k', 'tmpfs', folder]);
  return status === 0 ? folder : null;
}

function fill(disk: string): void {
  const file = openSync(join(disk, 'fills.bin'), 'w');
  try {
    for (;;) writeSync(file, Buffer.alloc(1024));
  } catch {
    // Full now.
  } finally {
    closeSync(file);
  }
}

function makeReadOnly(disk: string): void {
  writeFileSync(join(disk, 'note.txt'), 'The list of the editor is not empty then.\n');
  spawnSync('mount', ['-o', 'remount,ro', disk]);
}

async function newCaseFails(disk: string, { browser, server }: RunningEditor): Promise<void> {
  const before = readdirSync(disk);
  const bench = await openWorkbench(browser, server.url, disk);
  try {
    const { page } = bench;
    const asked = (words: string): Promise<void> =>
      page
        .locator('.quick-input-widget')
        .locator(`input[placeholder*="${words}"], .quick-input-message:has-text("${words}")`)
        .first()
        .waitFor({ timeout: 30_000 });
    // A workbench that has only just opened does not know the command yet.
    await eventually(60, () => bench.runCommand('Ungula: New case…'));
    await asked('What is the animal called');
    await page.keyboard.type('Fern');
    await page.keyboard.press('Enter');
    await asked('What kind of animal');
    await page.keyboard.press('Enter');
    await asked('Which foot does the lateral film show');
    await page.locator('.quick-input-list .monaco-list-row', { hasText: 'No film yet' }).first().click();
    const told = page.locator('.notification-list-item-message', { hasText: 'The case could not be written' });
    await eventually(30, async () => expectThat((await told.count()) > 0, 'nothing says that it was not written'));
    expectEqual(readdirSync(disk), before, 'what is in the folder');
  } finally {
    await bench.page.close();
  }
}
