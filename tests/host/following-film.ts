import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { FrameLocator, Page } from 'playwright-core';
import type { Truth } from '../../examples/drawn/truth.ts';
import { nameOfLandmark } from '../../shared/views/landmark-names.ts';
import type { Workbench } from './browser.ts';
import { type Checks, eventually, expectEqual, expectThat, type Outcome } from './checks.ts';
import { inCodeServer, SHOTS } from './in-code-server.ts';
import { placeInWindow } from './place-in-window.ts';
import type { SetUp } from './setup.ts';
import { scratchFolder, type UnderTest } from './under-test.ts';

/** Clicks and keys on the film for all its landmarks, of which by hand alone there are 27, two of them lines. */
const mostPresses = 20;

type XY = readonly [number, number];
type Measures = Readonly<Record<string, { readonly value: number; readonly sd: number }>>;

/** The second film of a rotated foot is placed with the help of the first, in a real editor, by mouse and keys. */
export function runFollowingFilm(subject: UnderTest, setUp: () => Promise<SetUp>): Promise<Outcome> {
  let film: Truth;
  return inCodeServer(
    {
      name: 'a following film',
      workspace() {
        const folder = scratchFolder('following');
        film = secondFilm(subject.examples, folder);
        return folder;
      },
      async work(bench, checks, workspace) {
        await bench.page.setViewportSize({ width: 1280, height: 800 });
        await new FollowingFilm(checks, bench, subject.cli, workspace, film).walk();
      },
    },
    subject,
    setUp,
  );
}

const CASE = 'following.hoof';

/** A case of which the first film is placed, and the second has nothing but its header. */
function secondFilm(examples: string, workspace: string): Truth {
  const lines = readFileSync(join(examples, 'juniper.hoof'), 'utf8').split('\n');
  const headers = lines.flatMap((line, at) => (/^ {2}film LF lateral/.test(line) ? [at] : []));
  const [, second] = headers;
  if (second === undefined) throw new Error('the example has one film only');
  writeFileSync(join(workspace, CASE), `${lines.slice(0, second + 1).join('\n')}\n`);
  const { films } = JSON.parse(readFileSync(join(examples, 'drawn', 'truth.json'), 'utf8')) as { films: Truth[] };
  for (const at of headers.slice(0, 2)) {
    const file = /"(.*)"/.exec(lines[at] ?? '')?.[1] ?? '';
    mkdirSync(dirname(join(workspace, file)), { recursive: true });
    copyFileSync(join(examples, file), join(workspace, file));
  }
  const film = films.find(({ file }) => lines[second]?.includes(file));
  if (!film) throw new Error('nobody knows the truth of the second film');
  return film;
}

class FollowingFilm {
  readonly #checks: Checks;
  readonly #bench: Workbench;
  readonly #page: Page;
  readonly #pane: FrameLocator;
  readonly #cli: string;
  readonly #workspace: string;
  readonly #film: Truth;
  #presses = 0;

  constructor(checks: Checks, bench: Workbench, cli: string, workspace: string, film: Truth) {
    this.#checks = checks;
    this.#bench = bench;
    this.#page = bench.page;
    this.#pane = bench.preview();
    this.#cli = cli;
    this.#workspace = workspace;
    this.#film = film;
  }

