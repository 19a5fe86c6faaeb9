import { shownDate } from '../language/dates.ts';
import { fixed, sayQuantity } from '../language/figures.ts';
import { sayChoice } from '../language/choice-words.ts';
import { counted, t } from '../language/words.ts';
import { spoken } from '../language/rows.ts';
import { drawPlate } from '../drawing/plate/plate.ts';
import { escaped, sceneToSvg } from '../drawing/svg.ts';
import { WHOLE_INK_CSS } from '../drawing/whole-ink.css.ts';
import { htmlDocument } from './html-document.ts';
import type { Inspection } from '../findings/inspect.ts';
import { sentence } from '../findings/wording/wording.ts';
import { LineMap } from '../notation/line-map.ts';
import { filmSheets, note, type CutSheet, type FilmSheet, type MeasureRow, type Note } from '../views/film-sheet.ts';
import { pageCss } from './page.css.ts';
import { handPart, pairsPart, visitsPart } from './visit-parts.ts';
import { alarmsOf } from '../views/alarms.ts';
import type { ListedPicture } from '../record/schema.ts';
import { plainPictureWords } from '../views/setup-words.ts';
import { turnWords } from '../views/cut-outcome.ts';
import { newestCut } from '../views/newest-cut.ts';
import { cutTitle, plateOf } from '../views/plate-of.ts';
import { stateWords } from '../drawing/plate/state-words.ts';
import { noteWord } from '../views/severity-words.ts';

export type ReportPicture =
  { readonly href: string; readonly width: number; readonly height: number } | { readonly lack: string };

export interface ReportedCase {
  readonly file: string;
  readonly inspection: Inspection;
  /** As `filmSheets` gives them, where somebody has made them already. */
  readonly sheets?: readonly FilmSheet[];
  /** By path as written in the file. */
  readonly pictures: ReadonlyMap<string, ReportPicture>;
}

export const cautions = spoken([
  'Decision support only: it computes from what was placed on a picture, and knows nothing else of the animal.',
  'Diagnosis, radiographs and pain belong to the vet. Local law decides who may trim or shoe.',
  'Fever, an animal that will not rise or move, discharge, a gap or a dip above the coronet, a bulging or bleeding sole: call the vet now.',
]);

/** A page that needs nothing else: every case with its films drawn to scale, measures, predicted cuts and findings. */
export function reportPage(cases: readonly ReportedCase[], date: string): string {
  const title =
    cases.length === 1 ? t('{0}: hoof case', caseName(cases[0] as ReportedCase)) : t('{0} hoof cases', cases.length);
  return htmlDocument({
    title,
    style: `${WHOLE_INK_CSS}${pageCss}`,
    body: `<header><h1>${escaped(title)}</h1><p>${escaped(t('Written {0} by Ungula.', shownDate(date)))}</p>
<ul class="cautions">${cautions.map((line) => `<li>${escaped(line)}</li>`).join('')}</ul>
</header>
${cases.map(casePart).join('\n')}`,
  });
}

function caseName({ inspection, file }: ReportedCase): string {
  return inspection.study.record.animal?.is.name ?? file;
}

function casePart(reported: ReportedCase): string {
  const { inspection, file, pictures } = reported;
  const all = reported.sheets ?? filmSheets(inspection);
  const sheets = drawnOf(all);
  const map = new LineMap(inspection.tree.text);
  const alarms = alarmsOf(inspection);
  const within = new Set(
    [...alarms, ...sheets.flatMap((sheet) => [...sheet.notes, ...sheet.cuts.flatMap((cut) => cut.notes)])].map(
      ({ line, code, message }) => `${line}${code}${message}`,
    ),
  );
  const others = inspection.findings
    .map((finding) => note(finding, map))
    .filter(({ line, code, message }) => !within.has(`${line}${code}${message}`));
  return `<section class="case"><h2>${escaped(caseName(reported))}</h2>
${alarmsPart(alarms, file)}<p class="who">${escaped(who(inspection))}</p>
${notesPart(others, file)}
${visitsPart(inspection)}
${handPart(inspection, caseName(reported))}
${pairsPart(inspection)}
${olderPart(all, sheets)}
${sheets.map((sheet) => filmPart(sheet, pictures.get(sheet.picture), file)).join('\n')}
${plainPictures(inspection)
  .map((picture) => plainPart(picture, pictures))
  .join('\n')}
</section>`;
}

