import { shownDate } from '../../language/dates.ts';
import { sayQuantity } from '../../language/figures.ts';
import { sayChoice } from '../../language/choice-words.ts';
import { counted, t } from '../../language/words.ts';
import { drawPlate } from '../../drawing/plate/plate.ts';
import { stateWords } from '../../drawing/plate/state-words.ts';
import { escaped, sceneToSvg } from '../../drawing/svg.ts';
import type { Inspection } from '../../findings/inspect.ts';
import { sayDate } from '../../findings/wording/say-day.ts';
import { footWords, list, sayClear, sentence } from '../../findings/wording/wording.ts';
import type { MeasureName } from '../../measures/names.ts';
import { feet as footNames, type FootName } from '../../notation/choices.ts';
import { dayNumber } from '../../notation/dates.ts';
import { LineMap } from '../../notation/line-map.ts';
import type { StudiedFilm } from '../../trim/study.ts';
import { courseSheet, type CourseSheet } from '../../views/course-sheet.ts';
import { turnWords } from '../../views/cut-outcome.ts';
import { cutWords, filmSheets, note, type FilmSheet } from '../../views/film-sheet.ts';
import { feetToday, type FootToday } from '../../views/foot-today.ts';
import { nextDate } from '../../views/next-visit.ts';
import { graverFirst } from '../../views/graver-first.ts';
import { plateOf } from '../../views/plate-of.ts';
import { noteWord } from '../../views/severity-words.ts';
import { stateRows, type StateValue } from '../../views/state-rows.ts';
import { cautions } from '../page.ts';
import {
  beside,
  clipped,
  lackPart,
  listPart,
  pageOf,
  paragraph,
  quoted,
  section,
  shell,
  unreadPart,
  type HandedCase,
  type PageOf,
} from './shell.ts';
import { titleOf } from './film-title.ts';
import { vetRest } from './vet-rest.ts';

/** The twelve measures of the first side, in the order in which they are read. */
const twelve: readonly MeasureName[] = [
  'palmar-angle',
  'capsular-rotation',
  'phalangeal-rotation',
  'hoof-pastern-deviation',
  'sole-depth.tip',
  'sole-depth.wing',
  'founder-distance',
  'coronet-extensor',
  'horn-lamellar.lower',
  'heel-surplus',
  'grown-out',
  'breakover-reach',
];

/** On the first side; the rest follows behind it. */
const most = { told: 3, letters: 220, plates: 4 };

/** The page for the vet: the first side says all that has to be decided, the rest follows. */
export function vetPage(handed: HandedCase): string {
  const page = pageOf(handed);
  const { inspection } = page;
  const feet = feetToday(inspection, page.date);
  const sheets = filmedToday(inspection);
  const course = courseSheet(inspection);
  const first = [
    alarmsPart(page),
    unreadPart(page),
    ...stateAndPlates(page, sheets, feet),
    section('measures', t('What matters'), measuresPart(sheets, course)),
    section('told', t('What is told'), toldPart(page)),
    section('planned', t('What is planned'), plannedPart(page, feet)),
    section('asked', t('What is asked of the vet'), listPart(asked(page, feet).map(page.unnamed))),
    paragraph([...cautions].slice(0, 2).join(' '), 'faint'),
  ];
  const body = [...first, `<div class="rest">${vetRest(page, sheets, course)}</div>`];
  return shell(page, {
    reader: 'vet',
    forWhom: t('For the vet'),
    about: page.unnamed(who(inspection)),
    body: body.filter((part) => part !== '').join('\n'),
  });
}

/** The films of the newest day on which any were taken: the first reading that could be measured, a sheet each. */
export function filmedToday(inspection: Inspection): FilmSheet[] {
  const films = inspection.study.films.filter(({ film }) => film.kind === 'film');
  const newest = Math.max(...films.map(({ day }) => day ?? -Infinity));
  const those = films.filter(({ day }) => (day ?? -Infinity) === newest);
  // One visit may film its feet on days that follow each other.
  const visits = new Set(those.map(({ visit }) => visit));
  const shown = films.filter((one) => visits.has(one.visit));
  const readingOf = ({ readings }: StudiedFilm) => readings.find(({ taking }) => taking.frame) ?? readings[0];
  return filmSheets(inspection, (film, reading) => shown.includes(film) && reading === readingOf(film)).toSorted(
    (a, b) => footNames.indexOf(a.foot) - footNames.indexOf(b.foot),
  );
}

