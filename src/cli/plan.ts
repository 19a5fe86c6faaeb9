import { filmToPlanOn, planOn, tryCut, usualInterval } from '../../shared/findings/planning.ts';
import { feet, isFoot } from '../../shared/notation/vocabulary.ts';
import { measuredValues } from '../../shared/report/measured.ts';
import { planVisits, sayGoal } from '../../shared/report/plan-notation.ts';
import { say } from '../../shared/findings/wording.ts';
import type { Goal } from '../../shared/trim/plan.ts';
import type { Prediction } from '../../shared/trim/predict.ts';
import type { CutSize } from '../../shared/trim/stand.ts';
import type { Study, StudiedFilm } from '../../shared/trim/study.ts';
import { readCaseFiles } from './case-files.ts';
import { oneOf, Unusable, type Command, type OptionValue } from './command.ts';
import { inspected } from './inspected.ts';
import { rootFrom, rootOption, withScales } from './picture-files.ts';

/** Numbers that a shell passes on: `6`, `5.5`. */
const options = {
  foot: { type: 'string' },
  to: { type: 'string' },
  heel: { type: 'string' },
  toe: { type: 'string' },
  back: { type: 'string' },
  weeks: { type: 'string' },
  format: { type: 'string' },
  root: rootOption,
} as const;

interface PlanRow {
  readonly week: number;
  readonly size: CutSize;
  readonly prediction: Prediction;
  readonly stoppedBy: readonly string[];
}

interface Answer {
  readonly file: string;
  readonly foot: string;
  readonly film: StudiedFilm;
  readonly goal: string;
  readonly rows: readonly PlanRow[];
  readonly reached: boolean;
  readonly stoppedBy: readonly string[];
  readonly notation: string;
}

export const plan: Command = {
  name: 'plan',
  usage:
    'ungula plan FILE… --foot LF (--to sole-plane|palmar-angle=5|most | --heel MM --toe MM --back MM) [--weeks 4] [--format text|json] [--root DIR]',
  doc: 'Predicts a cut, or solves for one that keeps every limit, in stages where one visit may not take it all.',
  options,
  async run(names, given, io) {
    const format = oneOf('format', given['format'], ['text', 'json']);
    const foot = given['foot'];
    if (typeof foot !== 'string' || !isFoot(foot)) throw new Unusable(`plan wants a foot: --foot ${feet.join('|')}`);
    const goal = goalFrom(given['to']);
    const size = {
      heelDown: mm('heel', given['heel']),
      toeDown: mm('toe', given['toe']),
      toeBack: mm('back', given['back']),
    };
    if (!goal && size.heelDown + size.toeDown + size.toeBack === 0)
      throw new Unusable('plan wants a goal (--to sole-plane) or a cut (--heel 5)');
    if (goal && size.heelDown + size.toeDown > 0)
      throw new Unusable('--to solves for the cut: leave --heel and --toe out');
    const interval = given['weeks'] === undefined ? usualInterval : 7 * mm('weeks', given['weeks']);
    const root = await rootFrom(given['root']);
    const { files: found, unreadable } = await readCaseFiles(names, io);
    const files = await withScales(found, root);
    const answers: Answer[] = [];
    let without = false;
    for (const file of files) {
      const { study } = inspected(file);
      const answer = answerFor(file.name, foot, goal, size, interval, study);
      if (typeof answer === 'string') {
        without = true;
        io.err(`${file.name}: ${answer}`);
      } else answers.push(answer);
    }
    if (format === 'json')
      io.out(`${JSON.stringify(answers.length === 1 ? json(answers[0] as Answer) : answers.map(json), null, 2)}\n`);
    else for (const answer of answers) io.out(text(answer));
    return unreadable || without
      ? 2
      : answers.some(({ stoppedBy, rows }) => rows.length === 0 || (!goal && stoppedBy.length > 0))
        ? 1
        : 0;
  },
};

