import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { useWords } from '../../shared/language/words.ts';
import { mockedPage } from '../bench/mocked-page.ts';
import { expectEqual, expectThat, type Checks } from './checks.ts';
import { exampleOf, toldOf } from './pane.ts';
import { views } from './pane-views.ts';
import { ROOT, type UnderTest } from './under-test.ts';

/** What the case says in its own words, and what only a drawing says. */
const NOT_OURS = [
  'svg *',
  'h1',
  '.picture-says',
  '.trouble',
  '.strip .visit',
  '.visit-told .aside',
  '.films .date',
  // The films of the case.
  '.over-choice option:nth-child(n + 3)',
  // Whose values they are, as it is cited.
  '.sources dd',
  // Names of landmarks in the notation.
  'dt',
].join(', ');

/** With a made-up language in which every sentence stands in double brackets, nothing of the page's own stays English. */
export async function paneIsTranslated(checks: Checks, { extension, examples }: UnderTest): Promise<void> {
  const english = JSON.parse(readFileSync(join(ROOT, 'l10n', 'bundle.l10n.json'), 'utf8')) as Record<string, string>;
  const words = Object.fromEntries(Object.keys(english).map((key) => [key, `[[${key}]]`]));
  const pane = await mockedPage(examples, null, { extension, words, size: { width: 1100, height: 900 } });
  const { page } = pane;
  // What the server says comes in the same language.
  useWords(words);
  const told = toldOf(exampleOf(examples, 'juniper.hoof'), 'Juniper', (picture) => `/${picture}`);
  useWords(undefined);
  try {
    for (const [view, open] of Object.entries(views))
      await checks.check(`${view}: in a made-up language every word of the page is in that language`, 60, async () => {
        await open(pane, told);
        const { left, seen } = await page.evaluate((notOurs) => {
          const left = new Set<string>();
          let seen = 0;
          const look = (text: string | null, of: Element): void => {
            if (!text || !/\p{L}{2}/u.test(text.replaceAll(/\bmm\b/g, '')) || of.closest(notOurs)) return;
            // Behind our word for it stands the cut as shared/ tells it.
            if (of.matches('.cut h3')) return;
            // A value, a day, a name may stand beside the words; a piece without any brackets is all English.
            if (text.includes('[[') || text.includes(']]')) seen++;
            else left.add(text.trim().slice(0, 80));
          };
          const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
          for (let node = texts.nextNode(); node; node = texts.nextNode())
            if (node.parentElement && !node.parentElement.closest('script')) look(node.textContent, node.parentElement);
          for (const one of document.querySelectorAll('[aria-label], [aria-description]'))
            if (!one.closest('svg'))
              for (const name of ['aria-label', 'aria-description']) look(one.getAttribute(name), one);
          return { left: [...left], seen };
        }, NOT_OURS);
        expectEqual(left, [], 'what stays English');
        expectThat(seen >= (view === 'empty' ? 1 : 15), `only ${seen} words were seen`);
      });
  } finally {
    await pane.close();
  }
}