/** Those of them that are drawn. */
export const drawnToday = (inspection: Inspection): readonly FilmSheet[] =>
  filmedToday(inspection).slice(0, most.plates);

function who({ study: { record } }: Inspection): string {
  const animal = record.animal?.is;
  const parts = animal
    ? [
        [animal.breed, animal.kind && sayChoice(animal.kind), animal.sex && sayChoice(animal.sex)]
          .filter((part) => part)
          .join(' '),
        animal.foaled && t('foaled {0}', shownDate(animal.foaled)),
        animal.height && sayQuantity(animal.height),
        ...animal.diagnoses.map(({ text }) => quoted(text, 80)),
        animal.onset && t('since {0}: {1}', shownDate(animal.onset.date), quoted(animal.onset.text, 120)),
      ]
    : [];
  const visits = record.visits.flatMap(({ is }) => is.date ?? []).toSorted();
  const [from, to] = [visits[0], visits.at(-1)];
  const seen =
    from && to
      ? counted(record.visits.length, 'one visit, {1}', '{0} visits, {1} to {2}', sayDate(from), sayDate(to))
      : counted(record.visits.length, 'one visit', '{0} visits');
  return [...parts, seen].filter((part) => part).join(' · ');
}

function alarmsPart({ alarms, unnamed }: PageOf): string {
  if (alarms.length === 0) return '';
  return `<section class="alarms"><h2>${escaped(t('Open alarms'))}</h2>${listPart(alarms.map(({ message }) => unnamed(message)))}${paragraph(t('While an alarm is open the pages for owner and yard show no line to cut by and no months to come.'))}</section>`;
}

/** One plate stands beside the state; several take a row of their own. */
function stateAndPlates(page: PageOf, sheets: readonly FilmSheet[], feet: readonly FootToday[]): string[] {
  const state = section('state', t('State'), statePart(page));
  const plates = section('filmed', t('Filmed last'), platesPart(page, sheets, feet));
  return sheets.length > 1 ? [state, plates] : [beside(state, plates)];
}

function statePart(page: PageOf): string {
  const { inspection, unnamed } = page;
  const rows = stateRows(inspection.study.record);
  if (rows.length === 0) return lackPart(page, t('The case says nothing of how the animal is.'));
  // A date is not broken at its hyphens.
  const said = ({ text, date }: StateValue): string =>
    escaped(unnamed(t('{0} on {1}', text, shownDate(date)))).replace(
      /\b\d{4}-\d\d-\d\d\b/,
      '<span class="date">$&</span>',
    );
  const cells = rows
    .map(
      ({ words, now, before }) =>
        `<tr><th scope="row">${escaped(words)}</th><td class="free">${said(now)}</td><td class="free">${before ? said(before) : escaped(t('not written before'))}</td></tr>`,
    )
    .join('');
  return `<table class="wide"><thead><tr><th scope="col">${escaped(t('what'))}</th><th scope="col">${escaped(t('now'))}</th><th scope="col">${escaped(t('before'))}</th></tr></thead><tbody>${cells}</tbody></table>`;
}

