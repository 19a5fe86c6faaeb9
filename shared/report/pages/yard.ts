import { fixed } from '../../language/figures.ts';
import { spoken } from '../../language/rows.ts';
import { t } from '../../language/words.ts';
import { barLength, drawTrueSize } from '../../drawing/foot/true-size.ts';
import { escaped, sceneToSvg } from '../../drawing/svg.ts';
import { sayDate } from '../../findings/wording/say-day.ts';
import { footWords, list, sayLimit } from '../../findings/wording/wording.ts';
import type { XY } from '../../geometry/vector.ts';
import { dayNumber } from '../../notation/dates.ts';
import { Wearing } from '../../record/wearing.ts';
import { cutWords } from '../../views/film-sheet.ts';
import { feetToday, type FootToday } from '../../views/foot-today.ts';
import { nextDate } from '../../views/next-visit.ts';
import { standingPlaces, type PenLine } from '../../views/pen-line.ts';
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

const mostLetters = 160;

/** mm of a foot above the ground that are drawn where two stand on one sheet. */
const lowPart = 40;

/** mm that an upright sheet of A4 or Letter has between its margins. */
const mostWidth = 183;

/** Outlines in true size that one A4 holds. */
const mostOutlines = 2;

/** The page for the one who holds the rasp: one side of A4, with the foot in true size and the line to draw on it. */
export function yardPage(handed: HandedCase): string {
  const page = pageOf(handed);
  const feet = feetToday(page.inspection, page.date);
  const planned = feet.filter(({ plan }) => plan !== null);
  const outlined = planned.length > 0 ? planned : feet.filter(({ sheet }) => sheet !== null).slice(0, mostOutlines);
  const others = feet.filter((foot) => !outlined.includes(foot));
  const parts = outlined.map((foot, index) =>
    footPart(page, foot, { isOnNewSheet: index > 0 && index % mostOutlines === 0, isLow: outlined.length > 1 }),
  );
  const body = [
    alarmsPart(page),
    unreadPart(page),
    feet.length === 0 ? paragraph(t('The case tells of no foot, so there is nothing to draw.'), 'lack') : '',
    // Without an outline there is no bar either.
    parts.some((part) => part.includes('data-part="bar"'))
      ? paragraph(
          t(
            'Measure the bar first: {0} mm. If it is not, the printer has scaled the sheet: print at 100 %, and do not use this one. On a screen no size is true.',
            barLength,
          ),
          'tight',
        )
      : '',
    ...parts,
    othersPart(others),
    beside(section('next', t('Next date'), nextPart(page)), cautionsPart([...yardCautions])),
  ];
  return shell(page, {
    reader: 'yard',
    forWhom: t('For the yard'),
    about: '',
    body: body.filter((part) => part !== '').join('\n'),
  });
}

const yardCautions = spoken([
  'Decision support only: the line comes from what was placed on a film. The hoof in your hand comes first.',
  'Stop at the first blood, damp or pain, and call the vet. Diagnosis, films and pain belong to the vet.',
  'Local law decides who may trim or shoe.',
]);

function alarmsPart({ alarms, unnamed }: PageOf): string {
  if (alarms.length === 0) return '';
  return `<section class="alarms"><h2>${escaped(t('Open alarms'))}</h2>${listPart(alarms.map(({ message }) => unnamed(message)))}${paragraph(t('While an alarm is open there is no line to draw on this page.'))}</section>`;
}

/** Whether a foot begins a new sheet, and whether only its lower part is drawn, so that two stand on one. */
interface SheetPlace {
  readonly isOnNewSheet: boolean;
  readonly isLow: boolean;
}

function footPart(page: PageOf, foot: FootToday, { isOnNewSheet, isLow }: SheetPlace): string {
  const { words, plan, pen, sheet } = foot;
  const of = plan ? t('{0}: {1}', words, page.unnamed(cutWords(plan))) : words;
  const planned = plan?.visit.is.date ? t('Plan of {0}.', sayDate(plan.visit.is.date)) : '';
  const film = sheet?.date ? t('On the film of {0}.', sayDate(sheet.date)) : '';
  const scale = sheet?.scaleWords ?? '';
  const withheld = plan && !pen ? paragraph(t('No line is drawn. {0}', page.unnamed(foot.why)), 'withheld') : '';
  const none = plan ? '' : paragraph(t('No plan is open for this foot, so there is no line.'));
  return `<section class="foot${isOnNewSheet ? ' rest' : ''}"><h2>${escaped(of)}</h2>
${paragraph([planned, film, page.unnamed(scale)].filter((part) => part !== '').join(' '), 'who')}${withheld}${none}
${pen ? marksPart(pen) : ''}${outlinePart(foot, isLow)}
${plan && pen ? howPart(page, foot, pen) : ''}</section>`;
}

/** `5.2 mm`: to 0.1 mm, as it is foretold. */
const mm = (value: number): string => `${fixed(Math.max(0, value), 1)} mm`;

