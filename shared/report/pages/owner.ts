import { figures } from '../../language/figures.ts';
import { counted, t } from '../../language/words.ts';
import { spoken } from '../../language/rows.ts';
import { drawStave } from '../../drawing/course/stave.ts';
import { drawPlate } from '../../drawing/plate/plate.ts';
import { escaped, sceneToSvg } from '../../drawing/svg.ts';
import { sayDate } from '../../findings/wording/say-day.ts';
import { footWords, list, sentence } from '../../findings/wording/wording.ts';
import { dayNumber } from '../../notation/dates.ts';
import { agreedLines, type AgreedLine } from '../../views/agreed.ts';
import { courseSheet, type CourseRow, type FootCourseSheet } from '../../views/course-sheet.ts';
import { staveOf, withDaysOf } from '../../views/course-stave.ts';
import { cutParts, cutWords, type FilmSheet } from '../../views/film-sheet.ts';
import { feetToday, type FootToday } from '../../views/foot-today.ts';
import { nextDate } from '../../views/next-visit.ts';
import { normalOver } from '../../views/laid-over.ts';
import { plateOf } from '../../views/plate-of.ts';
import { stateRows, type StateName, type StateRow } from '../../views/state-rows.ts';
import { newestDays } from '../newest-days.ts';
import { monthsPart } from './months.ts';
import {
  beside,
  cautionsPart,
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
import { vetNumber } from './unnamed.ts';
import { plainScene } from './plain-scene.ts';

/** Letters of a text of the case that the page repeats; what is longer is cut. */
const mostLetters = 180;

/** The page for the owner: two sides of A4 at most, in large type and plain words. */
export function ownerPage(handed: HandedCase): string {
  const page = pageOf(handed);
  const feet = feetToday(page.inspection, page.date);
  const shown = footToShow(feet);
  const number = vetNumber(page.inspection.study.record);
  const body = [
    alarmsPart(page, number),
    unreadPart(page),
    section('state', t('How it stands now'), statePart(page, feet)),
    beside(platePart(page, shown), section('why', t('Why this is done'), whyPart(page, shown))),
    beside(
      section('done', t('What was done'), donePart(page)),
      section('agreed', t('What was agreed'), agreedPart(page)),
    ),
    beside(
      section('ring', t('When to ring the vet now'), ringPart(number)),
      section('next', t('Next date'), nextPart(page)) + roomPart(),
    ),
    coursePart(page, shown),
    monthsPart(page, shown),
    cautionsPart([...ownerCautions]),
  ];
  return shell(page, {
    reader: 'owner',
    forWhom: t('For the owner'),
    about: '',
    body: body.filter((part) => part !== '').join('\n'),
  });
}

const ownerCautions = spoken([
  'This page helps you to talk with your vet and your trimmer. It is not a diagnosis.',
  'The vet says what is wrong, takes the films and treats pain. The law of your land says who may trim.',
]);

const roomPart = (): string =>
  `<section class="room"><h2>${escaped(t('Room to write'))}</h2><div class="notes-room"></div></section>`;

/** The foot with an open plan, else the one with the newest film; null where none has a film. */
function footToShow(feet: readonly FootToday[]): FootToday | null {
  const filmed = feet.filter(({ sheet }) => sheet !== null);
  const newest = filmed.toSorted((a, b) => ((a.sheet?.date ?? '') < (b.sheet?.date ?? '') ? 1 : -1));
  return newest.find(({ plan }) => plan !== null) ?? newest[0] ?? null;
}

/** In plain words; what the case measured stands on the vet's page. */
const alarmWords: Readonly<Record<string, string>> = spoken({
  'visit/call-the-vet': 'The case tells of signs that the vet has to see, and no visit of the vet since.',
  'course/sinking': 'From film to film the bone may be sinking in the hoof.',
  'range/very-low-in-capsule': 'The bone lies very low in the hoof.',
  'range/sole-depth.tip': 'The sole under the tip of the bone is very thin.',
});

/** Days that an alarm names; more would bury what is to be done. */
const mostDays = 3;

function withDays(words: string, days: readonly string[]): string {
  if (days.length === 0) return words;
  const more = days.length - mostDays;
  const named = list([...days.slice(0, mostDays), ...(more > 0 ? [t('{0} more', more)] : [])]);
  return counted(days.length, '{1} Visit of {2}.', '{1} Visits of {2}.', words, named);
}

function alarmsPart({ alarms }: PageOf, number: string | null): string {
  if (alarms.length === 0) return '';
  const lines = new Map<string, string[]>();
  for (const { code, date } of alarms) {
    const words = alarmWords[code] ?? t('Something has to be seen by the vet first.');
    const days = lines.get(words) ?? [];
    if (date !== null && !days.includes(sayDate(date))) days.push(sayDate(date));
    lines.set(words, days);
  }
  const ring = number === null ? t('Ring your vet today.') : t('Ring your vet today: {0}.', number);
  return `<section class="alarms"><h2>${escaped(t('First of all'))}</h2>${paragraph(ring, 'big')}${listPart([...lines].map(([words, days]) => withDays(words, days)))}${paragraph(t('Until the vet has been, this page shows no cut and no months to come.'))}</section>`;
}

const shownRows: readonly StateName[] = ['lameness', 'ground', 'score', 'weight', 'condition', 'crest'];

const plainNames: Readonly<Partial<Record<StateName, string>>> = spoken({
  lameness: 'Lameness (0 is sound, 4 is worst)',
  ground: 'Lameness on the ground (0 is sound, 5 is worst)',
  score: 'Score of lameness (0 is sound, 12 is worst)',
  condition: 'Fat on the body (5 is right for most)',
  crest: 'Fat in the neck (0 is none)',
});

/** How the animal and its feet are, against the last time. */
function statePart(page: PageOf, feet: readonly FootToday[]): string {
  const { inspection, unnamed } = page;
  const rows = stateRows(inspection.study.record).filter(({ of }) => shownRows.includes(of));
  const row = (one: StateRow): string => {
    const before = one.before ? t('{0}, {1}', one.before.text, sayDate(one.before.date)) : t('not written before');
    return `<tr><th scope="row">${escaped(plainNames[one.of] ?? one.words)}</th><td>${escaped(unnamed(t('{0}, {1}', one.now.text, sayDate(one.now.date))))}</td><td>${escaped(unnamed(before))}</td><td>${escaped(wayOf(one))}</td></tr>`;
  };
  const table =
    rows.length === 0
      ? lackPart(page, t('The case says nothing of comfort and weight.'))
      : `<table class="wide"><thead><tr><th scope="col">${escaped(t('what'))}</th><th scope="col">${escaped(t('now'))}</th><th scope="col">${escaped(t('the time before'))}</th><th scope="col">${escaped(t('so it is'))}</th></tr></thead><tbody>${rows.map(row).join('')}</tbody></table>`;
  const courses = courseSheet(inspection).feet;
  const said = feet.flatMap((foot) => {
    const course = courses.find((one) => one.foot === foot.foot);
    const lines = course ? footWordsOf(course) : [];
    return lines.length === 0 ? [] : [`${foot.words}: ${lines.join(' ')}`];
  });
  const none =
    feet.length === 0
      ? t('The case tells of no foot.')
      : said.length === 0
        ? t('No foot was measured twice, so there is no change to tell.')
        : '';
  return `${table}${listPart(said)}${paragraph(none, 'lack')}`;
}

function wayOf({ of, difference, now }: StateRow): string {
  if (difference === null) return '';
  if (difference === 0) return t('the same');
  if (of === 'lameness' || of === 'ground' || of === 'score') return difference < 0 ? t('better') : t('worse');
  const by = `${figures(Number(Math.abs(difference).toFixed(2)))}${now.unit === '' ? '' : ` ${now.unit}`}`;
  return difference < 0 ? t('{0} less', by) : t('{0} more', by);
}

/** What changed in a foot, a short sentence each: films first, else what a hand took. */
function footWordsOf({ rows }: FootCourseSheet): string[] {
  const changed = (
    measure: string,
    source: CourseRow['source'],
    say: (now: string, was: string, date: string) => string,
    plain = (value: number, unit: string): string => `${Math.round(value)}${unit}`,
  ): string[] => {
    const row = rows.find((one) => one.measure === measure && one.source === source);
    const change = row?.changes.at(-1);
    const [from, to] = change && row ? [row.points[change.from], row.points[change.to]] : [];
    if (!row || !change || !from || !to) return [];
    const unit = row.unit === 'deg' ? '°' : ` ${row.unit}`;
    const [was, now] = [from.value, to.value].map((value) => plain(value, unit)) as [string, string];
    const real =
      change.clear && !change.doubted ? t('That is a clear change.') : t('That is within the error of measuring.');
    return [`${say(now, was, sayDate(from.date))} ${real}`];
  };
  const ofFilms = [
    ...changed('sole-depth.tip', 'film', (now, was, date) =>
      t('The sole under the bone is {0} thick. On {2} it was {1}.', now, was, date),
    ),
    ...changed(
      'palmar-angle',
      'film',
      (now, was, date) => t('The bone slopes {0}. On {2} it sloped {1}.', now, was, date),
      slopeOf,
    ),
  ];
  const byHand =
    ofFilms.length > 0
      ? []
      : [
          ...changed('toe-length', 'hand', (now, was, date) =>
            t('By tape the toe is {0} long. On {2} it was {1}.', now, was, date),
          ),
          ...changed('heel-height', 'hand', (now, was, date) =>
            t('By tape the heel is {0} tall. On {2} it was {1}.', now, was, date),
          ),
        ];
  return [...ofFilms, ...byHand, ...grownWords(rows)];
}

/** A palmar angle in plain words: above 0 the tip of the bone lies lower than its back. */
function slopeOf(degrees: number): string {
  const whole = Math.round(Math.abs(degrees));
  if (whole === 0) return t('not at all');
  return degrees > 0 ? t('{0}° down to the toe', whole) : t('{0}° down to the heel', whole);
}

function grownWords(rows: readonly CourseRow[]): string[] {
  const point = rows.find(({ measure }) => measure === 'grown-out')?.points.at(-1);
  return point && point.value >= 1 ? [t('New wall has come down {0} mm.', Math.round(point.value))] : [];
}

/** The foot as it stands, what a plan takes of it, and a normal foot over it. */
function platePart(page: PageOf, foot: FootToday | null): string {
  const heading = t('The foot');
  if (!foot?.sheet)
    return section(
      'plate',
      heading,
      paragraph(t('There is no film of a foot from the side, so no foot is drawn.'), 'lack'),
    );
  const { sheet } = foot;
  const laid = normalOver(sheet, page.inspection.study.animal);
  const cut = foot.pen && foot.planSheet ? { ...foot.planSheet, cut: page.unnamed(foot.planSheet.cut) } : null;
  const input = plateOf({ ...sheet, rows: [] }, null, { cut });
  const over = laid.over && ({ ...laid.over, unlettered: true } as const);
  const svg = sceneToSvg(plainScene(drawPlate({ ...input, marker: null, over, lettering: 1.5 })));
  const lines = [
    t('{0}, as on the film of {1}.', foot.words, sheet.date === null ? t('no date') : sayDate(sheet.date)),
    ...(cut ? [t('What is hatched goes. What is plain stays. The heavy line is the new ground.')] : []),
    ...(laid.over ? [t('The broken line is a normal foot of this size.')] : [t('No normal foot can be laid over it.')]),
  ];
  const withheld = foot.why === '' ? '' : paragraph(t('No cut is shown. {0}', page.unnamed(foot.why)), 'withheld');
  const nothing = foot.plan === null ? paragraph(t('No cut of this foot is planned now.')) : '';
  return section(
    'plate',
    heading,
    `<figure>${svg}<figcaption>${escaped(lines.join(' '))}</figcaption></figure>${withheld}${nothing}`,
  );
}

/** From what is measured, and from the plan's own words. */
function whyPart({ unnamed }: PageOf, foot: FootToday | null): string {
  const plan = foot?.pen ? foot.plan : null;
  if (!foot?.sheet || !plan) return '';
  const { sheet } = foot;
  const mm = (measure: string): string | null => wholeOf(sheet, measure, ' mm');
  const lines: string[] = [];
  const angle = sheet.rows.find(({ measure }) => measure === 'palmar-angle');
  const bone = angle ? slopeOf(angle.value) : null;
  if (plan.size.heelDown > 0) {
    const [heel, surplus] = [mm('heel-height'), mm('heel-surplus')];
    const outside = heel === null ? '' : t('Seen from outside the heel is {0} tall.', heel);
    const inside =
      surplus === null || /^[-\u2212]/.test(surplus)
        ? ''
        : t('Inside, {0} of it stand out beyond the live sole.', surplus);
    const after = plan.prediction?.value('palmar-angle');
    const tips =
      bone === null || !after
        ? ''
        : t('Inside, the bone slopes {0}. After the cut it should slope {1}.', bone, slopeOf(after.value));
    lines.push([t('Why the heels come down:'), outside, inside, tips].filter((part) => part !== '').join(' '));
  }
  if (plan.cut.leave.includes('toe') || plan.cut.leave.includes('sole')) {
    const [toe, sole] = [mm('toe-length'), mm('sole-depth.tip')];
    const outside = toe === null ? '' : t('Seen from outside the toe is {0} long.', toe);
    const inside =
      sole === null ? '' : t('Inside, the sole under the tip of the bone is {0} thick. It shields the bone.', sole);
    const what = plan.cut.leave.includes('toe') ? t('Why the toe is left:') : t('Why the sole is left:');
    lines.push([what, outside, inside].filter((part) => part !== '').join(' '));
  }
  const own = plan.cut.why.map(({ text }) => t('The plan says: {0}', quoted(unnamed(text), mostLetters)));
  return listPart([...lines, ...own]);
}

function wholeOf({ rows }: FilmSheet, measure: string, unit: string): string | null {
  const row = rows.find((one) => one.measure === measure);
  return row ? `${Math.round(row.value)}${unit}` : null;
}

/** Visits with a trim that are told, newest first; what is older stands in the case. */
const mostVisits = 3;

function donePart(page: PageOf): string {
  const { inspection, unnamed } = page;
  const { visits, cuts } = inspection.study;
  const done = visits
    .filter(({ visit: { is } }) => is.cuts.some(({ kind }) => kind === 'trim'))
    .toSorted((a, b) => (b.day ?? -Infinity) - (a.day ?? -Infinity));
  if (done.length === 0) return lackPart(page, t('No trim is written yet.'));
  const lines = done.slice(0, mostVisits).flatMap(({ visit }) =>
    cuts
      .filter((one) => one.visit === visit && one.cut.kind === 'trim' && one.cut.foot === one.cut.feet[0])
      .map((one) => {
        const where = list(one.cut.feet.map((foot) => footWords[foot]));
        // Where it says what was done in its own words alone, they stand there already.
        const { work, why } = one.cut;
        const own = [...(cutParts(one.cut) === '' ? [] : work), ...why].map(({ text }) =>
          quoted(unnamed(text), mostLetters),
        );
        const when = visit.is.date === null ? t('no date') : sayDate(visit.is.date);
        return [`${when}: ${where}: ${unnamed(cutWords(one))}.`, ...own].join(' ');
      }),
  );
  const older = done.length > mostVisits ? t('What was done before that stands in the case.') : '';
  return `${listPart(lines)}${paragraph(older, 'faint')}`;
}

const mostAgreed = 10;

function agreedPart(page: PageOf): string {
  const { inspection, date, unnamed } = page;
  const lines = agreedLines(inspection.study.record, dayNumber(date) ?? 0);
  if (lines.length === 0) return lackPart(page, t('The case says nothing of feed, turnout, boots or medicine.'));
  const said = ({ words, text, date: day, beside }: AgreedLine): string =>
    [
      `${words}:`,
      text === '' ? '' : quoted(unnamed(text), mostLetters),
      beside,
      day === null ? '' : `(${sayDate(day)})`,
    ]
      .filter((part) => part !== '')
      .join(' ');
  const lacks = (['feed', 'turnout', 'medicine'] as const).filter((name) => !lines.some(({ of }) => of === name));
  const none =
    lacks.length === 0 ? '' : t('The case says nothing of: {0}.', list(lacks.map((name) => lackWords[name])));
  const more = lines.length > mostAgreed ? t('More stands in the case.') : '';
  return `${listPart(lines.slice(0, mostAgreed).map(said))}${paragraph([more, none].filter((one) => one !== '').join(' '), 'faint')}${paragraph(t('Feed is for you and your vet to settle. This page repeats what was agreed.'), 'faint')}`;
}

const lackWords = spoken({ feed: 'feed', turnout: 'turnout', medicine: 'medicine' });

const signsToWatch = spoken([
  'It has a fever, or it sweats.',
  'It lies and will not rise, or it will not move.',
  'It stands leaning back, or it is more lame than the day before.',
  'There is a gap or a dip above the hoof, where the hair begins.',
  'The sole bulges or bleeds, or something runs out of the foot.',
  'The feet are hot, or the pulse at the foot pounds.',
]);

function ringPart(number: string | null): string {
  const ring =
    number === null
      ? t('The case has no number of the vet. Write it here: ______________')
      : t('The vet’s number: {0}', number);
  return `${listPart([...signsToWatch])}${paragraph(ring, 'big')}`;
}

function nextPart(page: PageOf): string {
  const next = nextDate(page.inspection.study.record.visits, page.date);
  if (!next) return lackPart(page, t('No next date is written.'));
  return paragraph(
    next.isPast ? t('{0}. That day has passed: ask for a new one.', next.words) : t('{0}.', next.words),
    'big',
  );
}

/** Of one foot the sole and the new wall, else what can be compared of it. */
function coursePart({ inspection, called }: PageOf, shown: FootToday | null): string {
  const heading = t('The course');
  const courses = courseSheet(inspection).feet;
  const own = courses.find(({ foot }) => foot === shown?.foot);
  const compared = (foot: FootCourseSheet): CourseRow[] => foot.rows.filter(({ changes }) => changes.length > 0);
  const foot = own && compared(own).length > 0 ? own : courses.find((one) => compared(one).length > 0);
  if (!foot)
    return section('course', heading, paragraph(t('There is no course yet: nothing was measured twice.'), 'lack'));
  const rows = compared(foot);
  const wanted = ['sole-depth.tip', 'grown-out', 'palmar-angle', 'toe-length', 'heel-height'];
  const chosen = wanted.flatMap((name) => rows.find(({ measure }) => measure === name) ?? []).slice(0, 2);
  const kept = newestDays(foot);
  const shownRows = (chosen.length > 0 ? chosen : rows.slice(0, 2)).flatMap(
    (row) => kept.rows.find((one) => one.measure === row.measure && one.source === row.source) ?? [],
  );
  const { scene } = drawStave(
    staveOf(withDaysOf(kept, shownRows), shownRows, { width: 720, caseName: called, alone: false }),
  );
  const key = t('{0}. The taller a stroke, the less sure it is. Hatched is what is usual.', foot.words);
  return section(
    'course',
    heading,
    `<figure class="scrolls" tabindex="0">${sceneToSvg(scene)}<figcaption>${escaped(sentence(key))}</figcaption></figure>`,
  );
}