  async walk(): Promise<void> {
    const { landmarks, marker, ground } = this.#film;
    // Each step stands on the one before.
    const check: Checks['check'] = async (name, limit, body) => {
      if (this.#checks.outcome.failed === 0) await this.#checks.check(name, limit, body);
    };

    await check('the second film is opened for placing, and the length of the marker is known', 120, async () => {
      await this.#bench.openFile(CASE);
      await this.#bench.runCommand('Ungula: Open preview');
      await this.#pane.locator('.plate svg image').first().waitFor({ timeout: 60_000 });
      await this.#bench.returnTo(CASE);
      await this.#bench.goTo(readFileSync(join(this.#workspace, CASE), 'utf8').split('\n').length - 1, 3);
      await this.#pane
        .getByText(/lateral film, 2026-0[34]-\d\d/)
        .first()
        .waitFor();
      await this.#pane.getByRole('button', { name: 'Place landmarks' }).click({ timeout: 30_000 });
      await eventually(20, async () => expectEqual(await this.#said(), 'Scale marker', 'the first thing to place'));
      await this.#pane.locator('.wanted > summary').click();
      await this.#pane.getByRole('button', { name: 'Rotation and sole' }).click();
      await this.#pane.getByRole('button', { name: 'Everything lateral' }).click();
      await this.#pane.locator('.wanted > summary').click();
      // Whoever has placed the film before has said it once; it is kept for the next one.
      await this.#pane.locator('.marker-length input').fill(String(marker.mm));
      await this.#page.keyboard.press('Enter');
    });

    await check('marker, ground and both ends of the bone are placed, and the rest is proposed', 120, async () => {
      for (const place of [marker.from, marker.to, ground.from, ground.to]) await this.#click(place);
      for (const name of ['p3.tip', 'p3.wing']) {
        await eventually(20, async () => expectEqual(await this.#said(), nameOfLandmark(name), 'what is asked for'));
        await this.#click(this.#placeOf(name));
      }
      await eventually(60, async () => expectThat((await this.#ghosts().count()) > 15, 'too few places are proposed'));
      // Measures that rest on nothing but what is placed have a value, and no other.
      const valued = await this.#pane
        .locator('.live-measures tr')
        .evaluateAll((rows) =>
          rows.flatMap((row) =>
            /\d/.test(row.querySelector('.value')?.textContent ?? '') ? [row.getAttribute('data-measure')] : [],
          ),
        );
      expectEqual([...valued].sort(), ['p3-length', 'palmar-angle'], 'measures that have a value');
      await this.#shot('proposed');
    });

    await check(`all its landmarks stand after ${mostPresses} presses`, 180, async () => {
      await this.#key('c');
      for (;;) {
        const name = await this.#said();
        if (name === 'All that is wanted is placed') break;
        const at = Object.entries(landmarks).find(([word]) => nameOfLandmark(word) === name)?.[1];
        expectThat(at !== undefined, `the walk asks for “${name}”`);
        if ((await this.#pane.locator('[data-ghost].is-asked').count()) > 0) await this.#key('Enter');
        else await this.#click(at);
        await eventually(20, async () => expectThat((await this.#said()) !== name, `“${name}” is still asked for`));
      }
      console.log(`        placed after ${this.#presses} presses`);
      expectThat(this.#presses <= mostPresses, `${this.#presses} presses`);
      await this.#shot('placed');
    });

    await check(
      'its measures lie within their standard deviations of the truth, and the text says how it was placed',
      60,
      async () => {
        await this.#pane.getByRole('button', { name: 'Done' }).click();
        await this.#bench.returnTo(CASE);
        await this.#page.keyboard.press('Control+S');
        const path = join(this.#workspace, CASE);
        const ownOf = (text: string): string => text.slice(text.lastIndexOf('film LF'));
        await eventually(20, () =>
          expectThat(ownOf(readFileSync(path, 'utf8')).includes('sole.heel'), 'the file lacks what was placed last'),
        );
        const text = readFileSync(path, 'utf8');
        const own = ownOf(text);
        expectThat((own.match(/ followed$/gm) ?? []).length >= 18, own);
        expectThat(/^ +p3\.tip +@[^+]*$/m.test(own), 'a place by hand says that it was followed');
        const [found, truth] = [this.#measures(text), this.#measures(this.#trueText())];
        expectThat(Object.keys(found).length > 30, `${Object.keys(found).length} measures`);
        const off = Object.entries(found).filter(
          ([name, { value, sd }]) => !(Math.abs(value - (truth[name]?.value ?? Number.NaN)) <= sd),
        );
        expectEqual(off, [], 'measures further from the truth than their standard deviation');
      },
    );
  }

  #placeOf(name: string): XY {
    const at = this.#film.landmarks[name];
    if (!at) throw new Error(`the film has no ${name}`);
    return at;
  }

  #said(): Promise<string> {
    return this.#pane.locator('.walk-card h2').innerText();
  }

  #ghosts() {
    return this.#pane.locator('[data-ghost]');
  }

  async #key(key: string): Promise<void> {
    await this.#page.keyboard.press(key);
    this.#presses++;
  }

  async #click(place: XY): Promise<void> {
    const { x, y } = await placeInWindow(this.#pane, place);
    await this.#page.mouse.click(x, y);
    this.#presses++;
  }

  /** The same film with everything where it truly lies. */
  #trueText(): string {
    const { foot, file, taken, marker, ground, landmarks } = this.#film;
    const exact = (place: XY): string => place.map((value) => value.toFixed(4)).join(', ');
    const lines = [
      `scale ${marker.mm} mm = ${exact(marker.from)} .. ${exact(marker.to)}`,
      `ground ${exact(ground.from)} .. ${exact(ground.to)}`,
      ...Object.entries(landmarks).map(([name, at]) => `${name} @ ${exact(at)}`),
    ];
    return `hoof 1\n\nvisit ${taken}\n  film ${foot} lateral "${file}"\n${lines.map((one) => `    ${one}\n`).join('')}`;
  }

  /** Of the last film. */
  #measures(text: string): Measures {
    const path = join(this.#workspace, 'measured.hoof');
    writeFileSync(path, text);
    const told = spawnSync(process.execPath, [this.#cli, 'measure', '--format', 'json', path], { encoding: 'utf8' });
    const { cases } = JSON.parse(told.stdout) as {
      cases: { visits: { films: { readings: { measures: Measures }[] }[] }[] }[];
    };
    return cases[0]?.visits.flatMap(({ films }) => films).at(-1)?.readings[0]?.measures ?? {};
  }

  async #shot(what: string): Promise<void> {
    await this.#page.screenshot({ path: join(SHOTS, `following-${what}.png`) });
  }
}
