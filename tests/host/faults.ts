import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { openWorkbench, type Workbench } from './browser.ts';
import { eventually, expectEqual, expectThat, type Checks, type Outcome } from './checks.ts';
import { inCodeServer, type RunningEditor } from './in-code-server.ts';
import { noRoomChecks } from './no-room-checks.ts';
import type { SetUp } from './setup.ts';
import { copyOfCases, scratchFolder, type UnderTest } from './under-test.ts';

/** Of one foot: its newest film is its last one. */
const CASE = 'juniper.hoof';

/** What goes wrong on people's computers, in a real editor: nothing that was typed is lost, and what is shown is true again. */
export function runFaults(subject: UnderTest, setUp: () => Promise<SetUp>): Promise<Outcome> {
  return inCodeServer(
    {
      name: 'faults',
      workspace: () => copyOfCases(subject.examples, scratchFolder('faults')),
      work: async (bench, checks, workspace, editor) => {
        await faultChecks(checks, bench, join(workspace, CASE), editor);
        await noRoomChecks(checks, editor);
      },
    },
    subject,
    setUp,
  );
}

async function faultChecks(checks: Checks, bench: Workbench, path: string, editor: RunningEditor): Promise<void> {
  const original = readFileSync(path, 'utf8');
  const tip = original.split('\n').findLastIndex((line) => line.includes('p3.tip ')) + 1;
  const placed = original.split('\n')[tip - 1] ?? '';

  await checks.check(
    'the server is killed while somebody types: it starts again and knows what was typed',
    90,
    async () => {
      await bench.openFile(CASE);
      await stateIs(bench, /^LF palmar angle/);
      const [before] = serversOf(editor);
      expectThat(before !== undefined, 'there is no language server');
      await bench.goTo(original.split('\n').length);
      await bench.type('# before');
      process.kill(before, 'SIGKILL');
      await bench.type(' and after');
      await eventually(30, async () => {
        const [now] = serversOf(editor);
        expectThat(now !== undefined && now !== before, 'no new language server');
      });
      // An error that is typed now is told, so the new server has the text as it is.
      await bench.page.keyboard.press('Enter');
      await bench.type('visit 2031-13-45');
      await eventually(30, async () =>
        expectThat((await bench.squiggles('error').count()) > 0, 'nothing is told of the slip'),
      );
      await bench.save(path, '# before and after\n');
      expectThat(readFileSync(path, 'utf8').startsWith(original.trimEnd()), 'what stood there before is not there');
    },
  );

  await checks.check(
    'the server sleeps for a while, as a computer does: what was typed meanwhile counts',
    90,
    async () => {
      const [server] = serversOf(editor);
      expectThat(server !== undefined, 'there is no language server');
      process.kill(server, 'SIGSTOP');
      await bench.goTo(original.split('\n').length + 1);
      await bench.replaceLine(original.split('\n').length + 1, '# slept');
      await sleep(4000);
      process.kill(server, 'SIGCONT');
      await eventually(30, async () =>
        expectEqual(await bench.squiggles('error').count(), 0, 'errors that are mended'),
      );
      await bench.save(path, '# slept');
    },
  );

  await checks.check(
    'the file is changed by another program: text, numbers and preview are those of the file',
    60,
    async () => {
      await bench.goTo(tip);
      await bench.runCommand('Ungula: Open preview to the side');
      await eventually(20, async () =>
        expectThat((await bench.preview().locator('.plate svg').count()) > 0, 'there is no plate'),
      );
      const angle = (): Promise<string> =>
        bench.preview().locator('tr[data-measure="palmar-angle"] .value').first().innerText();
      const before = await angle();
      await stateIs(bench, new RegExp(`^LF palmar angle ${before.split('°')[0]?.trim() ?? ''}`));
      writeFileSync(path, original.replace(placed, lower(placed)));
      await eventually(30, async () =>
        expectThat((await angle()) !== before, 'the preview shows what the file no longer says'),
      );
      await stateIs(bench, new RegExp(`^LF palmar angle ${(await angle()).split('°')[0]?.trim() ?? ''}`));
      writeFileSync(path, original);
      await eventually(30, async () => expectEqual(await angle(), before, 'the palmar angle of the file as it was'));
    },
  );

  await checks.check('two windows have one file: what one saves, the other shows', 90, async () => {
    const other = await openWorkbench(editor.browser, editor.server.url, join(path, '..'));
    try {
      await other.openFile(CASE);
      await stateIs(other, /^LF palmar angle/);
      const before = await stateOf(other);
      await bench.returnTo(CASE);
      await bench.replaceLine(tip, lower(placed));
      await bench.save(path, lower(placed).trim());
      await eventually(30, async () =>
        expectThat((await stateOf(other)) !== before, 'the other window shows the old number'),
      );
      expectEqual(await stateOf(other), await stateOf(bench), 'the foot in the two windows');
    } finally {
      await other.page.close();
    }
  });
}

/** Eight pixels further down. */
const lower = (line: string): string =>
  line.replace(/(\d+(?:\.\d+)?)(\s*(?:\+-.*)?)$/, (_, y: string, rest: string) => `${Number(y) + 8}${rest}`);

async function stateOf(bench: Workbench): Promise<string> {
  const item = bench.page.locator('.statusbar-item').filter({ hasText: /palmar angle/ });
  return (await item.count()) === 0 ? '' : (await item.first().innerText()).trim();
}

const stateIs = (bench: Workbench, wanted: RegExp): Promise<void> =>
  eventually(30, async () => {
    const says = await stateOf(bench);
    expectThat(wanted.test(says), `the status bar says “${says}” and not ${wanted}`);
  });

/** The language servers of this editor, by their process numbers. */
function serversOf({ server: { group } }: RunningEditor): number[] {
  const { stdout } = spawnSync('ps', ['-eo', 'pid=,pgid=,args='], { encoding: 'utf8' });
  return stdout.split('\n').flatMap((line) => {
    const [, pid, pgid, args = ''] = /^\s*(\d+)\s+(\d+)\s+(.*)$/.exec(line) ?? [];
    return Number(pgid) === group && args.includes('dist/server.js') ? [Number(pid)] : [];
  });
}
