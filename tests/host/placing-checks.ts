import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Truth } from '../../examples/drawn/truth.ts';
import { nameOfLandmark } from '../../shared/views/landmark-names.ts';
import type { Workbench } from './browser.ts';
import { placeInWindow } from './place-in-window.ts';
import { eventually, expectEqual, expectThat, type Checks } from './checks.ts';

export const PLACING_CASE = 'to-place.hoof';
const TRUE_CASE = 'true-places.hoof';

type XY = readonly [number, number];

/** The film with the true place of everything on it, as the script that drew it knows it. */
function truth(workspace: string): Truth {
  const { films } = JSON.parse(readFileSync(join(workspace, 'drawn', 'truth.json'), 'utf8')) as { films: Truth[] };
  const film = films.find(({ landmarks }) => 'wall.turn' in landmarks);
  if (!film) throw new Error('no drawn film has a ring in its wall');
  return film;
}

const header = ({ foot, file, taken }: Truth): string =>
  `hoof 1\n\ncase "Meadow"\n\nvisit ${taken}\n  film ${foot} lateral "${file}"\n`;

/** A case whose film has nothing placed on it yet. */
export function addPlacingCase(workspace: string): void {
  writeFileSync(join(workspace, PLACING_CASE), header(truth(workspace)));
}

