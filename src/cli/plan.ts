import { statSync } from 'node:fs';
import { filmToPlanOn, planDoubt, planOn, tryCut, usualInterval } from '../../shared/findings/limits/planning.ts';
import { isFoot } from '../../shared/notation/vocabulary.ts';
import { feet, type FootName } from '../../shared/notation/choices.ts';
import { measuredValues } from '../../shared/export/measured.ts';
import { alarmLines, alarmsJson } from '../../shared/export/alarms.ts';
import { planVisits, sayGoal } from '../../shared/edits/plan-notation.ts';
import { shownJson, shownLines } from '../../shared/export/shown-characters.ts';
import { say } from '../../shared/findings/wording/wording.ts';
import type { Goal } from '../../shared/trim/plan.ts';
import type { Prediction } from '../../shared/trim/predict.ts';
import type { CutSize } from '../../shared/trim/stand.ts';
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

interface PlanRow {
  readonly week: number;
  readonly size: CutSize;
  readonly prediction: Prediction;
  readonly stoppedBy: readonly string[];
}

/** What is asked of every case. */
interface PlanRequest {
  readonly foot: FootName;
  /** Null where a cut is to be predicted. */
  readonly goal: Goal | null;
  readonly size: CutSize;
  /** Days between the visits of a plan. */
  readonly interval: number;
}

interface Answer {
  readonly film: StudiedFilm;
  readonly rows: readonly PlanRow[];
  readonly reached: boolean;
  readonly stoppedBy: readonly string[];
  /** Empty where the scale of the film is in doubt: nothing is written down that rests on it. */
  readonly notation: string;
  /** A sentence where the scale of the film is in doubt, else empty. */
  readonly doubt: string;
}

