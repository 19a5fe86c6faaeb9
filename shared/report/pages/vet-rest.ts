import { shownDate } from '../../language/dates.ts';
import { fixed } from '../../language/figures.ts';
import { counted, t } from '../../language/words.ts';
import { drawStave } from '../../drawing/course/stave.ts';
import { escaped, sceneToSvg } from '../../drawing/svg.ts';
import { sayDate } from '../../findings/wording/say-day.ts';
import { footWords, sentence } from '../../findings/wording/wording.ts';
import { LineMap } from '../../notation/line-map.ts';
import { courseSheet, type CourseSheet } from '../../views/course-sheet.ts';
import { chosenRows, staveKey, staveOf, withDaysOf } from '../../views/course-stave.ts';
import { note, type FilmSheet } from '../../views/film-sheet.ts';
import { graverFirst } from '../../views/graver-first.ts';
import { scaleOrigin } from '../../views/scale-origin.ts';
import { noteWord } from '../../views/severity-words.ts';
import { setupWords } from '../../views/setup-words.ts';
import { visitSheets } from '../../views/visit-sheet.ts';
import { newestDays } from '../newest-days.ts';
import { publishedPart, tablePart } from '../page.ts';
import { methodPart } from './method.ts';
import { listPart, paragraph, section, type PageOf } from './shell.ts';
import { titleOf, viewWords } from './film-title.ts';

/** What follows behind the first side of the vet's page. */
export function vetRest(page: PageOf, sheets: readonly FilmSheet[], course: CourseSheet): string {
  return [
    section('course', t('Course'), coursePart(page, course)),
    section('every', t('Every measure of the last films'), measuresPart(page, sheets)),
    section('notes', t('All that is told'), notesPart(page)),
    section('visits', t('Visits, the newest first'), visitsPart(page)),
    section('films', t('How the films were taken and put to scale'), filmsPart(page)),
    section('readers', t('Readers'), readersPart(page)),
    section('accepted', t('Accepted, with the reason'), acceptedPart(page)),
    section('method', t('The method'), methodPart()),
  ]
    .filter((part) => part !== '')
    .join('\n');
}

function coursePart({ called, unnamed }: PageOf, { feet }: ReturnType<typeof courseSheet>): string {
  const compared = feet.filter(({ rows }) => rows.some(({ changes }) => changes.length > 0));
  if (compared.length === 0) return paragraph(t('There is no course yet: nothing was measured twice.'), 'lack');
  const figures = compared.map((foot) => {
    const kept = newestDays(foot);
    const rows = chosenRows(kept, null).filter(({ changes }) => changes.length > 0);
    const { scene } = drawStave(staveOf(withDaysOf(kept, rows), rows, { width: 760, caseName: called, alone: false }));
    const said = rows.flatMap(({ words, sourceWords, trend, growOut }) => {
      const texts = [trend?.text, growOut?.text].filter((part) => part !== undefined).join('. ');
      return texts === '' ? [] : [unnamed(`${[words, sourceWords].filter(Boolean).join(' ')}: ${texts}`)];
    });
    const beside = [foot.doubt, foot.scales].filter((part) => part !== '').join(' ');
    return `<h3>${escaped(foot.words)}</h3><figure class="scrolls" tabindex="0">${sceneToSvg(scene)}<figcaption>${escaped(staveKey(rows))}</figcaption></figure>${listPart(said)}${paragraph(unnamed(beside), 'faint')}`;
  });
  return figures.join('');
}

function measuresPart({ unnamed }: PageOf, sheets: readonly FilmSheet[]): string {
  if (sheets.length === 0) return paragraph(t('No foot is filmed yet.'), 'lack');
  return sheets
    .map((sheet) => {
      const lacks =
        sheet.missing.length > 0
          ? paragraph(t('Not placed, so that measures are missing: {0}.', sheet.missing.join(', ')), 'faint')
          : '';
      const rows =
        sheet.rows.length > 0
          ? `${tablePart(sheet.rows)}${publishedPart(sheet.rows)}`
          : paragraph(t('Nothing can be measured on it.'), 'lack');
      return `<h3>${escaped(unnamed(titleOf(sheet)))}</h3>${rows}${lacks}`;
    })
    .join('');
}

function notesPart({ inspection, unnamed }: PageOf): string {
  const map = new LineMap(inspection.tree.text);
  const told = inspection.findings
    .filter(({ severity, past }) => severity !== 'hint' && !past)
    .map((finding) => note(finding, map))
    .toSorted(graverFirst);
  if (told.length === 0) return paragraph(t('Nothing is told.'));
  return listPart(told.map((one) => unnamed(t('{0}, line {1}: {2}', noteWord(one), one.line + 1, one.message))));
}

