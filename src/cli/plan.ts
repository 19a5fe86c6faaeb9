import { shownDate } from '../../shared/language/dates.ts';
import { t } from '../../shared/language/words.ts';
import { statSync } from 'node:fs';
import { planDoubt } from '../../shared/findings/limits/plan-care.ts';
import { atEnd } from '../../shared/findings/limits/plan-place.ts';
import { isUnshodOn, planAt, tryCutAt, usualInterval } from '../../shared/findings/limits/planning.ts';
import { isFoot } from '../../shared/notation/vocabulary.ts';
import { feet, type FootName } from '../../shared/notation/choices.ts';
import { measuredValues, onToeJson } from '../../shared/export/measured.ts';
import { alarmLines, alarmsJson } from '../../shared/export/alarms.ts';
import { planVisit, sayBothOdds, sayGoal, sayOutlook } from '../../shared/edits/plan-notation.ts';
import { shownJson, shownLines } from '../../shared/export/shown-characters.ts';
import { sayBroken, sayNoLowest, saySize, sayStops, sayTurns } from '../../shared/findings/wording/say-cut.ts';
import { footWords, list, say, sentence, wordsFor } from '../../shared/findings/wording/wording.ts';
import type { CutFigures, Margin } from '../../shared/trim/cut-limits.ts';
import { cutFigures } from '../../shared/findings/limits/cut-limits.ts';
import type { Value } from '../../shared/measures/take.ts';
import type { Goal, Plan } from '../../shared/trim/plan.ts';
import type { Prediction } from '../../shared/trim/predict.ts';
import { takesNothing, type CutSize } from '../../shared/trim/stand.ts';
import type { Study, StudiedFilm } from '../../shared/trim/study.ts';
import { alarmsOf } from '../../shared/views/alarms.ts';
import type { AlarmsJson, PlannedJson } from '../../shared/export/json-shapes.ts';
import { eachCase } from './case-files.ts';
import { oneOf, Unusable, type Command, type OptionValue } from './command.ts';
import { inspected } from './inspected.ts';
import { numberOption } from './number-option.ts';
import { CommandProblem } from './problem.ts';
import { rootFrom, rootOption } from './picture-files.ts';
import { referenceOption, settingsWith } from './reference-files.ts';

/** What is asked of every case. */
interface PlanRequest {
  readonly foot: FootName;
  /** Null where a cut is to be predicted. */
  readonly goal: Goal | null;
  readonly size: CutSize;
  /** The heel on a plane of its own. */
  readonly twoPlanes: boolean;
  /** Days between the visits of an outlook. */
  readonly interval: number;
  /** In how many of a hundred placings the limits are kept; null for the setting. */
  readonly sure: number | null;
}

/** The codes of what stops a cut are given to programs, the words to people. */
interface Answer {
  readonly film: StudiedFilm;
  /** Null where no cut comes of it. */
  readonly cut: AnsweredCut | null;
  /** Of a plan what half a millimetre more would break, of a cut what it breaks. */
  readonly stoppedBy: readonly Margin[];
  /** Empty where none may be written down, or a cut was predicted; `says` then tells why. */
  readonly notation: string;
  readonly says: string;
  /** A sentence where the scale or the bearing plane of the film is in doubt, else empty. */
  readonly doubt: string;
  readonly notes: readonly string[];
  /** 1 where a cut breaks a limit, or no cut keeps them all. */
  readonly status: 0 | 1;
}

interface AnsweredCut {
  readonly size: CutSize;
  readonly prediction: Prediction;
  readonly figures: CutFigures;
  /** Null where a cut was predicted. */
  readonly plan: Plan | null;
  /** How sure the plan is, or the chance that a cut keeps every limit: of a hundred. */
  readonly sure: number;
}

