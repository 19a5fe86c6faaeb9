import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { FilmSheet } from '../../shared/views/film-sheet.ts';
import type { SheetsMessage } from '../../src/messages/messages.ts';
import { mockedPage } from '../bench/mocked-page.ts';
import { expectEqual, expectThat, type Checks } from './checks.ts';
import { HOSTILE, hostileCase, withHostileTexts } from './hostile-texts.ts';
import { greyPng } from './made-pictures.ts';
import { complaintsOf, exampleOf, heard, openIn, tell, toldOf, URI } from './pane.ts';
import { scratchFolder, type UnderTest } from './under-test.ts';

/** Names that a file may have on Linux, each with something that an address or a page could stumble over. */
const NAMES = [
  'a"b.png',
  "a'b.png",
  '<b>a.png',
  'a&amp;b.png',
  '100%.png',
  '%2e%2e%2fa.png',
  'a#b.png',
  'a?b=c.png',
  'a\nb.png',
  'javascript:alert(1).png',
  '\u202Egnp.a.png',
  `${'long'.repeat(55)}.png`,
  ' a.png',
  '__proto__',
  'constructor',
];

/** A case of one film, as the page is told of it. */
function onlyFilm(sheet: FilmSheet): Pick<SheetsMessage, 'films' | 'sheet'> {
  return { films: [{ ...sheet, lines: [], cuts: [] }], sheet };
}

