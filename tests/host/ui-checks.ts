import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Workbench } from './browser.ts';
import { eventually, expectEqual, expectThat, type Checks } from './checks.ts';
import { DICOM_CASE, dicomSize } from './dicom-case.ts';
import { expectedFor, shownAsProblems, type CaseFile } from './expected.ts';
import { movedTip } from './moved-tip.ts';
import { quietWord } from './quiet-word.ts';

/** One workbench in a browser, and what it is held against. Every expected value is asked of the command line. */
export interface Ui {
  readonly checks: Checks;
  readonly bench: Workbench;
  readonly expected: readonly CaseFile[];
  /** Folder for screenshots. */
  readonly shots: string;
}

export async function problemsMatch({ checks, bench, expected, shots }: Ui): Promise<void> {
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
    await bench.screenshot(join(shots, 'problems.png'));
  });
}

export async function hoverShows({ checks, bench, expected, shots }: Ui): Promise<void> {
  await checks.check('a word of the notation explains itself under the mouse', 60, async () => {
    for (const file of expected) {
      const word = quietWord(readFileSync(file.path, 'utf8'), file.findings);
      if (word === null) continue;
      await bench.openFile(file.name);
      await bench.goTo(word.line);
      const text = await bench.hover(word.text);
      await bench.screenshot(join(shots, 'hover.png'), true);
      expectThat(text.length > word.text.length, `the hover says no more than ${JSON.stringify(text)}`);
      return;
    }
    throw new Error('no example has a scale line without a finding to hover over');
  });
}

/** The case whose preview is looked at, and the angles that show there now. */
function previewed({ bench, expected }: Ui) {
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
  return { file, shown, matches };
}

export async function previewMatches(ui: Ui): Promise<void> {
  const { checks, bench, shots } = ui;
  const { file, matches } = previewed(ui);
  await checks.check('the preview shows the palmar angle that measure computes', 60, async () => {
    expectThat(file !== undefined, 'no example has a palmar angle and a p3.tip to move');
    await bench.openFile(file.name);
    await bench.goTo(file.palmarAngles[0]?.filmLine ?? 1);
    await bench.hidePanel();
    await bench.runCommand('Ungula: Open preview to the side');
    await matches(file);
    await bench.screenshot(join(shots, 'preview.png'));
  });
}

/** The preview has a group of editors of its own, which is locked. */
export async function previewStays(ui: Ui): Promise<void> {
  const { checks, bench, expected } = ui;
  const { file, matches } = previewed(ui);
  await checks.check('a file that is opened while the preview is in front does not cover it', 60, async () => {
    const other = expected.find((one) => one.name !== file?.name);
    expectThat(file !== undefined && other !== undefined, 'there is no other case to open');
    await bench.preview().locator('.masthead h1').click();
    await bench.openFile(other.name);
    // A preview that is covered has no frame in sight.
    await bench.preview().locator('.masthead h1').waitFor({ timeout: 20_000 });
    await bench.lines().first().waitFor();
    await bench.openFile(file.name);
    await matches(file);
  });
}

/** Needs a folder on the disk, where the command line can look at what was saved. */
export async function previewFollows(ui: Ui, cli: string, workspace: string): Promise<void> {
  const { checks, bench, shots } = ui;
  const { file, shown, matches } = previewed(ui);
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
    await bench.screenshot(join(shots, 'preview-after-edit.png'));
  });
}

/** A film that no page can show as it is, with the scale that its own file states. */
export async function dicomShows({ checks, bench, expected, shots }: Ui): Promise<void> {
  const file = expected.find(({ name }) => lastPart(name) === DICOM_CASE);
  await checks.check('a DICOM film is shown, and its own scale counts', 60, async () => {
    expectThat(file !== undefined, `there is no ${DICOM_CASE}`);
    const [first] = file.palmarAngles;
    expectThat(first !== undefined, `${DICOM_CASE} has no palmar angle`);
    await bench.openFile(file.name);
    await bench.goTo(first.filmLine);
    const preview = bench.preview();
    await eventually(30, async () => {
      const picture = preview.locator('svg image');
      expectEqual(await picture.count(), 1, 'pictures on the plate');
      // An element is there before its picture, and stays where there is none.
      const size = await picture.evaluate(async (element) => {
        const loaded = new Image();
        loaded.src = (element as SVGImageElement).href.baseVal;
        await loaded.decode();
        return [loaded.naturalWidth, loaded.naturalHeight];
      });
      expectEqual(size, dicomSize, 'size of the decoded picture');
      const depth = await preview.locator('tr[data-measure="sole-depth.tip"] .value').allInnerTexts();
      expectThat(/^\d+\.\d mm/.test(depth[0] ?? ''), `the sole depth reads ${JSON.stringify(depth)}`);
    });
    await bench.screenshot(join(shots, 'dicom.png'));
  });
}

/** Made of the text that is open, with its film, where there is neither Node nor a disk too. */
export async function pageIsMade({ checks, bench, expected, shots }: Ui): Promise<void> {
  const file = expected.find(({ name }) => lastPart(name) === 'bramble.hoof');
  await checks.check('a page to hand over is made, with the film in it', 60, async () => {
    expectThat(file !== undefined, 'there is no bramble.hoof');
    await bench.openFile(file.name);
    await bench.runAndChoose('Ungula: Page to hand over', 'For the vet');
    await eventually(40, async () => {
      const frames = bench.page.frames();
      const found = await Promise.all(
        frames.map((frame) =>
          frame
            .locator('body.for-vet h1')
            .count()
            .catch(() => 0),
        ),
      );
      const page = frames[found.indexOf(1)];
      expectThat(page !== undefined, 'no page for the vet shows');
      expectEqual(await page.locator('h1').innerText(), 'Bramble', 'whose page it is');
      const films = await page.locator('svg image').evaluateAll((images) =>
        Promise.all(
          images.map(async (image) => {
            const loaded = new Image();
            loaded.src = (image as SVGImageElement).href.baseVal;
            await loaded.decode();
            return loaded.naturalWidth > 100;
          }),
        ),
      );
      expectThat(films.length > 0 && films.every(Boolean), `films that show: ${JSON.stringify(films)}`);
    });
    await bench.screenshot(join(shots, 'page.png'));
  });
}

export async function nothingComplained({ checks, bench }: Ui): Promise<void> {
  await checks.check('nothing complained in a notification', 10, async () => {
    expectEqual(await bench.errorNotices(), [], 'error notifications');
  });
}

export function lastPart(name: string): string {
  return name.slice(name.lastIndexOf('/') + 1);
}

/** Whether a text such as `−3.2°` is this value, rounded to as many decimals as the text has. */
export function showsValue(text: string, value: number): boolean {
  const found = /-?\d+(?:\.(\d+))?/.exec(text.replace('\u2212', '-'));
  if (found === null) return false;
  const decimals = found[1]?.length ?? 0;
  return Math.abs(Number(found[0]) - value) <= 0.5 * 10 ** -decimals + 1e-9;
}
