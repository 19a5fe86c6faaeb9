import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Browser } from 'playwright-core';
import { closeBrowser, launchBrowser, openWorkbench, type Workbench } from './browser.ts';
import { Checks, eventually, expectEqual, expectThat, type Outcome } from './checks.ts';
import { startCodeServer } from './code-server.ts';
import { DICOM_CASE, addDicomCase } from './dicom-case.ts';
import { expectedFor, shownAsProblems, type CaseFile } from './expected.ts';
import { installExtension } from './install-extension.ts';
import { movedTip } from './moved-tip.ts';
import { quietWord } from './quiet-word.ts';
import type { SetUp } from './setup.ts';
import { ROOT, copyOfExamples, scratchFolder, type UnderTest } from './under-test.ts';

/** The example with most to see. */
const PICTURED = 'juniper.hoof';

const SHOTS = join(ROOT, 'out', 'screenshots');

/** The installed extension as a person meets it, in a browser. Every expected value is asked of the command line. */
export async function runUi(subject: UnderTest, setUp: () => Promise<SetUp>): Promise<Outcome> {
  if (process.platform !== 'linux') {
    const why = `the code-server host is set up on Linux only, and this is ${process.platform}`;
    console.log(`The editor in a browser: not run: ${why}`);
    return { passed: 0, failed: 0, skipped: [{ name: 'the editor in a browser', why }] };
  }
  const host = await setUp();
  console.log(`The editor in a browser: code-server (VS Code ${host.vscodeVersion}) in Chromium`);
  const workspace = copyOfExamples(subject.examples, scratchFolder('ui'));
  addDicomCase(workspace);
  const expected = expectedFor(subject.cli, workspace);
  const checks = new Checks();
  const server = await startCodeServer(host, {
    fillExtensions: (folder) => installExtension(subject.extension, folder),
  });
  let browser: Browser | undefined;
  try {
    browser = await launchBrowser(host.chromium);
    const bench = await openWorkbench(browser, server.url, workspace);
    await problemsMatch(checks, bench, expected);
    await hoverShows(checks, bench, expected);
    await previewMatches(checks, bench, expected, subject.cli, workspace);
    await dicomShows(checks, bench, expected);
    await wideView(checks, bench, expected);
    await courseShows(checks, bench, expected, subject.cli);
    await checks.check('nothing complained in a notification', 10, async () => {
      expectEqual(await bench.errorNotices(), [], 'error notifications');
    });
    if (checks.outcome.failed > 0) await bench.screenshot(join(SHOTS, 'last-failure.png'));
  } finally {
    await closeBrowser(browser);
    await server.stop();
  }
  console.log(`  screenshots are in ${SHOTS}`);
  return checks.outcome;
}

async function problemsMatch(checks: Checks, bench: Workbench, expected: CaseFile[]): Promise<void> {
  // Those with none last: their 0 stands before anything has been reported, and the sum below makes sure of it.
  for (const file of [...expected].sort((a, b) => b.findings.length - a.findings.length)) {
    const wanted = shownAsProblems(file.findings);
    await checks.check(`${file.name}: the Problems panel counts what check finds (${wanted.length})`, 60, async () => {
      await bench.openFile(file.name);
      await bench.showProblems();
      const shown = (): Promise<number> => bench.problemsOf(lastPart(file.name));
      await eventually(20, async () => expectEqual(await shown(), wanted.length, 'problems'));
    });
  }

  await checks.check('the status bar counts the same, by severity', 30, async () => {
    const all = expected.flatMap(({ findings }) => findings);
    const count = (severity: string): number => all.filter((finding) => finding.severity === severity).length;
    await eventually(15, async () => {
      const { errors, warnings, infos } = await bench.problemsCount();
      expectEqual(
        [errors, warnings, infos],
        [count('error'), count('warning'), count('info')],
        'errors, warnings, infos',
      );
    });
  });

  const worst = [...expected].sort((a, b) => b.findings.length - a.findings.length)[0];
  await checks.check('rows of the Problems panel say what check says', 40, async () => {
    const wanted = expected.flatMap(({ findings }) => shownAsProblems(findings));
    expectThat(worst !== undefined && wanted.length > 0, 'no example has a finding to look for');
    await bench.openFile(worst.name);
    await bench.showProblems();
    const flat = (text: string): string => text.replace(/\s+/g, ' ');
    const rows = (await bench.problemRows(lastPart(worst.name))).map(flat);
    expectThat(rows.length > 0, 'the panel shows no row');
    for (const row of rows) {
      // A row shows the first line of a message until it is unfolded.
      const known = wanted.some(
        ({ message, code }) => row.includes(flat(message.split('\n')[0] ?? '')) && row.includes(code),
      );
      expectThat(known, `the panel shows a problem that check does not know: ${row}`);
    }
    await bench.screenshot(join(SHOTS, 'problems.png'));
  });
}