export const plan: Command = {
  name: 'plan',
  usage:
    'ungula plan FILE… --foot LF (--to sole-plane|palmar-angle=5|most [--planes 2] [--back MM] [--sure 90] [--weeks 4] | --heel MM [--from MM] --toe MM --back MM --inside MM --outside MM) [--reference FILE]… [--root DIR] [--format text|json]',
  doc: 'Predicts a cut, or solves for the largest one that keeps every limit, and says what would follow.',
  options: {
    foot: { type: 'string' },
    to: { type: 'string' },
    planes: { type: 'string' },
    heel: { type: 'string' },
    from: { type: 'string' },
    toe: { type: 'string' },
    back: { type: 'string' },
    inside: { type: 'string' },
    outside: { type: 'string' },
    sure: { type: 'string' },
    weeks: { type: 'string' },
    reference: referenceOption,
    root: rootOption,
    format: { type: 'string' },
  },
  async run(names, given, io) {
    const format = oneOf('format', given['format'], ['text', 'json']);
    const asked = askedFor(given);
    const settings = await settingsWith(given['reference']);
    const root = await rootFrom(given['root']);
    const documents: PlannedJson[] = [];
    let brokenLimit = false;
    const problems = await eachCase(names, io, async (file) => {
      const inspection = await inspected(file, settings, root);
      const answer = answerFor(asked, inspection.study);
      const alarms = alarmLines(file.name, alarmsOf(inspection));
      if (format === 'text' && alarms.length > 0) io.out(shownLines([...alarms, '']));
      if (typeof answer === 'string') {
        documents.push({ ...without(file.name, answer, asked), alarms: alarmsJson(inspection) });
        throw new CommandProblem(answer);
      }
      brokenLimit ||= answer.status === 1;
      if (format === 'json') documents.push(json(file.name, alarmsJson(inspection), asked, answer));
      else io.out(text(file.name, asked, answer, alarms.length > 0));
    });
    if (format === 'json') {
      const [first] = documents;
      const one = first ?? without(names[0] ?? '', problems[0] ?? '', asked);
      io.out(shownJson(isOneCase(names) ? one : documents));
    }
    return problems.length > 0 ? 2 : brokenLimit ? 1 : 0;
  },
  emptyJson: (names, problem) => (isOneCase(names) ? without(names[0] ?? '', problem) : []),
};

/** Whether the JSON is one object or an array of them is told by what was asked, not by what was found. */
function isOneCase(names: readonly string[]): boolean {
  const [name, ...more] = names;
  if (name === undefined || more.length > 0) return false;
  try {
    return !statSync(name).isDirectory();
  } catch {
    return true;
  }
}

function askedFor(given: Readonly<Record<string, OptionValue>>): PlanRequest {
  const foot = given['foot'];
  if (typeof foot !== 'string' || !isFoot(foot)) throw new Unusable(t('plan wants a foot: --foot {0}', feet.join('|')));
  const goal = goalFrom(given['to']);
  const heel = numberOption('heel', given['heel']);
  const from = numberOption('from', given['from']);
  const planes = oneOf('planes', given['planes'], ['1', '2']);
  const toe = numberOption('toe', given['toe']);
  const back = numberOption('back', given['back']);
  const inside = numberOption('inside', given['inside']);
  const outside = numberOption('outside', given['outside']);
  const weeks = numberOption('weeks', given['weeks']);
  const sure = numberOption('sure', given['sure']);
  const size: CutSize = {
    heelDown: heel ?? 0,
    ...(from !== null && { heelFrom: from }),
    toeDown: toe ?? 0,
    toeBack: back ?? 0,
    ...(inside !== null && { insideDown: inside }),
    ...(outside !== null && { outsideDown: outside }),
  };
  if (goal) {
    if (heel !== null || toe !== null) throw new Unusable(t('--to solves for the cut: leave --heel and --toe out'));
    if (from !== null) throw new Unusable(t('--planes 2 finds the place that the heel is cut from: leave --from out'));
    if (inside !== null || outside !== null)
      throw new Unusable(t('How far a side may come down is never solved: leave --inside and --outside out'));
  } else {
    if (takesNothing(size)) throw new Unusable(t('plan wants a goal (--to sole-plane) or a cut (--heel 5)'));
    if (from !== null && heel === null)
      throw new Unusable(t('--from says where a heel cut begins: it goes with --heel'));
    if (given['planes'] !== undefined)
      throw new Unusable(t('--planes goes with --to; of a cut --from says where the plane of its own begins'));
    if (sure !== null)
      throw new Unusable(t('--sure says how surely a plan keeps its limits: it goes with --to, not with a cut'));
    if (weeks !== null)
      throw new Unusable(t('--weeks says how far the visits of a plan lie apart: it goes with --to, not with a cut'));
  }
  return { foot, goal, size, twoPlanes: planes === '2', interval: weeks === null ? usualInterval : 7 * weeks, sure };
}