/** A film is placed on from nothing, by mouse and from near, and says what the script that drew it knows. */
export async function placingChecks(
  checks: Checks,
  bench: Workbench,
  cli: string,
  workspace: string,
  shots: string,
): Promise<void> {
  const film = truth(workspace);
  const pane = bench.preview();
  const shot = (name: string): Promise<void> => bench.screenshot(join(shots, `placing-${name}.png`), true);
  const stage = pane.locator('.stage');
  const said = (): Promise<string> => pane.locator('.walk-card h2').innerText();

  /** Where a place of the film lies in the window. */
  const inWindow = (place: XY): Promise<{ x: number; y: number }> => placeInWindow(pane, place);

  /** Brings a place near the middle with the middle button, as a hand would. */
  async function bringIn(place: XY): Promise<void> {
    const box = await stage.boundingBox();
    expectThat(box !== null, 'there is no stage');
    const middle = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
    for (let tries = 0; tries < 12; tries++) {
      const at = await inWindow(place);
      const [dx, dy] = [middle.x - at.x, middle.y - at.y];
      if (Math.abs(dx) < box.width / 3 && Math.abs(dy) < box.height / 3) return;
      const within = (by: number, size: number): number => Math.max(-size / 2.5, Math.min(size / 2.5, by));
      await bench.page.mouse.move(middle.x, middle.y);
      await bench.page.mouse.down({ button: 'middle' });
      await bench.page.mouse.move(middle.x + within(dx, box.width), middle.y + within(dy, box.height), { steps: 3 });
      await bench.page.mouse.up({ button: 'middle' });
      await new Promise((done) => setTimeout(done, 60));
    }
    throw new Error(`the place ${place.join(', ')} does not come into sight`);
  }

  async function click(place: XY): Promise<void> {
    await bringIn(place);
    const at = await inWindow(place);
    await bench.page.mouse.move(at.x, at.y);
    await bench.page.mouse.down();
    await bench.page.mouse.up();
  }

  await checks.check('a film without a landmark is opened for placing', 60, async () => {
    // The check before has put the explorer away.
    const explorer = bench.page.locator('.explorer-folders-view');
    const wasAway = !(await explorer.isVisible());
    if (wasAway) await bench.page.keyboard.press('Control+B');
    await bench.openFile(PLACING_CASE);
    if (wasAway) await bench.page.keyboard.press('Control+B');
    await eventually(20, async () =>
      expectThat((await pane.locator('.plate svg image').count()) === 1, 'the film does not show'),
    );
    // Pressed once: a second try would look for a plate that the first has put away.
    await pane.getByRole('button', { name: 'Place landmarks' }).click({ timeout: 15_000 });
    await eventually(10, async () => expectEqual(await said(), 'Scale marker', 'the first thing to place'));
    await pane.locator('.wanted > summary').click();
    await pane.getByRole('button', { name: 'Rotation and sole' }).click();
    await pane.getByRole('button', { name: 'Everything lateral' }).click();
    await pane.getByText('Single measures').click();
    await pane.getByRole('button', { name: 'New wall grown out', exact: true }).click();
    await pane.locator('.wanted > summary').click();
    // An editor's own style for pictures must not squeeze it: the marks would lie beside what they mark.
    const shape = await pane.locator('.stage .film-picture').evaluate((film) => {
      const { width, height } = film.getBoundingClientRect();
      return width / height;
    });
    expectThat(
      Math.abs(shape - film.width / film.height) < 0.01,
      `the film on the stage is ${shape} times as wide as high`,
    );
    await shot('begun');
  });

  await checks.check('every landmark is placed by mouse, from near, in the order of the walk', 180, async () => {
    const box = await stage.boundingBox();
    expectThat(box !== null, 'there is no stage');
    await bench.page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    const zoom = (): Promise<number> =>
      pane.locator('.stage .film-picture').evaluate((film) => new DOMMatrix(getComputedStyle(film).transform).a);
    const whole = await zoom();
    for (let turns = 0; turns < 12 && (await zoom()) < 2; turns++) await bench.page.mouse.wheel(0, -120);
    await eventually(5, async () => expectThat((await zoom()) > whole * 1.5, 'the wheel brings nothing closer'));
    const left = new Map<string, readonly XY[]>([
      ['Scale marker', [film.marker.from, film.marker.to]],
      ['Ground line', [film.ground.from, film.ground.to]],
      ...Object.entries(film.landmarks).map(([name, at]) => [nameOfLandmark(name), [at]] as const),
    ]);
    const total = left.size;
    for (;;) {
      const name = await said();
      // A click on a proposed end of a line confirms both its ends: the other one is not asked for any more.
      if (name === 'All that is wanted is placed') break;
      const places = left.get(name);
      expectThat(
        places !== undefined,
        `the walk asks for “${name}”, which is placed already or is no landmark of the film`,
      );
      for (const place of places) await click(place);
      // Nobody has written the length of the marker yet: it is asked for, and none is assumed.
      if (name === 'Scale marker') {
        await pane.locator('.marker-length input:focus').waitFor();
        await bench.page.keyboard.type(String(film.marker.mm));
        await bench.page.keyboard.press('Enter');
      }
      left.delete(name);
      if (left.size === total - 6) await shot('half-way');
      await eventually(10, async () => expectThat((await said()) !== name, `“${name}” is still asked for`));
    }
    await eventually(10, async () => expectEqual(await said(), 'All that is wanted is placed', 'the end of the walk'));
    await bench.page.keyboard.press('0');
    await shot('done');
  });

  await checks.check('the measures are those of the true places, within the error of placing', 60, async () => {
    const true4 = (place: XY): string => place.map((value) => value.toFixed(4)).join(', ');
    const places = Object.entries(film.landmarks).map(([name, at]) => `    ${name} @ ${true4(at)}\n`);
    const text = `${header(film)}    scale ${film.marker.mm} mm = ${true4(film.marker.from)} .. ${true4(film.marker.to)}\n    ground ${true4(film.ground.from)} .. ${true4(film.ground.to)}\n${places.join('')}`;
    const wanted = measured(cli, text, workspace);
    expectThat(Object.keys(wanted).length > 30, 'the true places give fewer measures than there are');
    await eventually(20, async () => {
      const rows = await pane
        .locator('.live-measures tr')
        .evaluateAll((all) =>
          all.map(
            (row) => [row.getAttribute('data-measure') ?? '', row.querySelector('.value')?.textContent ?? ''] as const,
          ),
        );
      expectEqual(rows.map(([name]) => name).sort(), Object.keys(wanted).sort(), 'the measures in the table');
      for (const [name, shown] of rows) {
        const known = wanted[name];
        const value = Number(/-?\d+(\.\d+)?/.exec(shown.replace('\u2212', '-'))?.[0]);
        const room = (known?.sd ?? 0) + 0.06;
        expectThat(
          known !== undefined && Math.abs(value - known.value) <= room,
          `${name}: ${shown}, truly ${known?.value}`,
        );
      }
    });
  });

  const lines = async (): Promise<number> => Number(/^(\d+) of/.exec(await placedCount())?.[1] ?? Number.NaN);
  const placedCount = (): Promise<string> =>
    pane.locator('.walk-list').evaluate((list) => {
      const all = list.querySelectorAll('li').length;
      return `${list.querySelectorAll('li.is-placed').length} of ${all}`;
    });

  await checks.check('a drag is one step, and undo and redo are the editor’s own', 60, async () => {
    const all = await lines();
    const tip = film.landmarks['p3.tip'];
    expectThat(tip !== undefined, 'the film has no tip');
    const angle = (): Promise<string> =>
      pane.locator('.live-measures tr[data-measure="palmar-angle"] .value').innerText();
    const before = await angle();
    const from = await inWindow(tip);
    await bench.page.mouse.move(from.x, from.y);
    await bench.page.mouse.down();
    await bench.page.mouse.move(from.x + 14, from.y - 20, { steps: 6 });
    await shot('dragged');
    await bench.page.mouse.up();
    await eventually(10, async () =>
      expectThat((await angle()) !== before, 'the palmar angle stays as the tip is dragged'),
    );
    await bench.page.keyboard.press('Control+Z');
    await eventually(10, async () => expectEqual(await angle(), before, 'the palmar angle after undo'));
    await pane.getByRole('button', { name: 'Undo', exact: true }).click();
    await eventually(10, async () => expectEqual(await lines(), all - 1, 'what is placed after the last was undone'));
    await shot('undone');
    await pane.getByRole('button', { name: 'Redo', exact: true }).click();
    await eventually(10, async () => expectEqual(await lines(), all, 'what is placed after redo'));
    await pane.getByRole('button', { name: 'Undo', exact: true }).click();
    await eventually(10, async () => expectEqual(await lines(), all - 1, 'what is placed after undo'));
  });

  await checks.check('edges are found in the film’s own pixels', 60, async () => {
    // With something in the hand no place is looked for.
    await pane.getByRole('button', { name: 'Let go' }).click();
    await pane.getByRole('button', { name: 'Take the nearest edge' }).click();
    const tip = film.landmarks['p3.tip'];
    expectThat(tip !== undefined, 'the film has no tip');
    await eventually(10, async () => {
      const at = await inWindow(tip);
      await bench.page.mouse.move(at.x + 2, at.y + 3);
      await bench.page.mouse.move(at.x + 3, at.y + 3);
      expectEqual(await pane.locator('.stage-says').count(), 0, 'sentences that the pixels cannot be looked at');
      expectEqual(await pane.locator('.edge-found').getAttribute('hidden'), null, 'the mark of the edge is hidden');
    });
    await shot('edge');
    await pane.getByRole('button', { name: 'Take the nearest edge' }).click();
  });
}

