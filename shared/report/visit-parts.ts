import { shownDate } from '../language/dates.ts';
import { t } from '../language/words.ts';
import { drawStave } from '../drawing/course/stave.ts';
import { escaped, sceneToSvg } from '../drawing/svg.ts';
import type { Inspection } from '../findings/inspect.ts';
import { handSpreadWords } from '../views/about-measures.ts';
import { courseSheet, type FootCourseSheet } from '../views/course-sheet.ts';
import { chosenRows, staveKey, staveOf, withDaysOf } from '../views/course-stave.ts';
import { pairWords, pairSheets } from '../views/pair-sheet.ts';
import { tapeSheets } from '../views/tape-sheet.ts';
import { visitSheets } from '../views/visit-sheet.ts';
import { newestDays } from './newest-days.ts';

/** What a page tells of the visits themselves: what was seen, done and worn, and what was taken by hand. */

/** Each visit with its phrases; nothing of visits that say none. */
export function visitsPart(inspection: Inspection): string {
  const told = visitSheets(inspection).filter(({ done, seen }) => done.length + seen.length > 0);
  if (told.length === 0) return '';
  const item = ({ date, title, comfort, weight, done, seen }: (typeof told)[number]): string => {
    const head = [date === null ? t('no date') : shownDate(date), title, comfort, weight]
      .filter((part) => part)
      .join(', ');
    const phrases = [...done, ...seen].map((words) => `<li>${escaped(words)}</li>`).join('');
    return `<dt>${escaped(head)}</dt><dd><ul>${phrases}</ul></dd>`;
  };
  return `<section class="visits"><h3>${escaped(t('Visits'))}</h3><dl>${told.map(item).join('')}</dl></section>`;
}

/** The tables of what was taken by hand, and the course of feet that have some of it, or photos. */
export function handPart(inspection: Inspection, caseName: string): string {
  const tables = tapeSheets(inspection).map(({ title, rows }) =>
    table(
      title,
      [t('measure'), t('value ± one standard deviation'), t('since the tape before')],
      rows.map(({ measure, words, text, since }) => ({ measure, cells: [words, text, since] })),
    ),
  );
  const staves = courseSheet(inspection)
    .feet.filter(({ rows }) => rows.some(({ source, changes }) => source !== 'film' && changes.length > 0))
    .map((foot) => stavePart(newestDays(foot), caseName));
  if (tables.length + staves.length === 0) return '';
  const words = tables.length > 0 ? `<p class="source">${escaped(handSpreadWords())}</p>` : '';
  return `<section class="by-hand"><h3>${escaped(t('Without a film'))}</h3>${staves.join('')}${tables.join('')}${words}</section>`;
}

const WIDTH = 900;

function stavePart(foot: FootCourseSheet, caseName: string): string {
  const rows = chosenRows(foot, null);
  const { scene } = drawStave(staveOf(withDaysOf(foot, rows), rows, { width: WIDTH, caseName, alone: false }));
  const trends = rows.flatMap(({ words, sourceWords, trend, growOut }) => {
    const said = [trend?.text, growOut?.text].filter((part) => part !== undefined).join('. ');
    return said === '' ? [] : [`<li>${escaped(`${[words, sourceWords].filter(Boolean).join(' ')}: ${said}`)}</li>`];
  });
  return `<figure class="course"><h4>${escaped(t('{0}, day to day', foot.words))}</h4>${sceneToSvg(scene)}<figcaption>${escaped(staveKey(rows))}</figcaption></figure><ul>${trends.join('')}</ul>`;
}

/** Left and right of a pair that were filmed at one visit. */
export function pairsPart({ study }: Pick<Inspection, 'study'>): string {
  const tables = pairSheets(study).map(({ title, rows }) =>
    table(
      title,
      [t('measure'), t('left'), t('right'), t('left less right')],
      rows.map(({ measure, words, left, right, text, said }) => ({
        measure,
        cells: [words, left, right, text === '' ? said : `${text}, ${said}`],
      })),
    ),
  );
  if (tables.length === 0) return '';
  return `<section class="pairs"><h3>${escaped(t('Left and right'))}</h3>${tables.join('')}<p class="source">${escaped(pairWords())}</p></section>`;
}

function table(
  title: string,
  heads: readonly string[],
  rows: readonly { readonly measure: string; readonly cells: readonly string[] }[],
): string {
  const row = ({ measure, cells: [first = '', ...rest] }: (typeof rows)[number]): string =>
    `<tr data-measure="${escaped(measure)}"><th scope="row">${escaped(first)}</th>${rest.map((cell) => `<td class="value">${escaped(cell)}</td>`).join('')}</tr>`;
  return `<table><caption>${escaped(title)}</caption><thead><tr>${heads.map((head) => `<th scope="col">${escaped(head)}</th>`).join('')}</tr></thead><tbody>${rows.map(row).join('')}</tbody></table>`;
}