function goalFrom(to: OptionValue): Goal | null {
  if (to === undefined) return null;
  if (to === 'sole-plane' || to === 'most') return { kind: to };
  if (typeof to !== 'string' || !to.startsWith('palmar-angle='))
    throw new Unusable(t('--to takes sole-plane, palmar-angle=DEGREES or most'));
  const angle = numberOption('to palmar-angle', to.slice('palmar-angle='.length));
  return { kind: 'palmar-angle', angle: angle ?? 0 };
}

function answerFor({ foot, goal, size, twoPlanes, interval, sure }: PlanRequest, study: Study): Answer | string {
  const place = atEnd(foot, study);
  if (!place)
    return study.films.some(({ film }) => film.foot === foot)
      ? t('No visit has a date, so nobody can tell how old the film is. Write it.')
      : t('There is no lateral film of the {0} foot to plan on. Add one.', footWords[foot]);
  if (!goal) {
    const tried = tryCutAt(place, size, study);
    if (typeof tried === 'string') return tried;
    const { film, prediction, broken, chance, notes, judge, care } = tried;
    const doubt = planDoubt(film, study);
    return {
      film,
      cut: { size, prediction, figures: judge.figures, plan: null, sure: 100 * chance },
      stoppedBy: broken,
      notation: '',
      says: care || doubt,
      doubt,
      notes,
      status: broken.length > 0 ? 1 : 0,
    };
  }
  const wish = { goal, interval, twoPlanes, toeBack: size.toeBack, ...(sure !== null && { sure }) };
  const { film, plan: made, none, says, notes: known } = planAt(place, wish, study);
  const bent = made && says === '' && !twoPlanes ? planAt(place, { ...wish, twoPlanes: true }, study).plan : null;
  const notes = bent
    ? [...known, t('With the heel on a plane of its own more comes off: {0} (--planes 2).', sayBothOdds(bent))]
    : known;
  if (!film || (!made && !none)) return says;
  return {
    film,
    cut: made && {
      size: made.size,
      prediction: made.prediction,
      figures: cutFigures(foot, study, film.day),
      plan: made,
      sure: sure ?? study.trim.sure,
    },
    stoppedBy: made ? made.stoppedBy : none?.kind === 'nothing' ? none.stoppedBy : [],
    notation: made && says === '' ? planVisit(foot, made, place.date, { isUnshod: isUnshodOn(film) }) : '',
    says,
    doubt: planDoubt(film, study),
    notes,
    status: made || none?.kind === 'there' || none?.kind === 'no more' ? 0 : 1,
  };
}

function goalName({ goal }: PlanRequest): string {
  if (goal === null) return 'cut';
  return goal.kind === 'palmar-angle' ? `palmar-angle=${goal.angle}` : goal.kind;
}

/** A case of which nothing can be said; without `asked` where the arguments were no use. */
function without(file: string, problem: string, asked?: PlanRequest): PlannedJson {
  return {
    ungula: 1,
    file,
    alarms: [],
    foot: asked?.foot ?? null,
    film: null,
    goal: asked ? goalName(asked) : null,
    stages: [],
    stoppedBy: [],
    notation: '',
    problem,
  };
}

function json(
  file: string,
  alarms: AlarmsJson,
  asked: PlanRequest,
  { film, cut, stoppedBy, notation, says, doubt, notes }: Answer,
): PlannedJson {
  const codes = [...new Set(stoppedBy.map(({ code }) => code))];
  return {
    ungula: 1,
    file,
    alarms,
    foot: asked.foot,
    film: { date: film.film.taken ?? film.visit.is.date, line: film.visit.line + film.film.line + 1 },
    goal: goalName(asked),
    stages: cut ? [stageJson(cut, codes)] : [],
    stoppedBy: codes,
    ...(cut && { sure: cut.sure }),
    ...(cut?.plan && { evenOdds: cut.plan.evenOdds }),
    ...(cut?.plan?.outlook && { outlook: { next: cut.plan.outlook.next, visits: cut.plan.outlook.visits } }),
    notes: [...notes],
    notation,
    ...(says !== '' && { withheld: says }),
    ...(doubt !== '' && { doubt }),
    problem: null,
  };
}

