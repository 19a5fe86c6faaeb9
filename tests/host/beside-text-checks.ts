import { spawnSync } from 'node:child_process';
import type { DueJson } from '../../shared/export/json-shapes.ts';
import { eventually, expectEqual, expectThat } from './checks.ts';
import type { Ui } from './ui-checks.ts';

const CASE = 'juniper.hoof';

/** What stands beside the text: the foot in the status bar, lenses that can be pressed, the list of what waits. */
export async function besideText({ checks, bench, shots }: Ui, cli: string, workspace: string): Promise<void> {
  const { page } = bench;

  await checks.check('the status bar says how the foot at the cursor stands', 60, async () => {
    await bench.returnTo(CASE);
    await bench.goTo(1);
    const item = page.locator('.statusbar-item').filter({ hasText: /palmar angle/ });
    await eventually(20, async () => expectThat((await item.count()) === 1, 'no foot in the status bar'));
    // The newest film of the only foot of the example, by the command line.
    const { cases } = answerOf<{ cases: { visits: { films: { readings: { measures: Measures }[] }[] }[] }[] }>([
      'measure',
      '--format',
      'json',
      `${workspace}/${CASE}`,
    ]);
    const measures = cases[0]?.visits.flatMap(({ films }) => films).at(-1)?.readings[0]?.measures;
    const [angle, sole] = ['palmar-angle', 'sole-depth.tip'].map((name) => measures?.[name]?.value.toFixed(1));
    expectEqual((await item.innerText()).trim(), `LF palmar angle ${angle}°, sole ${sole} mm`, 'the foot');
  });

  await checks.check('what waits is listed as the command line lists it', 60, async () => {
    const { cases } = answerOf<DueJson>(['due', '--format', 'json', workspace]);
    expectThat(cases.length > 1, 'nothing waits in the examples');
    await page.locator('.pane-header', { hasText: /what waits/i }).click();
    const list = page.locator('.pane', { has: page.locator('.pane-header', { hasText: /what waits/i }) });
    const rows = list.locator('.monaco-list-row');
    await eventually(20, async () => expectThat((await rows.count()) > 1, 'the list is empty'));
    // A list shows the rows that have room: the first is the most urgent case.
    const [first] = cases;
    expectThat((await rows.first().innerText()).startsWith(first?.name ?? first?.file ?? ''), 'another case is first');
    expectEqual((await rows.nth(1).innerText()).trim(), first?.alarms[0]?.message, 'the first thing of it');
    await bench.screenshot(`${shots}/due.png`);
    await page.locator('.pane-header', { hasText: /what waits/i }).click();
  });

  await checks.check('a lens over a film opens placing on it', 60, async () => {
    await bench.goTo(30);
    await page.locator('.codelens-decoration a', { hasText: 'place more' }).first().click();
    const stage = bench.preview().locator('.stage');
    await eventually(20, async () => expectThat(await stage.isVisible(), 'placing has not begun'));
    await bench.preview().getByRole('button', { name: 'Done' }).click();
  });

  function answerOf<T>(args: readonly string[]): T {
    return JSON.parse(spawnSync(process.execPath, [cli, ...args], { encoding: 'utf8' }).stdout) as T;
  }
}

type Measures = Readonly<Record<string, { readonly value: number }>>;