function platesPart(page: PageOf, sheets: readonly FilmSheet[], feet: readonly FootToday[]): string {
  if (sheets.length === 0) return paragraph(t('No foot is filmed yet.'), 'lack');
  const figure = (sheet: FilmSheet): string => {
    const picture = page.pictures.get(sheet.picture);
    const shown = picture && 'href' in picture ? picture : null;
    const foot = feet.find((one) => one.foot === sheet.foot && one.sheet?.line === sheet.line);
    const cut = foot?.pen && foot.planSheet ? { ...foot.planSheet, cut: page.unnamed(foot.planSheet.cut) } : null;
    const svg = sceneToSvg(
      drawPlate({ ...plateOf({ ...sheet, rows: [] }, shown, { cut }), marker: null, lettering: 2.2 }),
    );
    const words = [
      titleOf(sheet),
      sheet.scale === null ? t('No scale: angles and ratios only.') : '',
      cut ? t('Laid over it: {0}.', page.unnamed(cut.cut)) : '',
      shown ? '' : t('Without its picture.'),
    ];
    return `<figure>${svg}<figcaption>${escaped(words.filter((part) => part !== '').join(' '))}</figcaption></figure>`;
  };
  const left = sheets.length - most.plates;
  const more =
    left > 0
      ? counted(
          left,
          'One more film of this visit is not drawn here.',
          '{0} more films of this visit are not drawn here.',
        )
      : '';
  return `<div class="plates">${sheets.slice(0, most.plates).map(figure).join('')}</div>${paragraph(more, 'faint')}`;
}

function measuresPart(sheets: readonly FilmSheet[], { feet }: CourseSheet): string {
  const lateral = sheets.filter(({ view }) => view === 'lateral');
  const columns = footNames.flatMap((foot) => lateral.find((sheet) => sheet.foot === foot) ?? []);
  if (columns.length === 0)
    return paragraph(t('No foot was filmed from the side at that visit, so none of the twelve is measured.'), 'lack');
  // Of many feet the change stands under its value, as a row has to fit the sheet.
  const isNarrow = columns.length > 2;
  const isFirst = ({ foot, date }: FilmSheet): boolean =>
    feet.find((one) => one.foot === foot)?.films.every((film) => film.view !== 'lateral' || film.date === date) ?? true;
  const firsts = columns.filter(isFirst);
  const rowOf = (name: MeasureName): string => {
    const own = columns.map((sheet) => sheet.rows.find(({ measure }) => measure === name));
    const known =
      own.find((row) => row !== undefined) ?? columns[0]?.unmeasured.find(({ measure }) => measure === name);
    if (!known) return '';
    const cells = columns.map((sheet, index) => {
      const row = own[index];
      const change = row && !isFirst(sheet) ? changeOf(sheet, name, feet) : '';
      const state =
        !row || row.state === 'none' || row.state === 'within'
          ? ''
          : ` <strong>${escaped(stateWords[row.state])}</strong>`;
      const value = row ? `${escaped(row.text)}${state}` : escaped(t('not measured'));
      if (isNarrow) return `<td>${value}${change === '' ? '' : `<br><small>${escaped(change)}</small>`}</td>`;
      return `<td>${value}</td>${isFirst(sheet) ? '' : `<td>${escaped(change)}</td>`}`;
    });
    return `<tr><th scope="row">${escaped(sentence(known.words))}</th>${cells.join('')}<td>${escaped(known.usualText)}</td></tr>`;
  };
  const heads = columns
    .map((sheet) => {
      const change = isNarrow || isFirst(sheet) ? '' : `<th scope="col">${escaped(t('since the last film'))}</th>`;
      return `<th scope="col">${escaped(sentence(footWords[sheet.foot]))}</th>${change}`;
    })
    .join('');
  const alone =
    firsts.length === 0
      ? ''
      : t('First film of: {0}. There is no change to tell.', list(firsts.map(({ foot }) => footWords[foot])));
  return `<table class="wide"><thead><tr><th scope="col">${escaped(t('measure, ± one standard deviation'))}</th>${heads}<th scope="col">${escaped(t('usual'))}</th></tr></thead><tbody>${twelve.map(rowOf).join('')}</tbody></table>${paragraph(alone, 'faint')}`;
}

function changeOf(sheet: FilmSheet, name: MeasureName, feet: CourseSheet['feet']): string {
  const row = feet
    .find(({ foot }) => foot === sheet.foot)
    ?.rows.find(({ measure, source }) => measure === name && source === 'film');
  const at = row?.points.findLastIndex(({ date }) => date === sheet.date) ?? -1;
  const change = row?.changes.find(({ to }) => to === at);
  return change ? `${change.text}, ${sayClear(change)}` : t('not comparable');
}