async function hoverShows(checks: Checks, bench: Workbench, expected: CaseFile[]): Promise<void> {
  await checks.check('a word of the notation explains itself under the mouse', 60, async () => {
    for (const file of expected) {
      const word = quietWord(readFileSync(file.path, 'utf8'), file.findings);
      if (word === null) continue;
      await bench.openFile(file.name);
      await bench.goTo(word.line);
      const text = await bench.hover(word.text);
      await bench.screenshot(join(SHOTS, 'hover.png'), true);
      expectThat(text.length > word.text.length, `the hover says no more than ${JSON.stringify(text)}`);
      return;
    }
    throw new Error('no example has a scale line without a finding to hover over');
  });
}

async function previewMatches(
  checks: Checks,
  bench: Workbench,
  expected: CaseFile[],
  cli: string,
  workspace: string,
): Promise<void> {
  const file = expected.find(
    (one) => one.palmarAngles.length > 0 && movedTip(readFileSync(one.path, 'utf8'), one) !== null,
  );
  const shown = bench.preview().locator('tr[data-measure="palmar-angle"] .value');
  const matches = (wanted: CaseFile | undefined): Promise<string[]> =>
    eventually(20, async () => {
      const texts = await shown.allInnerTexts();
      const values = wanted?.palmarAngles.map(({ value }) => value) ?? [];
      expectThat(texts.length > 0, 'the preview shows no palmar angle');
      for (const text of texts) {
        expectThat(
          values.some((value) => showsValue(text, value)),
          `the preview shows a palmar angle of ${text}, the command line knows ${values.join(', ')}`,
        );
      }
      return texts;
    });

  await checks.check('the preview shows the palmar angle that measure computes', 60, async () => {
    expectThat(file !== undefined, 'no example has a palmar angle and a p3.tip to move');
    await bench.openFile(file.name);
    await bench.goTo(file.palmarAngles[0]?.filmLine ?? 1);
    await bench.hidePanel();
    await bench.runCommand('Ungula: Open preview to the side');
    await matches(file);
    await bench.screenshot(join(SHOTS, 'preview.png'));
  });

  await checks.check('moving a landmark moves the angle in the preview', 60, async () => {
    expectThat(file !== undefined, 'no example has a palmar angle and a p3.tip to move');
    const before = await shown.allInnerTexts();
    const move = movedTip(readFileSync(file.path, 'utf8'), file);
    expectThat(move !== null, 'no p3.tip to move');
    await bench.returnTo(lastPart(file.name));
    await bench.replaceLine(move.line, move.text);
    await bench.save(file.path, move.text);
    const after = expectedFor(cli, workspace).find(({ name }) => name === file.name);
    const texts = await matches(after);
    expectThat(JSON.stringify(texts) !== JSON.stringify(before), `the preview still shows ${before.join(', ')}`);
    await bench.screenshot(join(SHOTS, 'preview-after-edit.png'));
  });
}

/** A film that no page can show as it is, with the scale that its own file states. */
async function dicomShows(checks: Checks, bench: Workbench, expected: CaseFile[]): Promise<void> {
  const file = expected.find(({ name }) => lastPart(name) === DICOM_CASE);
  await checks.check('a DICOM film is shown, and its own scale counts', 60, async () => {
    expectThat(file !== undefined, `there is no ${DICOM_CASE}`);
    const [first] = file.palmarAngles;
    expectThat(first !== undefined, `${DICOM_CASE} has no palmar angle`);
    await bench.openFile(file.name);
    await bench.goTo(first.filmLine);
    const preview = bench.preview();
    await eventually(30, async () => {
      const pictures = await preview.locator('svg image').count();
      expectThat(pictures === 1, `the plate shows ${pictures} pictures`);
      const depth = await preview.locator('tr[data-measure="sole-depth.tip"] .value').allInnerTexts();
      expectThat(/^\d+\.\d mm/.test(depth[0] ?? ''), `the sole depth reads ${JSON.stringify(depth)}`);
    });
    await bench.screenshot(join(SHOTS, 'dicom.png'));
  });
}

