import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { eventually, expectThat, type Outcome } from './checks.ts';
import { besideText } from './beside-text-checks.ts';
import { addDicomCase } from './dicom-case.ts';
import { comparesFeet, sliderWrites } from './compare-checks.ts';
import { courseShows } from './course-checks.ts';
import { expectedFor } from './expected.ts';
import { dragMakesFilm, dropMakesFilm, dropTellsFilm, pasteMakesFilm } from './film-drop-checks.ts';
import { inCodeServer, SHOTS } from './in-code-server.ts';
import { addPlacingCase, placedFileChecks, placingChecks } from './placing-checks.ts';
import type { SetUp } from './setup.ts';
import {
  dicomShows,
  hoverShows,
  lastPart,
  nothingComplained,
  previewFollows,
  previewMatches,
  previewStays,
  problemsMatch,
  showsValue,
  type Ui,
} from './ui-checks.ts';
import { copyOfCases, scratchFolder, type UnderTest } from './under-test.ts';

/** The example with most to see. */
const PICTURED = 'juniper.hoof';

/** The installed extension as a person meets it, in a browser. Every expected value is asked of the command line. */
export function runUi(subject: UnderTest, setUp: () => Promise<SetUp>): Promise<Outcome> {
  return inCodeServer(
    {
      name: 'the editor in a browser',
      workspace() {
        const workspace = copyOfCases(subject.examples, scratchFolder('ui'));
        addDicomCase(workspace);
        addPlacingCase(workspace);
        return workspace;
      },
      async work(bench, checks, workspace) {
        const ui: Ui = { checks, bench, expected: expectedFor(subject.cli, workspace), shots: SHOTS };
        await problemsMatch(ui);
        await hoverShows(ui);
        await previewMatches(ui);
        await previewStays(ui);
        await previewFollows(ui, subject.cli, workspace);
        await besideText(ui, subject.cli, workspace);
        await dicomShows(ui);
        await dropMakesFilm(ui);
        await dropTellsFilm(ui);
        await dragMakesFilm(ui);
        await pasteMakesFilm(ui);
        await wideView(ui);
        await comparesFeet(ui);
        await sliderWrites(ui, subject.cli);
        await placingChecks(checks, bench, subject.cli, workspace, SHOTS);
        await placedFileChecks(checks, bench, subject.cli, workspace);
        await courseShows(ui, subject.cli);
        await nothingComplained(ui);
      },
    },
    subject,
    setUp,
  );
}

/** The picture that the README shows, in a window as wide as a desk's; the preview must have followed to another case. */
async function wideView({ checks, bench, expected }: Ui): Promise<void> {
  const file = expected.find(({ name }) => lastPart(name) === PICTURED);
  await checks.check('the preview follows to another case', 60, async () => {
    expectThat(file !== undefined, `there is no ${PICTURED} among the examples`);
    const [first] = file.palmarAngles;
    expectThat(first !== undefined, `${PICTURED} has no palmar angle`);
    await bench.page.setViewportSize({ width: 1800, height: 1040 });
    await bench.openFile(file.name);
    await bench.page.keyboard.press('Control+B');
    await bench.goTo(first.filmLine + 4);
    const shown = bench.preview().locator('tr[data-measure="palmar-angle"] .value');
    await eventually(20, async () => {
      const texts = await shown.allInnerTexts();
      expectThat(
        texts.length === 1 && showsValue(texts[0] ?? '', first.value),
        `the preview shows ${texts.join(', ')}, not ${first.value}`,
      );
    });
    await bench.screenshot(join(SHOTS, 'case.png'));
  });

  await checks.check('the plan under the cursor is laid over the film', 60, async () => {
    expectThat(file !== undefined, `there is no ${PICTURED} among the examples`);
    const line =
      readFileSync(file.path, 'utf8')
        .split('\n')
        .findIndex((text) => /^\s*plan /.test(text)) + 1;
    expectThat(line > 0, `${PICTURED} has no plan`);
    await bench.returnTo(lastPart(file.name));
    await bench.goTo(line);
    await eventually(20, async () => {
      const words = await bench.preview().locator('.plate svg').first().textContent();
      expectThat(/turns \d/.test(words ?? ''), 'the plate does not say how far the foot turns');
    });
    await bench.screenshot(join(SHOTS, 'plan.png'));
  });
}