/** What is open comes before all else. */
function alarmsPart(alarms: readonly Note[], file: string): string {
  if (alarms.length === 0) return '';
  return `<section class="alarms" aria-label="${escaped(t('Open alarms'))}">${notesPart(alarms, file)}</section>
`;
}

/** Films of one case that are drawn: 25 visits with four feet. Thousands of drawings would make a page that nobody can open. */
export const mostDrawn = 100;

/** The films of a case that its page draws, in the order of the text: the newest, where there are more than it takes. */
export function drawnOf(sheets: readonly FilmSheet[]): readonly FilmSheet[] {
  if (sheets.length <= mostDrawn) return sheets;
  // Sorting keeps the order of those of one date, so that of them the last are taken.
  const byDate = sheets.toSorted((a, b) => ((a.date ?? '') < (b.date ?? '') ? -1 : a.date === b.date ? 0 : 1));
  const newest = new Set(byDate.slice(-mostDrawn));
  return sheets.filter((sheet) => newest.has(sheet));
}

/** The films that are not drawn, with what is out of its range; what was found on them stands in the notes of the case. */
function olderPart(all: readonly FilmSheet[], drawn: readonly FilmSheet[]): string {
  if (all.length === drawn.length) return '';
  const isDrawn = new Set(drawn);
  const older = all.filter((sheet) => !isDrawn.has(sheet));
  const row = ({ title, line, rows }: FilmSheet): string => {
    const out = rows
      .filter(({ state }) => isOut(state))
      .map(({ words, text, state }) => `${words} ${text}, ${stateWords[state]}`);
    return `<tr><th scope="row">${escaped(title)}</th><td>${line + 1}</td><td>${escaped(out.join('; '))}</td></tr>`;
  };
  return `<section class="older"><h3>${escaped(t('Older films'))}</h3>
<p>${escaped(t('Of {0} films the newest {1} are drawn below. The other {2} are listed here; what was found on them stands above.', all.length, drawn.length, older.length))}</p>
<table><thead><tr>${headings(t('film'), t('line'), t('out of its range'))}</tr></thead><tbody>${older.map(row).join('')}</tbody></table></section>`;
}

function who({ study }: Inspection): string {
  const animal = study.record.animal?.is;
  if (!animal) return '';
  const height = animal.height ? sayQuantity(animal.height) : null;
  const visits = study.record.visits.length;
  return [
    animal.breed,
    animal.kind && sayChoice(animal.kind),
    animal.sex && sayChoice(animal.sex),
    animal.foaled && t('foaled {0}', shownDate(animal.foaled)),
    height,
    ...animal.diagnoses.map(({ text }) => text),
    ...animal.vet.map(({ text }) => t('vet: {0}', text)),
    animal.farrier && t('farrier: {0}', animal.farrier.text),
    counted(visits, '{0} visit', '{0} visits'),
  ]
    .filter((part) => part)
    .join(', ');
}

function filmPart(sheet: FilmSheet, picture: ReportPicture | undefined, file: string): string {
  const shown = picture && 'href' in picture ? picture : null;
  const lack =
    picture && 'lack' in picture
      ? `<p class="lack">${escaped(t('{0} The foot is drawn alone.', picture.lack))}</p>`
      : '';
  const scale =
    sheet.scale === null
      ? t('No scale: angles and ratios only.')
      : t('Scale {0} mm a pixel.{1}', fixed(sheet.scale, 4), sheet.scaleWords === null ? '' : ` ${sheet.scaleWords}`);
  const said = sheet.said.map((words) => `<br>${escaped(words)}`).join('');
  const cut = newestCut(sheet.cuts);
  return `<article class="film"><h3>${escaped(sheet.title)}</h3>
<figure>${sceneToSvg(drawPlate(plateOf(sheet, shown, { cut })))}<figcaption>${escaped(scale)}${said}${cut ? laidPart(cut) : ''}</figcaption></figure>
${lack}
${notesPart(sheet.notes, file)}
${sheet.rows.length > 0 ? tablePart(sheet.rows) : ''}
${publishedPart(sheet.rows)}
${sheet.cuts.map((cut) => cutPart(cut, file)).join('\n')}
</article>`;
}

/** A picture that is shown as it is, with its words. */
export function plainPictures({ study }: Pick<Inspection, 'study'>): readonly ListedPicture[] {
  return study.record.visits.flatMap(({ is }) => is.pictures.map((one) => ({ ...one, taken: one.taken ?? is.date })));
}