function marksPart({ heel, quarter, toe, toeBack, bendFrom }: PenLine): string {
  const marks = [
    [t('heel'), mm(heel)],
    [t('quarter'), mm(quarter)],
    [t('toe'), mm(toe)],
  ] as const;
  const items = marks.map(([name, text]) => `<li>${escaped(name)} <strong>${escaped(text)}</strong></li>`).join('');
  const beside = [
    t('Heights of the line on the outside of the wall, straight up from the ground; the quarter is midway.'),
    bendFrom === null
      ? ''
      : t('The heel has a plane of its own that ends {0} in front of the heel’s contact.', mm(bendFrom)),
    toeBack > 0 ? t('The toe comes back by {0}; the line ends there.', mm(toeBack)) : '',
  ];
  return `<ul class="marks">${items}</ul>${paragraph(beside.filter((part) => part !== '').join(' '), 'tight')}`;
}

function outlinePart({ foot, words, standing, pen }: FootToday, isLow: boolean): string {
  const places = standing && standingPlaces(standing);
  const [heel, toe] = pen ? [pen.line[0], pen.line.at(-1)] : [];
  const scene =
    places &&
    drawTrueSize({
      places,
      // As it is seen from its outer side.
      toe: foot.startsWith('L') ? 'left' : 'right',
      line: pen?.line ?? null,
      upTo: isLow ? lowPart : null,
      marks: pen && heel && toe ? marksOn(pen, heel, toe) : [],
      title: t('{0} in true size, from its outer side', words),
      description: pen
        ? t(
            'The line lies {0} above the ground at the heel, {1} at the quarter, {2} at the toe',
            mm(pen.heel),
            mm(pen.quarter),
            mm(pen.toe),
          )
        : t('No line is drawn'),
    });
  if (!scene)
    return paragraph(
      standing
        ? t('The outline is not drawn: place the hairline and the ground contacts at toe and heel.')
        : t(
            'The outline is not drawn: it takes a film from the side with a scale, and a foot that can be followed since.',
          ),
      'lack',
    );
  const { width, height } = scene.view;
  // Wider than the sheet is upright, a browser would shrink it without a word.
  const turned = width > mostWidth ? ' lies-across' : '';
  return `<figure class="true-size scrolls${turned}" tabindex="0">${sceneToSvg(scene, { width, height, sizeIn: 'mm' })}</figure>`;
}

function marksOn({ heel, quarter, toe }: PenLine, from: XY, to: XY): { readonly at: XY; readonly text: string }[] {
  return [
    { at: from, text: t('heel {0}', mm(heel)) },
    { at: { x: (from.x + to.x) / 2, y: quarter }, text: t('quarter {0}', mm(quarter)) },
    { at: to, text: t('toe {0}', mm(toe)) },
  ];
}

function howPart(page: PageOf, { foot, plan, sheet }: FootToday, { toeBack }: PenLine): string {
  if (!plan) return '';
  const { heelDown, toeDown } = plan.size;
  const widest = Math.max(heelDown, toeDown, toeBack);
  const where = widest === heelDown ? t('the heel') : t('the toe');
  const surplus = sheet?.rows.find(({ measure }) => measure === 'heel-surplus');
  const sole = sheet?.rows.find(({ measure }) => measure === 'sole-depth.tip');
  const lines = [
    t('Widest cut first: {0}, {1}. Take it in passes, and look after each.', where, sayLimit(widest, 'mm')),
    t(
      'Stop at the line. Stop before it where the sole no longer flakes: sole that flakes is dead, sole that does not is live.',
    ),
    ...(surplus && surplus.value > 0
      ? [t('On the film the heel stands {0} beyond the live sole beside it.', surplus.text)]
      : []),
    ...(sole ? [t('On the film the sole under the tip of the bone is {0} thick.', sole.text)] : []),
    plan.cut.leave.length > 0
      ? t('Leave alone: {0}.', list(plan.cut.leave.map((name) => leaveWords[name])))
      : t('The plan names nothing to leave alone.'),
    ...bootsOf(page, foot, plan),
    ...plan.cut.why.map(({ text }) => t('The plan says: {0}', quoted(page.unnamed(text), mostLetters))),
  ];
  return listPart(lines, 'tight two-up');
}

const leaveWords = spoken({ toe: 'the toe', heel: 'the heel', sole: 'the sole' });

/** The plan's own boots, else what the foot wears by what is written. */
function bootsOf(
  { inspection, date, unnamed }: PageOf,
  foot: FootToday['foot'],
  plan: NonNullable<FootToday['plan']>,
): string[] {
  if (plan.cut.boots) return [t('Boots after it: {0}', quoted(unnamed(plan.cut.boots.text), mostLetters))];
  const worn = new Wearing(inspection.study.record.visits)
    .shoeOn(foot, dayNumber(date) ?? 0)
    ?.items.map(
      ({ kind, text }) => `${wornWords[kind]}${text === null ? '' : ` ${quoted(unnamed(text), mostLetters)}`}`,
    );
  return worn ? [t('It wears: {0}', worn.join(', '))] : [t('The case names no boots for this foot.')];
}

const wornWords = spoken({ shoe: 'shoe', pad: 'pad', cast: 'cast', boots: 'boots' });

function othersPart(feet: readonly FootToday[]): string {
  if (feet.length === 0) return '';
  return paragraph(
    t('No plan is open for: {0}. This page shows no cut there.', list(feet.map(({ foot }) => footWords[foot]))),
    'tight',
  );
}

function nextPart(page: PageOf): string {
  const next = nextDate(page.inspection.study.record.visits, page.date);
  if (!next) return lackPart(page, t('No next date is written.'));
  return paragraph(next.isPast ? t('{0}. That day has passed.', next.words) : t('{0}.', next.words), 'big');
}