function visitsPart({ inspection, names, unnamed }: PageOf): string {
  const { visits } = inspection.study.record;
  const sheets = visitSheets(inspection);
  const items = sheets
    .map((sheet, index) => ({ sheet, is: visits[index]?.is }))
    .toSorted((a, b) => (b.sheet.day ?? -Infinity) - (a.sheet.day ?? -Infinity))
    .map(({ sheet: { date, title, comfort, weight, done, seen }, is }) => {
      const hidden = names
        ? []
        : [is?.by && t('By {0}', is.by.text), is?.farrier && t('Farrier: {0}', is.farrier.text)];
      const own = [
        ...(is?.feed ?? []).map(({ text }) => t('Feed: “{0}”', text)),
        ...(is?.turnout ?? []).map(({ text }) => t('Turnout: “{0}”', text)),
        ...(is?.vet ?? []).map(({ text }) => t('The vet: “{0}”', text)),
        ...(is?.prose ?? []).map(({ text }) => t('“{0}”', text)),
      ];
      const head = [
        date === null ? t('no date') : sayDate(date),
        title === null ? null : t('“{0}”', title),
        comfort,
        weight,
      ]
        .filter((part) => part)
        .join(', ');
      return `<dt dir="auto">${escaped(unnamed(head))}</dt><dd>${listPart([...done, ...seen.filter((one) => !hidden.includes(one)), ...own].map(unnamed))}</dd>`;
    });
  return items.length === 0 ? paragraph(t('No visit is written.'), 'lack') : `<dl>${items.join('')}</dl>`;
}

function filmsPart({ inspection, unnamed }: PageOf): string {
  const { films } = inspection.study;
  if (films.length === 0) return paragraph(t('The case has no film.'), 'lack');
  const row = ({ film, visit, stored, bone, readings }: (typeof films)[number]): string => {
    const origin = scaleOrigin({ film, stored, bone });
    const [reading] = readings;
    const scale = reading?.taking.scale ?? null;
    const from =
      scale === null
        ? t('no scale: angles and ratios only')
        : film.scale?.kind === 'marker'
          ? t('a marker of {0} {1}', film.scale.length.value, film.scale.length.unit)
          : (origin?.words ?? t('a number that is written'));
    const magnified = film.magnify ? t('taken {0} times too large', film.magnify.value) : '';
    const how = [from, magnified, ...setupWords(film.setup)].filter((part) => part !== '').join('; ');
    const date = film.taken ?? visit.is.date;
    const shows = `${sentence(footWords[film.foot])}, ${viewWords[film.view]}`;
    const what = film.kind === 'photo' ? t('{0}, a photo', shows) : shows;
    return `<tr><th scope="row">${escaped(date === null ? t('no date') : shownDate(date))}</th><td>${escaped(what)}</td><td>${escaped(scale === null ? '' : t('{0} mm a pixel', fixed(scale, 4)))}</td><td class="free" dir="auto">${escaped(unnamed(how))}</td></tr>`;
  };
  const rows = films.toSorted((a, b) => (b.day ?? -Infinity) - (a.day ?? -Infinity)).map(row);
  return `<table class="wide"><thead><tr><th scope="col">${escaped(t('taken'))}</th><th scope="col">${escaped(t('foot'))}</th><th scope="col">${escaped(t('scale'))}</th><th scope="col">${escaped(t('by what, and how it was taken'))}</th></tr></thead><tbody>${rows.join('')}</tbody></table>`;
}

/** By number, in the order in which they come, unless names were asked for. */
function readersPart({ inspection, names }: PageOf): string {
  const read = new Map<string | null, { film: number; photo: number }>();
  for (const { film, readings } of inspection.study.films)
    for (const { reading } of readings) {
      const counts = read.get(reading.reader) ?? { film: 0, photo: 0 };
      counts[film.kind]++;
      read.set(reading.reader, counts);
    }
  if (read.size === 0) return '';
  const lines = [...read].map(([reader, { film, photo }], index) => {
    const who = names && reader !== null ? reader : t('Reader {0}', index + 1);
    const what = [
      ...(film > 0 ? [counted(film, 'one film read', '{0} films read')] : []),
      ...(photo > 0 ? [counted(photo, 'one photo read', '{0} photos read')] : []),
    ];
    return t('{0}: {1}', who, what.join(', '));
  });
  return listPart(lines);
}

function acceptedPart({ inspection, unnamed }: PageOf): string {
  const map = new LineMap(inspection.tree.text);
  const accepted = inspection.findings
    .filter(({ accepted: reason }) => reason !== undefined)
    .map((finding) => note(finding, map));
  if (accepted.length === 0) return paragraph(t('Nothing is accepted.'));
  return listPart(
    accepted.map(({ message, accepted: reason }) =>
      unnamed(message.includes(reason ?? '') ? message : `${message} ${t('“{0}”', reason ?? '')}`),
    ),
  );
}