function plainPart(picture: ListedPicture, pictures: ReportedCase['pictures']): string {
  const shown = pictures.get(picture.path.text);
  const words = plainPictureWords(picture);
  const image =
    shown && 'href' in shown
      ? `<figure><img src="${escaped(shown.href)}" alt="${escaped(words)}" width="${shown.width}" height="${shown.height}"></figure>`
      : '';
  const lack = shown && 'lack' in shown ? `<p class="lack">${escaped(shown.lack)}</p>` : '';
  return `<article class="film plain"><h3>${escaped(words)}</h3>${image}${lack}</article>`;
}

function laidPart(cut: CutSheet): string {
  const said =
    cut.deltaOnToe === null
      ? t('What is dashed or hatched goes; the heavy line is the new ground. After an arrow stands what is predicted.')
      : t(
          'What is dashed or hatched goes; the heavy line is the new ground, with its bend. After an arrow stands what is predicted of the foot on its heels.',
        );
  return `<br><strong class="laid">${escaped(`${cutTitle(cut)}.`)}</strong> ${escaped(said)}`;
}

export function tablePart(rows: readonly MeasureRow[]): string {
  const cells = (row: MeasureRow): string =>
    `<tr data-measure="${escaped(row.measure)}"><th scope="row">${escaped(row.words)}${row.tape === null ? '' : ` <small>${escaped(t('by tape {0}', row.tape))}</small>`}</th><td class="value">${escaped(row.text)}</td><td class="usual">${escaped(row.usualText)}</td><td>${row.state === 'none' ? '' : escaped(stateWords[row.state])}</td><td class="source">${escaped(row.source)}</td></tr>`;
  return `<table><thead><tr>${headings(t('measure'), t('value ± one standard deviation'), t('usual'), t('state'), t('source'))}</tr></thead><tbody>${rows.map(cells).join('')}</tbody></table>`;
}

/** Only for what is out of its range: who has to judge such a value wants to know what others found. */
export function publishedPart(rows: readonly MeasureRow[]): string {
  const out = rows.filter(({ state, published }) => isOut(state) && published.length > 0);
  if (out.length === 0) return '';
  const item = ({ words, published }: MeasureRow): string =>
    `<dt>${escaped(words)}</dt>${published.map((line) => `<dd>${escaped(line)}</dd>`).join('')}`;
  return `<section class="published"><h4>${escaped(t('Published values of what is out of range'))}</h4><dl>${out.map(item).join('')}</dl></section>`;
}

function isOut(state: MeasureRow['state']): boolean {
  return state !== 'within' && state !== 'none';
}

function cutPart(cut: CutSheet, file: string): string {
  const turn =
    cut.delta === null
      ? t('Nothing can be predicted on this film.')
      : `${sentence(turnWords(cut))}.${cut.sides ? t(' Live sole is not visible from in front.') : ''}`;
  const rows = cut.rows
    .map(
      (row) =>
        `<tr><th scope="row">${escaped(row.words)}</th><td class="value">${escaped(row.before)}</td><td class="value">${escaped(row.after)}</td></tr>`,
    )
    .join('');
  const table =
    cut.rows.length > 0
      ? `<table><thead><tr>${headings(t('measure'), t('on the film'), t('after the cut'))}</tr></thead><tbody>${rows}</tbody></table>`
      : '';
  return `<section class="cut"><h4>${cut.kind === 'plan' ? t('Plan') : t('Trim')}${cut.date ? `, ${escaped(shownDate(cut.date))}` : ''}: ${escaped(cut.cut)}</h4><p>${escaped(turn)}</p>${notesPart(cut.notes, file)}${table}</section>`;
}

/** The heads of a table's columns. */
const headings = (...words: readonly string[]): string =>
  words.map((one) => `<th scope="col">${escaped(one)}</th>`).join('');

function notesPart(notes: readonly Note[], file: string): string {
  if (notes.length === 0) return '';
  const item = (told: Note): string =>
    `<li class="${told.severity}"><strong>${escaped(noteWord(told))}:</strong> ${escaped(told.message)} <small>${escaped(t('{0}, line {1}, {2}', file, told.line + 1, told.code))}</small></li>`;
  return `<ul class="notes">${notes.map(item).join('')}</ul>`;
}
