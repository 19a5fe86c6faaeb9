import { expectThat } from './checks.ts';
import { openIn, tell, type Told } from './pane.ts';
import type { MockedPage } from '../bench/mocked-page.ts';

/** Every view of the page, each as a way to it from a page that is loaded anew. */
export const views: Readonly<Record<string, (pane: MockedPage, told: Told) => Promise<void>>> = {
  film: (pane, { sheets }) => openIn(pane, {}, sheets),
  course: (pane, { sheets, course }) => openIn(pane, { view: 'course' }, sheets, course),
  agreement: (pane, { sheets, readings }) => openIn(pane, { view: 'agreement' }, sheets, readings),
  empty: (pane) => openIn(pane, {}, { type: 'nothing', says: 'Open a case file (.hoof): its films are shown here.' }),
  'plan laid over': async (pane, { plan }) => {
    expectThat(plan !== null, 'the example has no plan');
    await openIn(pane, {}, plan);
    await pane.page
      .locator('.plate-tools button[aria-pressed="true"]', { hasText: 'Plan' })
      .first()
      .waitFor({ timeout: 5000 });
  },
  'normal foot laid over': async (pane, { sheets }) => {
    await openIn(pane, { over: 'normal' }, sheets);
    expectThat((await pane.page.locator('.over-choice select').inputValue()) === 'normal', 'no foot is laid over');
  },
  trouble: async (pane, { sheets }) => {
    // Without a cursor the newest film shows.
    const { sheet } = sheets;
    const says = 'films/a.png is not there. Put the picture at that path, counted from the case file’s folder.';
    const pictures = { ...sheets.pictures, [sheet?.picture ?? '']: { kind: 'absent', says } };
    const trouble =
      'The numbers may be old: the language server gave no answer. Run “Ungula: Restart language server”.';
    await openIn(pane, {}, { ...sheets, pictures }, { type: 'trouble', says: trouble });
    await tell(pane.page);
    expectThat((await pane.page.locator('.trouble, .picture-says').count()) === 2, 'the trouble is not told');
  },
};