/** What was placed stands in the file, where the folder is on the disk. */
export async function placedFileChecks(
  checks: Checks,
  bench: Workbench,
  cli: string,
  workspace: string,
): Promise<void> {
  const film = truth(workspace);
  const path = join(workspace, PLACING_CASE);
  await checks.check('the file is one that check accepts, laid out as format lays it out', 60, async () => {
    await bench.preview().getByRole('button', { name: 'Done' }).click();
    await bench.returnTo(PLACING_CASE);
    // The last step of the history may still be on its way into the text when the file is saved for the first time.
    await eventually(20, async () => {
      await bench.save(path, 'p3.tip');
      const rows = readFileSync(path, 'utf8')
        .split('\n')
        .filter((line) => line.includes('@'));
      expectEqual(rows.length, Object.keys(film.landmarks).length - 1, 'landmarks in the file');
    });
    const said = check(cli, path);
    const wrong = said.filter(({ code }) => /^(notation|record|frame|landmark|scale)\//.test(code));
    expectEqual(wrong, [], 'what check has to say of the writing');
    const laidOut = spawnSync(process.execPath, [cli, 'format', '--check', path], { encoding: 'utf8' });
    expectEqual(laidOut.status, 0, `format --check: ${laidOut.stdout}${laidOut.stderr}`);
  });
}

function check(cli: string, path: string): { code: string; message: string }[] {
  const told = spawnSync(process.execPath, [cli, 'check', '--format', 'json', path], { encoding: 'utf8' });
  return (JSON.parse(told.stdout) as { findings: { code: string; message: string }[] }).findings;
}

function measured(cli: string, text: string, workspace: string): Record<string, { value: number; sd: number }> {
  const path = join(workspace, TRUE_CASE);
  writeFileSync(path, text);
  const told = spawnSync(process.execPath, [cli, 'measure', '--format', 'json', path], { encoding: 'utf8' });
  const { cases } = JSON.parse(told.stdout) as {
    cases: { visits: { films: { readings: { measures: Record<string, { value: number; sd: number }> }[] }[] }[] }[];
  };
  return cases[0]?.visits[0]?.films[0]?.readings[0]?.measures ?? {};
}
