import { counted, t } from '../../language/words.ts';
import { WHOLE_INK_CSS } from '../../drawing/whole-ink.css.ts';
import { escaped } from '../../drawing/svg.ts';
import { htmlDocument } from '../html-document.ts';
import type { Inspection } from '../../findings/inspect.ts';
import { sayDate } from '../../findings/wording/say-day.ts';
import { list } from '../../findings/wording/wording.ts';
import { openAlarms, type OpenAlarm } from '../../findings/open-alarms.ts';
import type { ReportPicture } from '../page.ts';
import { unreadLines } from '../../views/unread-lines.ts';
import { pagesCss } from './pages.css.ts';
import { unnamed, whoIsNamed, type Unnamed } from './unnamed.ts';

/** Whom a page is for. */
export const pageReaders = ['owner', 'vet', 'yard'] as const;
export type PageReader = (typeof pageReaders)[number];

/** What a page is made of. */
export interface HandedCase {
  readonly inspection: Inspection;
  /** By path as written in the case; only those that the page shows are looked for. */
  readonly pictures: ReadonlyMap<string, ReportPicture>;
  /** The day on which it is handed over, YYYY-MM-DD: plans and films are as old as they are on it. */
  readonly date: string;
  /** Whether it is to say who and where: vet, farrier, who wrote, chip. */
  readonly names: boolean;
}

/** The same with what every page asks for. */
export interface PageOf extends HandedCase {
  readonly unnamed: Unnamed;
  readonly alarms: readonly OpenAlarm[];
  /** What the animal is called on the page. */
  readonly called: string;
}

export function pageOf(handed: HandedCase): PageOf {
  const { inspection, names } = handed;
  const { record } = inspection.study;
  const without = unnamed(record, names);
  const animal = record.animal?.is;
  return {
    ...handed,
    unnamed: without,
    alarms: openAlarms(inspection.study),
    called: without(clipped(animal?.name ?? '', 60)) || animal?.code || t('An animal without a name'),
  };
}

export interface ShellParts {
  readonly reader: PageReader;
  /** `For the owner`. */
  readonly forWhom: string;
  readonly about: string;
  readonly body: string;
}

/** A page of its own, with whose it is and for whom. */
export function shell(
  { called, date, names, inspection }: PageOf,
  { reader, forWhom, about, body }: ShellParts,
): string {
  const title = t('{0}: {1}', called, forWhom);
  const named = names ? whoIsNamed(inspection.study.record) : [];
  return htmlDocument({
    title,
    style: `${WHOLE_INK_CSS}${pagesCss}`,
    kind: `for-${reader}`,
    body: `<header><p class="for">${escaped(forWhom)} · ${escaped(sayDate(date))}</p><h1 dir="auto">${escaped(called)}</h1>${about === '' ? '' : `<p class="who" dir="auto">${escaped(about)}</p>`}${named.length > 0 ? `<p class="who">${escaped(named.join(' · '))}</p>` : ''}</header>
<main>
${body}
</main>`,
  });
}

/** Numbers of lines that a page names; more would fill it. */
const mostLines = 12;

/** Which lines of the case could not be read: what they say is lacking, and nobody would see that. Their texts may name people. */
export function unreadPart({ inspection }: PageOf): string {
  const lines = unreadLines(inspection);
  if (lines.length === 0) return '';
  const more = lines.length - mostLines;
  const named = [...lines.slice(0, mostLines).map(String), ...(more > 0 ? [t('{0} more', more)] : [])];
  const which = counted(
    lines.length,
    'Line {1} of the case could not be read as it stands.',
    'Lines {1} of the case could not be read as they stand.',
    list(named),
  );
  const mend = t('So something may be missing here. Have the case mended first.');
  return `<section class="unread">${paragraph(`${which} ${mend}`, 'withheld')}</section>`;
}

/** That a case says nothing of a matter; a line that could not be read may do so all the same. */
export function lackPart({ inspection }: PageOf, words: string): string {
  const may = unreadLines(inspection).length > 0 ? t('A line that could not be read may say it.') : '';
  return paragraph([words, may].filter((part) => part !== '').join(' '), 'lack');
}

/** What stands at the end of every page. */
export function cautionsPart(lines: readonly string[]): string {
  return `<section class="cautions"><h2>${escaped(t('Mind'))}</h2>${listPart(lines)}</section>`;
}

export const listPart = (lines: readonly string[], kind = ''): string =>
  lines.length === 0
    ? ''
    : `<ul${kind === '' ? '' : ` class="${kind}"`}>${lines.map((line) => `<li dir="auto">${escaped(line)}</li>`).join('')}</ul>`;

export const paragraph = (text: string, kind = ''): string =>
  text === '' ? '' : `<p${kind === '' ? '' : ` class="${kind}"`} dir="auto">${escaped(text)}</p>`;

/** A part with its heading; nothing where there is nothing in it. */
export const section = (kind: string, heading: string, inner: string): string =>
  inner.trim() === '' ? '' : `<section class="${kind}"><h2>${escaped(heading)}</h2>${inner}</section>`;

/** Two parts next to each other where there is room; the one alone where the other is empty. */
export function beside(one: string, other: string): string {
  if (one === '' || other === '') return one + other;
  return `<div class="beside"><div>${one}</div><div>${other}</div></div>`;
}

/** As it is written, in quotes and with its day; the end of a long text is left out, and it says so. */
export function quoted(text: string, most: number): string {
  const plain = text.replaceAll(/\s+/g, ' ').trim();
  const cut = clipped(plain, most);
  return cut === plain ? t('“{0}”', plain) : t('“{0} …” (the rest stands in the case)', cut);
}

/** As much of a text as is short enough, to the end of a word where there is one. */
export function clipped(text: string, most: number): string {
  if (text.length <= most) return text;
  const short = text.slice(0, most).toWellFormed();
  const end = short.lastIndexOf(' ');
  return (end > most * 0.6 ? short.slice(0, end) : short).trim();
}
