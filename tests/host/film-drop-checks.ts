import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pictureFile, syntaxes } from '../unit/picture-dicom-writer.ts';
import { eventually, expectThat } from './checks.ts';
import type { CaseFile } from './expected.ts';
import { Failure } from './failure.ts';
import { lastPart, type Ui } from './ui-checks.ts';
import { ROOT } from './under-test.ts';

/** The case into which pictures are put: its first visit is a short way below the top of the file. */
const CASE = 'bramble.hoof';
const DAY = '2026-02-10';

/** A picture that comes from outside, dropped on a visit: the block, the copy, and all of it gone after one undo. */
export async function dropMakesFilm(ui: Ui): Promise<void> {
  const { checks, bench, shots } = ui;
  // The example has a film of this foot and day already, which must stay.
  const copy = `bramble-rf-${DAY}-2.png`;
  await checks.check('a picture dropped on a visit becomes a film of it, copied beside the case', 60, async () => {
    const { base64 } = await opened(ui);
    await bench.drop('condition', { name: 'IMG 12 rf front.png', type: 'image/png', base64 });
    await filmShows(ui, 'film RF front', copy);
    await bench.screenshot(join(shots, 'dropped.png'));
  });
  await undone(ui, copy);
}

/** A DICOM picture says of itself what it shows; nothing of the patient comes along. */
export async function dropTellsFilm(ui: Ui): Promise<void> {
  const { checks, bench, shots } = ui;
  const copy = `bramble-${DAY}.dcm`;
  await checks.check('a DICOM picture dropped on a visit proposes its day, scale and foot', 60, async () => {
    await opened(ui);
    const base64 = Buffer.from(dicomPicture()).toString('base64');
    await bench.drop('condition', { name: 'IMG 3.dcm', type: 'application/dicom', base64 });
    await filmShows(ui, 'film RF lateral', copy);
    const text = await bench.shownText();
    expectThat(/taken +2026-02-09/.test(text), `the day is not proposed:\n${text}`);
    expectThat(/scale +dicom/.test(text), `the scale is not proposed:\n${text}`);
    expectThat(!/Rowan|Meadow|EX77/.test(text), `the text tells of the patient:\n${text}`);
    await bench.screenshot(join(shots, 'dropped-dicom.png'));
  });
  await undone(ui, copy);
}

function dicomPicture(): Uint8Array {
  const more = [
    { tag: '00080022', vr: 'DA', value: '20260209' },
    { tag: '00100010', vr: 'PN', value: 'Meadow^Rowan' },
    { tag: '00100020', vr: 'LO', value: 'EX77' },
    { tag: '00185101', vr: 'CS', value: 'RL' },
    { tag: '00200062', vr: 'CS', value: 'R' },
    { tag: '00280030', vr: 'DS', value: '0.2\\0.2' },
    { tag: '00280a02', vr: 'CS', value: 'FIDUCIAL' },
  ];
  const layout = { width: 64, height: 48, bitsAllocated: 8, more };
  return pictureFile(syntaxes.explicit, layout, new Uint8Array(64 * 48).fill(90), 'OB');
}

/** A picture that lies in the folder already is named where it is. */
export async function dragMakesFilm(ui: Ui): Promise<void> {
  const { checks, bench, shots } = ui;
  const name = 'thistle-rf-2026-03-17.png';
  await checks.check('a picture dragged from the explorer becomes a film that names it where it is', 60, async () => {
    await opened(ui);
    await bench.dragFromExplorer('films', name, 'condition');
    await filmShows(ui, 'film RF lateral', name);
    expectThat(
      !(await bench.explorerShows('films', `bramble-rf-${DAY}-2.png`)),
      'the picture was copied although it lies in the folder',
    );
    await bench.screenshot(join(shots, 'dragged.png'));
    await bench.returnTo(CASE);
    await bench.page.keyboard.press('Escape');
    await bench.page.keyboard.press('Control+Z');
    await bench.goTo(lineOf(ui, /^ {2}tape LF/));
    await eventually(10, async () => {
      const text = unbroken(await bench.shownText());
      expectThat(text.includes('tape LF') && !text.includes(name), `the film is still in the text:\n${text}`);
    });
  });
}

/** The same with a picture on the clipboard, which has no name and tells of no foot. */
export async function pasteMakesFilm(ui: Ui): Promise<void> {
  const { checks, bench, shots } = ui;
  const copy = `bramble-${DAY}.png`;
  await checks.check('a picture pasted into a visit becomes a film of it', 60, async () => {
    const { line, base64 } = await opened(ui);
    await bench.goTo(line);
    await bench.pastePicture(base64);
    await filmShows(ui, 'film LF lateral', copy);
    await bench.screenshot(join(shots, 'pasted.png'));
  });
  await undone(ui, copy);
}

async function opened(ui: Ui): Promise<{ line: number; base64: string }> {
  const line = lineOf(ui, new RegExp(`^visit ${DAY}`));
  await ui.bench.openFile(caseIn(ui).name);
  await ui.bench.goTo(line);
  return { line, base64: readFileSync(join(ROOT, 'icon.png')).toString('base64') };
}

function caseIn({ expected }: Ui): CaseFile {
  const file = expected.find(({ name }) => lastPart(name) === CASE);
  if (file === undefined) throw new Failure(`there is no ${CASE} among the examples`, 'see examples/');
  return file;
}

/** Counted from 1, in the file as it was before. */
function lineOf(ui: Ui, pattern: RegExp): number {
  const index = readFileSync(caseIn(ui).path, 'utf8')
    .split('\n')
    .findIndex((text) => pattern.test(text));
  expectThat(index >= 0, `${CASE} has no line ${pattern.source}`);
  return index + 1;
}

async function filmShows({ bench }: Ui, header: string, copy: string): Promise<void> {
  // The editor goes to where the block was put, since foot and view are to be chosen there.
  await eventually(20, async () => {
    const text = await bench.shownText();
    expectThat(unbroken(text).includes(`${header} "films/${copy}"`), `the editor shows no such film, but:\n${text}`);
  });
  await eventually(20, async () =>
    expectThat(await bench.explorerShows('films', copy), `the folder films holds no ${copy}`),
  );
}

async function undone(ui: Ui, copy: string): Promise<void> {
  const { checks, bench } = ui;
  await checks.check('and one undo takes the film and the copy away again', 60, async () => {
    await bench.returnTo(CASE);
    await bench.page.keyboard.press('Escape');
    await bench.page.keyboard.press('Control+Z');
    // Behind the films of the visit, where the block was.
    await bench.goTo(lineOf(ui, /^ {2}tape LF/));
    await eventually(10, async () => {
      const text = unbroken(await bench.shownText());
      expectThat(text.includes('tape LF') && !text.includes(copy), `the film is still in the text:\n${text}`);
      expectThat(!(await bench.explorerShows('films', copy)), `${copy} is still in the folder films`);
    });
  });
}

/** A long line is broken and indented where the editor is narrow. */
const unbroken = (text: string): string => text.replace(/\n */g, '');