function toldPart({ inspection, unnamed, alarms }: PageOf): string {
  const map = new LineMap(inspection.tree.text);
  const alarmed = new Set(alarms.map(({ message }) => message));
  const told = inspection.findings
    .filter(
      ({ severity, past, accepted }) =>
        (severity === 'error' || severity === 'warning') && !past && accepted === undefined,
    )
    .map((finding) => note(finding, map))
    .filter(({ message }) => !alarmed.has(message));
  const shown = told.toSorted(graverFirst);
  if (shown.length === 0) return paragraph(t('Nothing is told beyond a note.'));
  const lines = shown
    .slice(0, most.told)
    .map((one) => `${noteWord(one)}: ${clipped(unnamed(one.message), most.letters)}`);
  const left = shown.length - most.told;
  return `${listPart(lines)}${paragraph(left > 0 ? counted(left, 'One more stands behind.', '{0} more stand behind.') : '', 'faint')}`;
}

function plannedPart(page: PageOf, feet: readonly FootToday[]): string {
  const { unnamed, inspection, date } = page;
  const planned = feet.filter(({ plan }) => plan !== null);
  const lines = planned.flatMap(({ words, plan, planSheet, why }) => {
    if (!plan) return [];
    const when = plan.visit.is.date === null ? '' : t(' (written {0})', shownDate(plan.visit.is.date));
    const turn = why === '' && planSheet && planSheet.delta !== null ? `${sentence(turnWords(planSheet))}.` : '';
    const angle = why === '' ? planSheet?.rows.find(({ measure }) => measure === 'palmar-angle') : undefined;
    const after = angle ? t('{0}: {1}, then {2}.', sentence(angle.words), angle.before, angle.after) : '';
    const held = why === '' ? '' : t('Withheld: {0}', why);
    const own = plan.cut.why.map(({ text }) => quoted(text, most.letters));
    return [
      unnamed(
        [`${words}${when}: ${cutWords(plan)}.`, turn, after, held, ...own].filter((part) => part !== '').join(' '),
      ),
    ];
  });
  const next = nextDate(inspection.study.record.visits, date);
  const due = next ? paragraph(t('Next date: {0}.', next.words)) : lackPart(page, t('No next date is written.'));
  return `${lines.length > 0 ? listPart(lines) : paragraph(t('No plan is open.'))}${due}`;
}

/** What the case waits for from the vet, by what is written in it and what is lacking. */
function asked({ inspection, alarms, date }: PageOf, feet: readonly FootToday[]): string[] {
  const { record } = inspection.study;
  const day = dayNumber(date) ?? 0;
  const age = (foot: FootToday): number | null => {
    const taken = foot.sheet?.date ? dayNumber(foot.sheet.date) : null;
    return taken === null ? null : day - taken;
  };
  const old = feet.filter((foot) => (age(foot) ?? 0) > inspection.study.trim.filmAge);
  const planned = feet.filter(({ plan, why }) => plan !== null && why === '');
  const unfilmed = feet.filter(({ sheet, plan }) => sheet === null && plan !== null);
  const spoke = record.visits.some(({ is }) => is.vet.length > 0 || is.seen.length > 0);
  const named = (those: readonly FootToday[]): string =>
    list(those.map(({ foot }: { readonly foot: FootName }) => footWords[foot]));
  const lines = [
    ...(alarms.length > 0 ? [t('To see the animal: what is open stands above.')] : []),
    ...(old.length > 0
      ? [t('New films of: {0}. The last are older than {1} days.', named(old), inspection.study.trim.filmAge)]
      : []),
    ...(unfilmed.length > 0
      ? [t('Films from the side of: {0}. A plan is written, and no film shows the foot.', named(unfilmed))]
      : []),
    ...(planned.length > 0 ? [t('Whether the plan for {0} may go on.', named(planned))] : []),
    ...(spoke ? [] : [t('A word on the case: no line of it says what the vet has seen or agreed to.')]),
  ];
  return lines.length > 0 ? lines : [t('The case asks for nothing now.')];
}
