import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { inspect } from '../../shared/findings/inspect.ts';
import { courseSheet } from '../../shared/views/course-sheet.ts';
import type { HostMessage, PageState, SheetsMessage } from '../../src/messages/messages.ts';
import type { MockedPage } from '../bench/mocked-page.ts';
import { readingsMessage, sheetsMessage } from '../told-page.ts';
import { expectThat } from './checks.ts';
import { freshState } from '../../src/preview/fresh-state.ts';

/** What the page is told, made from a case as the language server makes it. */

export const URI = 'file:///case.hoof';

const SEVERAL = join(import.meta.dirname, '..', 'agreement', 'three-readers.hoof');

export const fresh: PageState = { ...freshState, uri: URI };

export interface Told {
  /** Without a cursor: the newest film. */
  readonly sheets: SheetsMessage;
  /** With the cursor in the first film, and in its plan; null where it has none. */
  readonly first: SheetsMessage;
  readonly plan: SheetsMessage | null;
  readonly course: HostMessage;
  /** Of a case of its own, which several have read. */
  readonly readings: HostMessage;
}

export function toldOf(text: string, caseName: string, hrefOf: (picture: string) => string): Told {
  const inspection = inspect(text);
  const { films } = sheetsMessage(inspection);
  const pictures = Object.fromEntries(
    films.map(({ picture }) => [picture, { kind: 'found' as const, href: hrefOf(picture) }]),
  );
  const rest = { uri: URI, caseName, pictures };
  const first = sheetsMessage(inspection, { ...rest, cursor: films[0]?.line ?? 0 });
  const plan = first.sheet?.cuts.find(({ kind }) => kind === 'plan');
  return {
    sheets: sheetsMessage(inspection, rest),
    first,
    plan: plan ? sheetsMessage(inspection, { ...rest, cursor: plan.line }) : null,
    course: { type: 'course', uri: URI, ...courseSheet(inspection) },
    readings: { ...readingsMessage(readFileSync(SEVERAL, 'utf8')), uri: URI },
  };
}

export const exampleOf = (examples: string, name: string): string => readFileSync(join(examples, name), 'utf8');

/** Gives the page its messages and waits until it has drawn them. */
export async function tell(page: Page, ...messages: readonly unknown[]): Promise<void> {
  await page.evaluate(async (all) => {
    for (const data of all) dispatchEvent(new MessageEvent('message', { data }));
    for (let frames = 0; frames < 3; frames++) await new Promise((next) => requestAnimationFrame(next));
  }, messages);
}

/** Opens the page in a state and tells it. */
export async function openIn(
  { page, open }: MockedPage,
  state: Partial<PageState>,
  ...messages: readonly unknown[]
): Promise<void> {
  await open({ ...fresh, ...state });
  await tell(page, ...messages);
  await page.locator('.plate svg, .stave svg').first().waitFor({ timeout: 110_000 });
  await page.waitForLoadState('networkidle');
}

/** What the page has told its host since it was opened. */
export const heard = (page: Page): Promise<readonly Record<string, unknown>[]> =>
  page.evaluate(() => (globalThis as unknown as { told: Record<string, unknown>[] }).told);

/** Everything that a page may not do: a broken rule, an error, a word to anywhere else. */
export function complaintsOf({ page, address }: MockedPage): { none(): void } {
  const complaints: string[] = [];
  page.on('console', (said) => {
    if (said.type() === 'error') complaints.push(said.text());
  });
  page.on('pageerror', (error) => complaints.push(String(error)));
  page.on('request', (request) => {
    const to = request.url();
    if (!to.startsWith(address) && !to.startsWith('blob:') && !to.startsWith('data:'))
      complaints.push(`asks for ${to}`);
  });
  return {
    none() {
      const all = complaints.splice(0);
      expectThat(all.length === 0, all.slice(0, 5).join('\n'));
    },
  };
}
