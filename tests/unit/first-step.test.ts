import { h } from 'preact';
import { renderToString } from 'preact-render-to-string';
import { expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import type { HostMessage, PageMessage } from '../../src/messages/messages.ts';
import { freshState } from '../../src/preview/fresh-state.ts';
import { PageModel } from '../../src/preview/page-model.ts';
import { Page } from '../../src/preview/page.tsx';
import { sheetsMessage } from '../told-page.ts';

function pageWith(news: HostMessage) {
  const told: PageMessage[] = [];
  const model = new PageModel(freshState, { tell: (one) => told.push(one), keep: () => {}, changed: () => {} });
  model.heard(news);
  const html = renderToString(h(Page, { placing: model.placing, shown: model.shown, sheet: null, found: null }));
  return { model, told, html };
}

it('a page without a case offers a new one, a case without a film a visit of today; a button each', () => {
  const none = pageWith({ type: 'nothing', says: 'Open a case file (.hoof): its films are shown here.' });
  expect(none.html).toMatch(/<button[^>]*>New case<\/button>/);
  const empty = pageWith(sheetsMessage(inspect('hoof 1\n\ncase "A"\n')));
  expect(empty.html).toMatch(/<button[^>]*>Add a visit of today with its film<\/button>/);
  empty.model.firstStep('add visit');
  expect(empty.told).toContainEqual({ type: 'begin', what: 'add visit' });
});