function goalFrom(to: OptionValue): Goal | null {
  if (to === undefined) return null;
  if (to === 'sole-plane' || to === 'most') return { kind: to };
  const angle = typeof to === 'string' ? /^palmar-angle=(-?\d+(?:\.\d+)?)$/.exec(to)?.[1] : undefined;
  if (angle === undefined) throw new Unusable('--to takes sole-plane, palmar-angle=DEGREES or most');
  return { kind: 'palmar-angle', angle: Number(angle) };
}

function mm(name: string, written: OptionValue): number {
  if (written === undefined) return 0;
  const value = typeof written === 'string' && /^\d+(?:\.\d+)?$/.test(written) ? Number(written) : NaN;
  if (!Number.isFinite(value)) throw new Unusable(`--${name} takes a number, such as 5.5`);
  return value;
}

function answerFor(
  file: string,
  foot: string,
  goal: Goal | null,
  size: CutSize,
  interval: number,
  study: Study,
): Answer | string {
  const film = filmToPlanOn(foot, study);
  if (!film) return `there is no lateral film of ${foot} to plan on`;
  const date = film.visit.is.date ?? '';
  if (!goal) {
    const tried = tryCut(film, size, study);
    if (!tried)
      return 'the film cannot predict a cut: it needs a scale, heel.ground and toe.ground, and something to stand on after it';
    const row = { week: 0, size, prediction: tried.prediction, stoppedBy: tried.broken };
    return {
      file,
      foot,
      film,
      goal: 'cut',
      rows: [row],
      reached: tried.broken.length === 0,
      stoppedBy: tried.broken,
      notation: '',
    };
  }
  const made = planOn(film, goal, study, { interval });
  if (!made)
    return `the film does not say how far it is ${sayGoal(goal)}: place heel.ground, toe.ground and ${goal.kind === 'sole-plane' ? 'sole.heel' : 'p3.tip and p3.wing'}, and give a scale; or it is there already`;
  const rows = made.stages.map(({ day, ...stage }) => ({ week: day / 7, ...stage }));
  const name = goal.kind === 'palmar-angle' ? `palmar-angle=${goal.angle}` : goal.kind;
  return {
    file,
    foot,
    film,
    goal: name,
    rows,
    reached: made.reached,
    stoppedBy: made.stoppedBy,
    notation: planVisits(foot, goal, made, date),
  };
}

function json({ foot, film, goal, rows, stoppedBy, notation }: Answer) {
  return {
    ungula: 1,
    foot,
    film: { date: film.film.taken ?? film.visit.is.date, line: film.visit.line + film.film.line + 1 },
    goal,
    stages: rows.map(({ week, size, prediction, stoppedBy: by }) => ({
      week,
      heel: size.heelDown,
      toe: size.toeDown,
      back: size.toeBack,
      delta: prediction.delta,
      predicted: measuredValues(prediction.values),
      solecut: Object.fromEntries(Object.entries(prediction.soleCut).filter(([, depth]) => depth !== null)),
      stoppedBy: by,
    })),
    stoppedBy,
    notation,
  };
}

function text({ file, foot, film, goal, rows, reached, stoppedBy, notation }: Answer): string {
  const lines = [`${file}: ${foot}, on the film of ${film.film.taken ?? film.visit.is.date}, ${goal}`];
  for (const { week, size, prediction, stoppedBy: by } of rows) {
    const angle = prediction.values.get('palmar-angle');
    lines.push(
      `  week ${week}: heel down ${size.heelDown} mm${size.toeDown > 0 ? `, toe down ${size.toeDown} mm` : ''}${size.toeBack > 0 ? `, toe back ${size.toeBack} mm` : ''}` +
        `; the foot turns ${prediction.delta.toFixed(1)}°${angle ? `, palmar angle ${say(angle.value, 'deg')}` : ''}${by.length > 0 ? `; ${notation ? 'stopped by' : 'breaks'} ${by.join(', ')}` : ''}`,
    );
  }
  if (rows.length === 0) lines.push(`  no cut keeps every limit: ${stoppedBy.join(' and ')} stand in the way`);
  else if (notation && !reached)
    lines.push(`  the goal is not reached within the limits: ${stoppedBy.join(' and ')} meet`);
  if (notation) lines.push('', notation);
  return `${lines.join('\n')}\n\n`;
}