function stageJson({ size, prediction }: AnsweredCut, codes: string[]): PlannedJson['stages'][number] {
  return {
    week: 0,
    heel: size.heelDown,
    ...(size.heelFrom !== undefined && { from: size.heelFrom }),
    toe: size.toeDown,
    back: size.toeBack,
    ...(size.insideDown !== undefined && { inside: size.insideDown }),
    ...(size.outsideDown !== undefined && { outside: size.outsideDown }),
    delta: prediction.delta,
    predicted: measuredValues(prediction.values),
    ...(prediction.onToe && { ontoe: onToeJson(prediction.onToe) }),
    solecut: Object.fromEntries(Object.entries(prediction.soleCut).filter(([, depth]) => depth !== null)),
    stoppedBy: codes,
  };
}

/** `alarmed`: the alarms stand above already. */
function text(file: string, asked: PlanRequest, answer: Answer, alarmed: boolean): string {
  const { film, cut, notation, says, doubt, notes } = answer;
  const why = alarmed ? t('An alarm is open, so no cut is written down.') : says === doubt ? '' : says;
  const lines = [
    ...(doubt === '' ? [] : [doubt]),
    // Care comes before any millimetre.
    ...(why !== '' && cut ? [why] : []),
    t(
      '{0}: {1}, on the film of {2}, {3}',
      file,
      asked.foot,
      shownDate(film.film.taken ?? film.visit.is.date ?? ''),
      asked.goal ? sayGoal(asked.goal, { isUnshod: isUnshodOn(film) }) : t('a cut'),
    ),
    ...[...notes, ...(cut ? cutLines(cut, answer, asked.foot) : [])].map((line) => `  ${line}`),
  ];
  if (why !== '' && !cut) lines.push(`  ${why}`);
  if (notation) lines.push('', ...notation.split('\n'));
  return shownLines([...lines, '']);
}

/** A plan goes by the foot without what it wears on the film; a cut that is tried leaves it on, and limits go by the foot without. */
function sayAngle(
  angle: Value,
  toBearing: Value | undefined,
  { foot, isUnshod }: { readonly foot: FootName; readonly isUnshod: boolean },
): string {
  const words = wordsFor(angle.measure, foot);
  const said = say(angle.value, 'deg');
  if (isUnshod) return t('{0} to the bearing plane then {1}', words, said);
  if (!toBearing) return t('{0} then {1}', words, said);
  return t('{0} then {1} to the ground, {2} to the bearing plane', words, said, say(toBearing.value, 'deg'));
}

function cutLines(
  { size, prediction, figures, plan: made, sure }: AnsweredCut,
  { stoppedBy, film }: Answer,
  foot: FootName,
): string[] {
  const cut = made
    ? t('heel down {0}{1}', sayBothOdds(made), size.toeBack > 0 ? t(', toe back {0} mm', size.toeBack) : '')
    : saySize(size);
  const angle = prediction.values.get('palmar-angle');
  const isShod = isUnshodOn(film);
  const toeAngle = prediction.onToe?.values.get('palmar-angle');
  const leaves = [
    sayTurns(prediction),
    angle && toeAngle
      ? t('{0} then {1} or {2}', wordsFor(angle.measure, foot), say(angle.value, 'deg'), say(toeAngle.value, 'deg'))
      : angle
        ? sayAngle(angle, prediction.values.get('palmar-angle.bearing'), { foot, isUnshod: isShod && made !== null })
        : '',
  ].filter((part) => part !== '');
  const lines = [`${sentence(cut)}${leaves.length > 0 ? `: ${leaves.join(', ')}` : ''}.`];
  if (!made)
    return stoppedBy.length > 0
      ? [...lines, t('Breaks a limit: {0}.', sayBroken(stoppedBy, { isUnshod: isShod }).join('; '))]
      : [
          ...lines,
          t('Every limit is kept, in {0} of 100 placings.', Math.round(sure)),
          ...[sayNoLowest(figures)].filter((one) => one !== ''),
          ...(size.insideDown || size.outsideDown
            ? [t('Of a side only the heel is judged: live sole is not visible from in front.')]
            : []),
        ];
  if (stoppedBy.length > 0)
    lines.push(t('What stops it: {0}.', list(sayStops(stoppedBy, figures, { isUnshod: isShod }))));
  const outlook = sayOutlook(made);
  if (outlook !== '') lines.push(outlook);
  if (prediction.onToe) lines.push(t('After it nothing is foretold until the next film.'));
  return [
    ...lines,
    t('Every limit is kept in {0} of 100 placings of this film. What it does not show is not in that.', sure),
  ];
}