/** Across visits: the numbers of the command line, a visit as a way into the text, and back to the film. */
async function courseShows(checks: Checks, bench: Workbench, expected: CaseFile[], cli: string): Promise<void> {
  const file = expected.find(({ name }) => lastPart(name) === PICTURED);
  const preview = bench.preview();
  await checks.check('the course shows what the command line says of it', 60, async () => {
    expectThat(file !== undefined, `there is no ${PICTURED} among the examples`);
    const wanted = courseOf(cli, file.path);
    await bench.returnTo(lastPart(file.name));
    await bench.goTo(file.palmarAngles[0]?.filmLine ?? 1);
    await preview.locator('.views button', { hasText: 'Course' }).click();
    await eventually(20, async () => {
      const row = preview.locator('.trends tr[data-measure="palmar-angle"]');
      const text = await row.innerText();
      const last = wanted.changes.at(-1);
      expectThat(last !== undefined, `${PICTURED} has no change to look for`);
      expectThat(
        showsValue(/[\u2212+-]?\d+\.\d°\s+(?:real|within)/.exec(text)?.[0] ?? '', last.difference) &&
          text.includes(last.real ? 'real' : 'within error'),
        `the row reads ${JSON.stringify(text)}, the last change is ${last.difference}, real: ${last.real}`,
      );
      expectEqual(await preview.locator('.every-film tbody tr').count(), wanted.n, 'rows of films');
    });
    await bench.screenshot(join(SHOTS, 'course.png'));
  });

  await checks.check('the arrow keys read another film on the stave', 30, async () => {
    const stave = preview.locator('.stave');
    await stave.focus();
    await bench.page.keyboard.press('Home');
    const first = await stave.getAttribute('aria-valuetext');
    await bench.page.keyboard.press('ArrowRight');
    await eventually(5, async () => {
      const second = await stave.getAttribute('aria-valuetext');
      expectThat(second !== first && /palmar angle/i.test(second ?? ''), `the cursor reads ${second} after ${first}`);
    });
  });

  await checks.check('a picture of the course can be made under the page’s own rules', 30, async () => {
    await preview.locator('.save-row button', { hasText: 'Copy as picture' }).click();
    await eventually(10, async () => {
      const said = await preview.locator('.save-row [role="status"]').innerText();
      expectThat(/copied|does not let a page copy/.test(said), `the page says ${JSON.stringify(said)}`);
    });
  });

  await checks.check('the numbers of the course are saved where a person says', 40, async () => {
    expectThat(file !== undefined, `there is no ${PICTURED} among the examples`);
    await preview.locator('.save-row button', { hasText: 'Save numbers' }).click();
    const input = bench.page.locator('.quick-input-box input');
    await input.waitFor();
    const path = join(dirname(file.path), 'juniper-left-fore-course.csv');
    await eventually(10, async () => expectEqual(await input.inputValue(), path, 'the place that is offered'));
    await bench.page.keyboard.press('Enter');
    await eventually(15, () => {
      const [head, first] = readFileSync(path, 'utf8').split('\r\n');
      expectThat(head?.startsWith('file,case,foot,') === true, `the file begins with ${head}`);
      expectThat(
        first?.startsWith('juniper.hoof,Juniper,LF,lateral,palmar-angle,') === true,
        `its first row is ${first}`,
      );
    });
    await eventually(5, async () => {
      const said = await preview.locator('.save-row [role="status"]').innerText();
      expectEqual(said, 'Saved as juniper-left-fore-course.csv.', 'what the page says');
    });
    const left = readdirSync(dirname(file.path)).filter((name) => name.endsWith('.part'));
    expectEqual(left, [], 'files written half');
  });

  await checks.check('a visit of the strip leads to its film in the text', 60, async () => {
    expectThat(file !== undefined, `there is no ${PICTURED} among the examples`);
    const line = file.palmarAngles[1]?.filmLine;
    expectThat(line !== undefined, `${PICTURED} has no second film`);
    await preview.locator('.strip .visit').nth(1).click();
    await eventually(15, async () => {
      const place = await bench.page.locator('#status\\.editor\\.selection').innerText();
      expectThat(place.includes(`Ln ${line},`), `the cursor is at ${place}, not in line ${line}`);
    });
    await preview.locator('.views button', { hasText: 'Film' }).click();
    await preview.locator('tr[data-measure="palmar-angle"] .value').first().waitFor();
  });
}

interface CommandCourse {
  readonly n: number;
  readonly changes: readonly { readonly difference: number; readonly real: boolean }[];
}

function courseOf(cli: string, path: string): CommandCourse {
  const out = execFileSync(process.execPath, [cli, 'course', path, '--foot', 'LF', '--format', 'json'], {
    encoding: 'utf8',
  });
  const { cases } = JSON.parse(out) as { cases: { feet: Record<string, Record<string, CommandCourse>> }[] };
  const course = cases[0]?.feet['LF']?.['palmar-angle'];
  if (!course) throw new Error(`${path} has no course of LF`);
  return course;
}

/** The picture that the README shows, in a window as wide as a desk's; the preview must have followed to another case. */
async function wideView(checks: Checks, bench: Workbench, expected: CaseFile[]): Promise<void> {
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

function lastPart(name: string): string {
  return name.slice(name.lastIndexOf('/') + 1);
}

/** Whether a text such as `−3.2°` is this value, rounded to as many decimals as the text has. */
function showsValue(text: string, value: number): boolean {
  const found = /-?\d+(?:\.(\d+))?/.exec(text.replace('\u2212', '-'));
  if (found === null) return false;
  const decimals = found[1]?.length ?? 0;
  return Math.abs(Number(found[0]) - value) <= 0.5 * 10 ** -decimals + 1e-9;
}
