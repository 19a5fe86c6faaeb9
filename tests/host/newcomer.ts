import { copyFileSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { FrameLocator, Page } from 'playwright-core';
import type { Truth } from '../../examples/drawn/truth.ts';
import { nameOfLandmark } from '../../shared/views/landmark-names.ts';
import type { Workbench } from './browser.ts';
import { type Checks, eventually, expectEqual, expectThat, type Outcome } from './checks.ts';
import { expectedFor } from './expected.ts';
import { inCodeServer, SHOTS } from './in-code-server.ts';
import { placeInWindow } from './place-in-window.ts';
import type { SetUp } from './setup.ts';
import { showsValue } from './ui-checks.ts';
import { scratchFolder, type UnderTest } from './under-test.ts';

/** Aimed at, from an empty folder to the first number that answers something: the palmar angle. */
const mostPresses = 40;

type XY = readonly [number, number];

/**
 * Somebody who has never seen it, from a folder with two pictures to a case with a course: own case, picture, landmarks, plan,
 * the owner's page, a second visit. Counts keys and clicks; the times are printed and fail nothing. The hand knows where the
 * landmarks lie, as the films are drawn; a person looks for them.
 */
export function runNewcomer(subject: UnderTest, setUp: () => Promise<SetUp>): Promise<Outcome> {
  const { films } = JSON.parse(readFileSync(join(subject.examples, 'drawn', 'truth.json'), 'utf8')) as {
    films: Truth[];
  };
  const [first, second] = films.filter(({ file }) => file.includes('juniper-lf'));
  if (!first || !second) throw new Error('the examples have no two films of one foot');
  return inCodeServer(
    {
      name: 'a newcomer',
      workspace() {
        const folder = scratchFolder('newcomer');
        copyFileSync(join(subject.examples, first.file), join(folder, 'first.png'));
        copyFileSync(join(subject.examples, second.file), join(folder, 'second.png'));
        return folder;
      },
      async work(bench, checks, workspace) {
        await bench.page.setViewportSize({ width: 1280, height: 800 });
        await new Newcomer(checks, bench, subject.cli, workspace).walk(first, second);
      },
    },
    subject,
    setUp,
  );
}

class Newcomer {
  readonly #checks: Checks;
  readonly #bench: Workbench;
  readonly #page: Page;
  readonly #pane: FrameLocator;
  readonly #cli: string;
  readonly #workspace: string;
  readonly #file: string;
  readonly #began = Date.now();
  #presses = 0;

  constructor(checks: Checks, bench: Workbench, cli: string, workspace: string) {
    this.#checks = checks;
    this.#bench = bench;
    this.#page = bench.page;
    this.#pane = bench.preview();
    this.#cli = cli;
    this.#workspace = workspace;
    this.#file = join(workspace, 'fern.hoof');
  }

  async walk(first: Truth, second: Truth): Promise<void> {
    // Each step stands on the one before.
    const check: Checks['check'] = async (name, limit, body) => {
      if (this.#checks.outcome.failed === 0) await this.#checks.check(name, limit, body);
    };
    await check('an own case is made by a command, with its picture and the preview beside', 120, async () => {
      await this.#command('new case');
      await this.#asked('What is the animal called');
      await this.#type('Fern');
      await this.#key('Enter');
      await this.#asked('What kind of animal');
      await this.#key('Enter');
      await this.#filmIs('first.png');
      await this.#pane.locator('.plate svg image').first().waitFor({ timeout: 60_000 });
      expectEqual(
        readFileSync(this.#file, 'utf8').replace(/visit \S+/, 'visit DAY'),
        'hoof 1\n\ncase "Fern"\n  animal    horse\n\nvisit DAY "first visit"\n\n  film LF lateral "first.png"\n',
        'the case',
      );
      await this.#told('an own case');
    });

    await check(`the first number is there within ${mostPresses} presses`, 120, async () => {
      await this.#button('Place landmarks');
      await this.#place(first, (name) => name === 'Wing of the pedal bone');
      const angle = this.#pane.locator('.live-measures tr[data-measure="palmar-angle"] .value');
      await eventually(20, async () => expectThat(/\d/.test(await angle.innerText()), 'there is no palmar angle'));
      expectThat(this.#presses <= mostPresses, `${this.#presses} presses`);
      await this.#told('the first number');
    });

    await check('all that was wanted is placed, and what a plan needs', 120, async () => {
      await this.#place(first, () => false);
      await this.#button(/what a plan needs/);
      await this.#place(first, () => false);
      await this.#button('Done');
      await this.#told('all landmarks for a plan');
    });

    await check('a plan is offered, written and accepted by check', 120, async () => {
      await this.#bench.returnTo('fern.hoof');
      await this.#bench.goTo(6, 30);
      await this.#key('End');
      await this.#key('Enter');
      await this.#type('obel 1');
      await this.#key('Enter');
      // With its closing quote: the editor adds one only once it has coloured the line, and then types over it.
      await this.#type('vet "agrees"');
      await this.#save('vet "agrees"\n');
      const film = readFileSync(this.#file, 'utf8')
        .split('\n')
        .findIndex((line) => line.includes('film LF'));
      await this.#bench.goTo(film + 1, 4);
      await this.#bench.runCommand('Refactor...');
      // By mouse, as an Enter that comes before the list has the focus is lost.
      await this.#page
        .locator('.action-widget .monaco-list-row', { hasText: 'heel to the live sole plane' })
        .first()
        .click({ timeout: 30_000 });
      this.#presses++;
      await eventually(20, async () => expectThat(/plan LF/.test(await this.#text()), 'no plan stands in the text'));
      await this.#save('plan LF');
      const [file] = expectedFor(this.#cli, this.#workspace);
      const broken = (file?.findings ?? []).filter(
        ({ severity, code }) => severity === 'error' || (code.startsWith('trim/') && severity === 'warning'),
      );
      expectEqual(broken, [], 'what check says of the plan');
      await this.#told('a plan');
    });

    await check('the owner’s page shows the foot with what goes', 120, async () => {
      await this.#command('page to hand over');
      await this.#asked('Whom is the page for');
      await this.#key('Enter');
      const page = this.#page.frameLocator('iframe.webview.ready').last().frameLocator('#active-frame');
      await eventually(30, async () =>
        expectThat(/For the owner/.test(await page.locator('body').innerText()), 'no page for the owner'),
      );
      await this.#told('the owner’s page');
    });

    await check('four weeks later a visit is added with the next film, and the course shows both', 240, async () => {
      await this.#bench.returnTo('fern.hoof');
      this.#fourWeeksPass();
      await eventually(20, async () =>
        expectThat(
          !(await this.#text()).includes(`visit ${today()}`),
          'the editor still shows the first visit as today’s',
        ),
      );
      await this.#command('add a visit');
      await this.#filmIs('second.png');
      await eventually(20, async () =>
        expectThat(/second\.png/.test(await this.#text()), 'no second film in the text'),
      );
      await this.#save('second.png');
      await this.#page.locator('.tab', { hasText: 'Preview fern.hoof' }).first().click();
      await this.#button('Place landmarks');
      await this.#place(second, () => false);
      await this.#button('Done');
      await this.#bench.returnTo('fern.hoof');
      const tips = (): number => readFileSync(this.#file, 'utf8').match(/p3\.wing +@/g)?.length ?? 0;
      await this.#key('Control+S');
      await eventually(20, () => expectEqual(tips(), 2, 'films with landmarks in the file'));
      const [file] = expectedFor(this.#cli, this.#workspace);
      const angles = file?.palmarAngles ?? [];
      expectEqual(angles.length, 2, 'films with a palmar angle');
      await this.#page.locator('.tab', { hasText: 'Preview fern.hoof' }).first().click();
      await this.#button('Course');
      const course = this.#pane.locator('.course');
      await eventually(20, async () => {
        const words = await course.innerText();
        for (const { value } of angles)
          expectThat(
            words.split(/[\n\t]/).some((piece) => showsValue(piece, value)),
            `the course does not show ${value}`,
          );
      });
      await this.#told('a course of two visits');
    });
  }

  /** The landmarks that the walk asks for, one after the other, where they truly lie, until `ends` after one of them. */
  async #place(film: Truth, ends: (name: string) => boolean): Promise<void> {
    const places = new Map<string, readonly XY[]>([
      ['Scale marker', [film.marker.from, film.marker.to]],
      ['Ground line', [film.ground.from, film.ground.to]],
      ...Object.entries(film.landmarks).map(([name, at]) => [nameOfLandmark(name), [at]] as const),
    ]);
    const said = (): Promise<string> => this.#pane.locator('.walk-card h2').innerText();
    await this.#pane.locator('.walk-card h2').waitFor();
    for (;;) {
      const name = await said();
      const at = places.get(name);
      if (!at) {
        expectEqual(name, 'All that is wanted is placed', 'what the walk asks for');
        return;
      }
      for (const place of at) await this.#click(place);
      if (name === 'Scale marker' && (await this.#asksForLength())) {
        await this.#type(String(film.marker.mm));
        await this.#key('Enter');
      }
      await eventually(20, async () => expectThat((await said()) !== name, `“${name}” is still asked for`));
      if (ends(name)) return;
    }
  }

  /** Asked once; the next film takes the length that was kept. */
  async #asksForLength(): Promise<boolean> {
    const input = this.#pane.locator('.marker-length input:focus');
    return eventually(5, async () => {
      const isNext = (await this.#pane.locator('.walk-card h2').innerText()) !== 'Scale marker';
      if (isNext) return false;
      if ((await input.count()) === 1) return true;
      throw new Error('neither is the length asked for nor the next thing');
    });
  }

  async #click(place: XY): Promise<void> {
    const { x, y } = await placeInWindow(this.#pane, place);
    await this.#page.mouse.click(x, y);
    this.#presses++;
  }

  async #filmIs(picture: string): Promise<void> {
    await this.#asked('Which foot does the lateral film show');
    await this.#key('Enter');
    await this.#page
      .locator('.quick-input-list .monaco-list-row', { hasText: picture })
      .first()
      .click({ timeout: 30_000 });
    this.#presses++;
  }

  /** From the palette. A workbench that has only just opened does not know the command yet: then once more, and counted once. */
  async #command(words: string): Promise<void> {
    const before = this.#presses;
    await eventually(60, async () => {
      this.#presses = before;
      await this.#key('F1');
      await this.#page.locator('.quick-input-widget input:focus').first().waitFor();
      await this.#type(words);
      try {
        await this.#page
          .locator('.quick-input-list .monaco-list-row.focused', { hasText: 'Ungula' })
          .first()
          .waitFor({ timeout: 5000 });
      } catch (error) {
        await this.#page.keyboard.press('Escape');
        throw error;
      }
    });
    await this.#key('Enter');
  }

  /** What a box of the editor asks; its words stand in it as a place holder or below it. */
  async #asked(words: string): Promise<void> {
    const said = [`input[placeholder*="${words}"]`, `.quick-input-message:has-text("${words}")`].join(', ');
    await this.#page.locator('.quick-input-widget').locator(said).first().waitFor({ timeout: 60_000 });
  }

  async #button(name: string | RegExp): Promise<void> {
    await this.#pane.getByRole('button', { name }).first().click({ timeout: 30_000 });
    this.#presses++;
  }

  async #key(key: string): Promise<void> {
    await this.#page.keyboard.press(key);
    this.#presses++;
  }

  async #type(text: string): Promise<void> {
    await this.#page.keyboard.type(text, { delay: 20 });
    this.#presses += text.length;
  }

  /** Once the file on the disk has what was written. */
  async #save(written: string): Promise<void> {
    await this.#key('Control+S');
    await eventually(20, () =>
      expectThat(readFileSync(this.#file, 'utf8').includes(written), `no ${written} in the file`),
    );
  }

  async #text(): Promise<string> {
    return this.#bench.shownText();
  }

  /** On the disk, as no test can wait for it: what was today's visit is one of four weeks ago. */
  #fourWeeksPass(): void {
    const ago = new Date(Date.now() - 28 * 86_400_000);
    writeFileSync(this.#file, readFileSync(this.#file, 'utf8').replace(`visit ${today()}`, `visit ${day(ago)}`));
  }

  async #told(what: string): Promise<void> {
    const seconds = (Date.now() - this.#began) / 1000;
    console.log(`        ${what}: after ${this.#presses} presses, ${seconds.toFixed(0)} s`);
    await this.#page.screenshot({ path: join(SHOTS, `newcomer-${what.replaceAll(/\W+/g, '-')}.png`) });
  }
}

const day = (date: Date): string =>
  `${date.getFullYear()}-${String(date.getMonth() + 1).padStart(2, '0')}-${String(date.getDate()).padStart(2, '0')}`;
const today = (): string => day(new Date());
