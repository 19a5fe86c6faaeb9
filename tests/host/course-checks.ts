import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { eventually, expectEqual, expectThat } from './checks.ts';
import { lastPart, showsValue, type Ui } from './ui-checks.ts';

/** The example with a course. */
const PICTURED = 'juniper.hoof';

/** Across visits: the numbers of the command line, a visit as a way into the text, and back to the film. */
export async function courseShows({ checks, bench, expected, shots }: Ui, cli: string): Promise<void> {
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
        showsValue(/[\u2212+-]?\d+\.\d°\s+(?:clear|within)/.exec(text)?.[0] ?? '', last.difference) &&
          text.includes(last.real ? 'clear' : 'within the error'),
        `the row reads ${JSON.stringify(text)}, the last change is ${last.difference}, real: ${last.real}`,
      );
      expectEqual(await preview.locator('.every-film tbody tr').count(), wanted.n, 'rows of films');
    });
    await bench.screenshot(join(shots, 'course.png'));
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