/** Nothing that a case or a picture holds does more on the page than show. */
export async function paneIsSafe(checks: Checks, { extension, examples, cli }: UnderTest): Promise<void> {
  const folder = scratchFolder('pane');
  mkdirSync(join(folder, 'films'));
  for (const name of NAMES) writeFileSync(join(folder, 'films', name), greyPng(60, 50));
  const made = await mockedPage(folder, null, { extension });
  const { page, address } = made;
  const complaints = complaintsOf(made);
  const juniper = exampleOf(examples, 'juniper.hoof');
  const hrefOf = (picture: string): string => `${address}/films/${encodeURIComponent(picture)}`;
  try {
    await checks.check('texts that would be markup, formulas or commands stay texts, in each view', 60, async () => {
      const { sheets, course } = toldOf(juniper, 'Juniper', () => hrefOf('100%.png'));
      const hostile = withHostileTexts(sheets);
      for (const view of ['film', 'course'] as const) {
        await openIn(made, { view, over: 'normal' }, hostile, withHostileTexts(course));
        const found = await page.evaluate(() => ({
          ran: 'ran' in globalThis,
          strange: [
            ...document.querySelectorAll('main :is(script, iframe, object, embed, a, form, foreignObject, b, link)'),
          ].length,
          handlers: [...document.querySelectorAll('main *')].flatMap((one) =>
            one.getAttributeNames().filter((name) => name.startsWith('on')),
          ),
          title: document.querySelector('h1')?.textContent,
        }));
        expectEqual(found, { ran: false, strange: 0, handlers: [], title: HOSTILE }, `what the ${view} holds`);
      }
      complaints.none();
    });

    await checks.check('a drawing and a table that are saved hold such texts as texts', 30, async () => {
      const { sheets, course } = toldOf(juniper, 'Juniper', () => hrefOf('100%.png'));
      await openIn(
        made,
        { view: 'course' },
        { ...withHostileTexts(sheets), caseName: `=${HOSTILE}` },
        withHostileTexts(course),
      );
      await page.locator('.save-row [data-take="svg"]').click();
      await page.getByRole('button', { name: 'Save numbers (CSV)' }).click();
      const saved = (await heard(page)).filter(({ type }) => type === 'save');
      const contentOf = (kind: string): string => String(saved.find((one) => one['kind'] === kind)?.['content']);
      complaints.none();
      const drawing = await page.evaluate((svg) => {
        // Its own style is for a page of its own; this page's rules would complain of it.
        const parsed = new DOMParser().parseFromString(svg.replace(/<style>[^<]*<\/style>/, ''), 'image/svg+xml');
        const all = [...parsed.querySelectorAll('*')];
        return {
          root: parsed.documentElement.localName,
          strange: all
            .map(({ localName }) => localName)
            .filter((name) => /^(?:script|foreignObject|a|iframe|b|img)$/.test(name)),
          handlers: all.flatMap((one) => one.getAttributeNames().filter((name) => /^on|href/i.test(name))),
          holds: parsed.documentElement.textContent?.includes('onerror') ?? false,
        };
      }, contentOf('svg'));
      expectEqual(drawing, { root: 'svg', strange: [], handlers: [], holds: true }, 'the drawing');
      const first = contentOf('csv').split('\r\n')[1] ?? '';
      expectThat(first.includes(`,"'=""><img`), `the first row is ${first.slice(0, 200)}`);
    });

    await checks.check('the report page shows a case full of such texts and runs none of them', 30, async () => {
      writeFileSync(join(folder, 'hostile.hoof'), hostileCase(juniper));
      const report = join(folder, 'report.html');
      execFileSync(process.execPath, [cli, 'report', join(folder, 'hostile.hoof'), '-o', report], { stdio: 'pipe' });
      const html = readFileSync(report, 'utf8');
      expectThat(html.includes('onerror'), 'the report does not hold the hostile texts');
      await page.goto(`${address}/report.html`);
      const found = await page.evaluate(() => ({
        ran: 'ran' in globalThis,
        strange: [
          ...document.querySelectorAll('body :is(script, iframe, object, embed, form, foreignObject, img[onerror])'),
        ].length,
      }));
      expectEqual(found, { ran: false, strange: 0 }, 'what the report holds');
      complaints.none();
    });

    await checks.check('the page’s rules stop what is put into it all the same', 30, async () => {
      const own = await mockedPage(folder, null, { extension });
      try {
        await tell(own.page, { type: 'nothing', says: 'x' });
        const stopped = await own.page.evaluate(async () => {
          const broken = new Set<string>();
          document.addEventListener('securitypolicyviolation', ({ effectiveDirective }) =>
            broken.add(effectiveDirective),
          );
          const script = document.createElement('script');
          script.textContent = 'window.ran = true';
          const frame = document.createElement('iframe');
          frame.src = 'https://example.invalid/';
          const holder = document.createElement('div');
          holder.innerHTML =
            '<img src="x" onerror="window.ran = true"><img src="https://example.invalid/a.png"><p style="color: red">';
          document.body.append(script, frame, holder);
          await fetch('https://example.invalid/').catch(() => undefined);
          await new Promise((soon) => setTimeout(soon, 300));
          return { broken: [...broken].sort(), ran: 'ran' in globalThis };
        });
        expectEqual(
          stopped,
          {
            broken: ['connect-src', 'frame-src', 'img-src', 'script-src-attr', 'script-src-elem', 'style-src-attr'],
            ran: false,
          },
          'what was stopped',
        );
      } finally {
        await own.close();
      }
    });

    await checks.check('pictures with strange names show', 60, async () => {
      const { sheets } = toldOf(juniper, 'Juniper', hrefOf);
      const { sheet } = sheets;
      expectThat(sheet !== null, 'the example has no film');
      for (const name of NAMES) {
        // By entries: `__proto__` in a literal is something else.
        const pictures = Object.fromEntries([[name, { kind: 'found', href: hrefOf(name) }]]);
        await openIn(made, {}, { ...sheets, ...onlyFilm({ ...sheet, picture: name }), visits: [], pictures });
        // zod leaves this one name out, so that no picture is known for it.
        const shown = name === '__proto__' ? 0 : 1;
        expectEqual(await page.locator('.plate svg image').count(), shown, JSON.stringify(name));
        if (shown === 1)
          expectEqual(await page.locator('.plate svg image').getAttribute('href'), hrefOf(name), 'its address');
      }
      complaints.none();
    });

    await checks.check('a text of a million letters neither halts nor widens the page', 60, async () => {
      const long = 'Juniper<'.repeat(125_000);
      const { sheets, course } = toldOf(juniper, long, () => hrefOf('100%.png'));
      const { sheet } = sheets;
      expectThat(sheet !== null, 'the example has no film');
      const notes = [{ severity: 'error', code: 'a/b', message: long, line: 3 } as const];
      const grown = {
        ...sheets,
        ...onlyFilm({ ...sheet, title: long, reader: long, notes }),
        visits: sheets.visits.map((visit) => ({ ...visit, title: long, comfort: null, weight: null, done: [long] })),
      };
      for (const view of ['film', 'course'] as const) {
        await openIn(made, { view }, grown, course);
        const { wide, high } = await page.evaluate(() => ({
          wide: document.documentElement.scrollWidth - innerWidth,
          high: document.documentElement.scrollHeight,
        }));
        expectThat(wide <= 0, `the ${view} is ${wide} pixels too wide`);
        expectThat(high < 30_000, `the ${view} is ${high} pixels high`);
      }
      complaints.none();
    });

    await checks.check('a picture of 100 million pixels shows; what is broken is told in words', 60, async () => {
      const film = readFileSync(join(examples, 'films', 'juniper-lf-2026-03-03.png'));
      const files: readonly (readonly [string, Uint8Array, boolean])[] = [
        ['huge.png', greyPng(10_000, 10_000), true],
        ['cut.png', film.subarray(0, film.length / 2), true],
        ['bomb.png', greyPng(50_000, 50_000, 1, 20), false],
        ['text.png', Buffer.from('This is a letter.'), false],
        ['empty.png', new Uint8Array(), false],
        ['header.png', film.subarray(0, 40), false],
        ['text.jpg', Buffer.from([0xff, 0xd8, 0xff, 0xe0, 0, 4, 0, 0]), false],
      ];
      const { sheets } = toldOf(juniper, 'Juniper', hrefOf);
      const { sheet } = sheets;
      expectThat(sheet !== null, 'the example has no film');
      for (const [name, bytes, shows] of files) {
        writeFileSync(join(folder, 'films', name), bytes);
        const pictures = { [name]: { kind: 'found', href: hrefOf(name) } };
        await openIn(made, {}, { ...sheets, ...onlyFilm({ ...sheet, picture: name }), visits: [], pictures });
        await page
          .locator(shows ? '.plate svg image' : '.picture-says')
          .first()
          .waitFor({ timeout: 15_000 });
        if (!shows) {
          expectEqual(await page.locator('.plate svg image').count(), 0, `pictures of ${name}`);
          const says = await page.locator('.picture-says').innerText();
          expectThat(says.includes(name) && says.includes('Save it again'), `of ${name} it says ${says}`);
        }
        // The page still answers a person.
        await page.locator('.layers summary').click();
        const toggle = page.locator('.layer-menu button').first();
        await toggle.click();
        expectEqual(await toggle.getAttribute('aria-pressed'), 'false', 'the toggle');
      }
      complaints.none();
    });

    await checks.check(
      'the page believes no message of another shape, and says so where it cannot read a case',
      30,
      async () => {
        const { sheets } = toldOf(juniper, 'Juniper', () => hrefOf('100%.png'));
        await openIn(made, {}, sheets);
        const before = await page.locator('main').innerHTML();
        await tell(page, null, 7, 'sheets', { kind: 'sheets' }, [sheets]);
        expectEqual(await page.locator('main').innerHTML(), before, 'the page after strange messages');
        await tell(page, { ...sheets, sheet: { ...sheets.sheet, rows: 'none' } });
        expectThat((await page.locator('.trouble').innerText()).includes('could not be read'), 'nothing is said');
        expectThat(
          (await heard(page)).every((one) => one['uri'] === undefined || one['uri'] === URI),
          'another file is named',
        );
      },
    );
  } finally {
    await made.close();
  }
}