export const plan: Command = {
  name: 'plan',
  usage:
    'ungula plan FILE… --foot LF (--to sole-plane|palmar-angle=5|most [--back MM] [--weeks 4] | --heel MM --toe MM --back MM) [--reference FILE]… [--root DIR] [--format text|json]',
  doc: 'Predicts a cut, or solves for one that keeps every limit, in stages where one visit may not take it all.',
  options: {
    foot: { type: 'string' },
    to: { type: 'string' },
    heel: { type: 'string' },
    toe: { type: 'string' },
    back: { type: 'string' },
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
      brokenLimit ||= answer.rows.length === 0 || (asked.goal === null && answer.stoppedBy.length > 0);
      if (format === 'json') documents.push(json(file.name, alarmsJson(inspection), asked, answer));
      else io.out(text(file.name, asked, answer));
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
  if (typeof foot !== 'string' || !isFoot(foot)) throw new Unusable(`plan wants a foot: --foot ${feet.join('|')}`);
  const goal = goalFrom(given['to']);
  const heel = numberOption('heel', given['heel']);
  const toe = numberOption('toe', given['toe']);
  const back = numberOption('back', given['back']);
  const weeks = numberOption('weeks', given['weeks']);
  const size = { heelDown: heel ?? 0, toeDown: toe ?? 0, toeBack: back ?? 0 };
  if (goal) {
    if (heel !== null || toe !== null) throw new Unusable('--to solves for the cut: leave --heel and --toe out');
  } else {
    if (size.heelDown + size.toeDown + size.toeBack === 0)
      throw new Unusable('plan wants a goal (--to sole-plane) or a cut (--heel 5)');
    if (weeks !== null)
      throw new Unusable('--weeks says how far the visits of a plan lie apart: it goes with --to, not with a cut');
  }
  return { foot, goal, size, interval: weeks === null ? usualInterval : 7 * weeks };
}

function goalFrom(to: OptionValue): Goal | null {
  if (to === undefined) return null;
  if (to === 'sole-plane' || to === 'most') return { kind: to };
  if (typeof to !== 'string' || !to.startsWith('palmar-angle='))
    throw new Unusable('--to takes sole-plane, palmar-angle=DEGREES or most');
  const angle = numberOption('to palmar-angle', to.slice('palmar-angle='.length));
  return { kind: 'palmar-angle', angle: angle ?? 0 };
}

function answerFor({ foot, goal, size, interval }: PlanRequest, study: Study): Answer | string {
  const film = filmToPlanOn(foot, study);
  if (!film) return `there is no lateral film of ${foot} to plan on`;
  const date = film.visit.is.date ?? '';
  const doubt = planDoubt(film, study);
  if (film.readings.every(({ taking: { frame } }) => frame?.isOnBearing === false))
    return 'the foot is shod on its film: place `bearing`, the plane between hoof and shoe';
  if (!goal) {
    const tried = tryCut(film, size, study);
    if (!tried)
      return 'the film cannot predict a cut: it needs a scale, heel.ground and toe.ground, and something to stand on after it';
    const row = { week: 0, size, prediction: tried.prediction, stoppedBy: tried.broken };
    return {
      film,
      rows: [row],
      reached: tried.broken.length === 0,
      stoppedBy: tried.broken,
      notation: '',
      doubt,
    };
  }
  const made = planOn(film, goal, study, { interval, toeBack: size.toeBack });
  if (!made)
    return `the film does not say how far it is ${sayGoal(goal)}: place heel.ground, toe.ground and ${goal.kind === 'sole-plane' ? 'sole.heel' : 'p3.tip and p3.wing'}, and give a scale; or it is there already`;
  const rows = made.stages.map(({ day, ...stage }) => ({ week: day / 7, ...stage }));
  return {
    film,
    rows,
    reached: made.reached,
    stoppedBy: made.stoppedBy,
    notation: doubt === '' ? planVisits(foot, goal, made, date) : '',
    doubt,
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
  { film, rows, stoppedBy, notation, doubt }: Answer,
): PlannedJson {
  return {
    ungula: 1,
    file,
    alarms,
    foot: asked.foot,
    film: { date: film.film.taken ?? film.visit.is.date, line: film.visit.line + film.film.line + 1 },
    goal: goalName(asked),
    stages: rows.map(({ week, size, prediction, stoppedBy: by }) => ({
      week,
      heel: size.heelDown,
      toe: size.toeDown,
      back: size.toeBack,
      delta: prediction.delta,
      predicted: measuredValues(prediction.values),
      solecut: Object.fromEntries(Object.entries(prediction.soleCut).filter(([, depth]) => depth !== null)),
      stoppedBy: [...by],
    })),
    stoppedBy: [...stoppedBy],
    notation,
    ...(doubt !== '' && { doubt }),
    problem: null,
  };
}

function text(file: string, asked: PlanRequest, { film, rows, reached, stoppedBy, notation, doubt }: Answer): string {
  const lines = [
    ...(doubt === '' ? [] : [doubt]),
    `${file}: ${asked.foot}, on the film of ${film.film.taken ?? film.visit.is.date}, ${goalName(asked)}`,
  ];
  for (const { week, size, prediction, stoppedBy: by } of rows) {
    const angle = prediction.values.get('palmar-angle');
    lines.push(
      `  week ${week}: heel down ${size.heelDown} mm${size.toeDown > 0 ? `, toe down ${size.toeDown} mm` : ''}${size.toeBack > 0 ? `, toe back ${size.toeBack} mm` : ''}` +
        `; the foot turns ${prediction.delta.toFixed(1)}°${angle ? `, palmar angle ${say(angle.value, 'deg')}` : ''}${by.length > 0 ? `; ${asked.goal ? 'stopped by' : 'breaks'} ${by.join(', ')}` : ''}`,
    );
  }
  if (rows.length === 0) lines.push(`  no cut keeps every limit: ${stoppedBy.join(' and ')} stand in the way`);
  else if (asked.goal && !reached)
    lines.push(`  the goal is not reached within the limits: ${stoppedBy.join(' and ')} meet`);
  if (notation) lines.push('', ...notation.split('\n'));
  return shownLines([...lines, '']);
}
