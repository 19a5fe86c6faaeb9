import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { eventually, expectEqual, expectThat } from './checks.ts';
import { lastPart, showsValue, type Ui } from './ui-checks.ts';

/** The example with a plan on a film, and other films to lay over it. The check before has the cursor in its plan. */
const PICTURED = 'juniper.hoof';

export async function comparesFeet({ checks, bench, shots }: Ui): Promise<void> {
  const preview = bench.preview();
  const choice = preview.locator('select', { hasText: 'a normal foot of this size' });
  await checks.check('a normal foot is laid over the film, with what it stands on', 30, async () => {
    await choice.selectOption({ label: 'a normal foot of this size' });
    await preview.locator('.over-line').first().waitFor();
    const words = await preview.locator('svg .layer-over text').allTextContents();
    expectThat(/^[\w.]+ \d+\.\d mm apart$/.test(words.join()), `the plate writes ${JSON.stringify(words)}`);
    await preview.locator('summary', { hasText: 'What the normal foot stands on' }).click();
    expectThat((await preview.locator('details[open] li').count()) >= 12, 'its sources are not all there');
    await bench.screenshot(join(shots, 'normal-foot.png'));
  });

  await checks.check('another film of the foot is laid over it, and off again', 30, async () => {
    const labels = await choice.locator('option').allTextContents();
    const other = labels.find((label) => label.startsWith('Left fore, lateral film'));
    expectThat(other !== undefined, `nothing to lay over among ${labels.join('; ')}`);
    await choice.selectOption({ label: other });
    await eventually(10, async () => {
      const words = await preview.locator('figure').first().innerText();
      expectThat(words.includes(`${other}, dashed`), `the page does not say that ${other} is laid over`);
    });
    await choice.selectOption({ label: 'nothing' });
    await preview.locator('.over-line').first().waitFor({ state: 'detached' });
  });
}

/** The slider shows what the command line predicts of the same text, and writes the number when it is let go. */
export async function sliderWrites({ checks, bench, expected, shots }: Ui, cli: string): Promise<void> {
  const file = expected.find(({ name }) => lastPart(name) === PICTURED);
  const preview = bench.preview();
  const slider = preview.locator('.heel-slider input').first();
  const after = preview.locator('.cut-table tr', { hasText: 'palmar angle' }).first().locator('.after');

  await checks.check('the heel slider shows what the plan would leave, and writes it when let go', 60, async () => {
    expectThat(file !== undefined, `there is no ${PICTURED} among the examples`);
    const text = readFileSync(file.path, 'utf8');
    const written = text.replace(/(plan LF\s+heel +down) 5 mm/, '$1 6.5 mm');
    expectThat(written !== text, `${PICTURED} has no plan of 5 mm at the heel`);
    const wanted = predicted(cli, file.path, written);
    await slider.focus();
    for (let step = 0; step < 3; step++) await bench.page.keyboard.press('ArrowRight');
    await eventually(10, async () => {
      const shown = await after.innerText();
      expectThat(showsValue(shown, wanted), `the slider predicts ${shown}, plan predicts ${wanted}`);
      expectEqual(await slider.getAttribute('aria-valuetext'), '6.5 mm', 'the slider');
    });
    await bench.screenshot(join(shots, 'slider.png'));
    await bench.returnTo(PICTURED);
    await eventually(10, async () => {
      const lines = await bench.shownText();
      expectThat(/heel\s+down 6\.5 mm/.test(lines), 'the text does not have the number');
    });
  });

  await checks.check('each step of the slider is one undo step', 30, async () => {
    for (let step = 0; step < 3; step++) await bench.page.keyboard.press('Control+z');
    await eventually(10, async () => {
      const lines = await bench.shownText();
      expectThat(/heel\s+down 5 mm/.test(lines), 'the number from before is not back');
      expectThat(!/heel\s+down 6/.test(lines), 'a step of the slider is left');
    });
  });
}

/** The palmar angle that the first plan of a text is predicted to leave, by the command line. */
function predicted(cli: string, beside: string, text: string): number {
  const folder = mkdtempSync(join(tmpdir(), 'ungula-slider-'));
  try {
    const path = join(folder, lastPart(beside));
    writeFileSync(path, text);
    const out = execFileSync(process.execPath, [cli, 'measure', path, '--format', 'json'], { encoding: 'utf8' });
    const { cases } = JSON.parse(out) as {
      cases: { visits: { plans: { predicted: Record<string, { value: number }> }[] }[] }[];
    };
    const value = cases[0]?.visits.flatMap(({ plans }) => plans)[0]?.predicted['palmar-angle']?.value;
    if (value === undefined) throw new Error('the command line predicts no palmar angle');
    return value;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
