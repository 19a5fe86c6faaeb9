import type { StudiedVisit, Study } from '../../trim/study.ts';
import type { Cut, Placed, Visit } from '../../record/schema.ts';
import type { Finding } from '../finding.ts';

/** How findings are shown that speak of a film or cut which a newer one of the same foot has replaced. */
export const pastWords = ['hint', 'as new', 'off'] as const;
export type Past = (typeof pastWords)[number];
export const usualPast: Past = 'hint';

/** Reads the setting, written with a hyphen or a space; null where it is not one of the values. */
export function readPast(written: unknown): Past | null {
  return typeof written === 'string' ? (pastWords.find((word) => word === written.replace('-', ' ')) ?? null) : null;
}

/** The findings, those of the past shown as set. The same array where nothing changes. */
export function withPast(findings: readonly Finding[], wanted: Past): readonly Finding[] {
  if (wanted === 'as new' || !findings.some(({ past }) => past)) return findings;
  if (wanted === 'off') return findings.filter(({ past }) => !past);
  return findings.map((finding) => (finding.past ? { ...finding, severity: 'hint' } : finding));
}

/** A day and a place in the text. */
interface Moment {
  readonly day: number;
  readonly at: number;
  /** Of a plan the visit that it stands in: it leaves what is planned or done beside it as it is. */
  readonly planIn: Placed<Visit> | null;
}

/** What a trim may have cut that grows back in weeks at best: no later line makes it past, only the film that shows what is left. */
const done: ReadonlySet<string> = new Set([
  'trim/live-sole',
  'trim/below-sole-plane',
  'trim/heel-since-film',
  'trim/palmar-angle',
  'trim/sole-depth',
  'trim/wall-left',
]);

/** The same of a foot that is not filmed: the next tape shows what is left. */
const doneByHand: ReadonlySet<string> = new Set(['trim/by-hand']);

/**
 * Knows which plans and trims are past: those whose foot has a later film, plan or trim. Later by the day and by the text: a date
 * that is mistyped must not make a cut past. Nor does a cut that says no millimetres, as nothing is known of it.
 */
export class PastCuts {
  private readonly films = new Map<string, Moment[]>();
  private readonly cuts = new Map<string, Moment[]>();
  private readonly tapes = new Map<string, Moment[]>();

  constructor({ films, cuts, visits }: Pick<Study, 'films' | 'cuts' | 'visits'>) {
    for (const { day, visit } of visits)
      if (day !== null)
        for (const { foot, at } of visit.is.tapes)
          this.note(foot, { day, at: visit.start + at.start, planIn: null }, this.tapes);
    for (const { film, day, visit } of films)
      if (film.kind === 'film' && day !== null)
        this.note(film.foot, { day, at: visit.start + film.at.start, planIn: null }, this.films);
    for (const { cut, day, visit } of cuts)
      if (day !== null && takes(cut)) {
        const planIn = cut.kind === 'plan' ? visit : null;
        this.note(cut.foot, { day, at: visit.start + cut.at.start, planIn }, this.cuts);
      }
  }

  /** The findings of a visit, those of past cuts marked as past. The same array where no cut is past. */
  marked(told: readonly Finding[], { cuts, day, visit }: StudiedVisit): readonly Finding[] {
    if (cuts.length === 0 || day === null) return told;
    const past = cuts.flatMap(({ cut }) => {
      const [start, end] = [visit.start + cut.at.start, visit.start + cut.at.end];
      // A trim of several feet is past where each of them has something later. Looked for from the end of the text, where it
      // most often stands: else a long case would be walked through for each cut.
      const isLater = (one: Moment): boolean => one.day >= day && one.at > start && one.planIn !== visit;
      const isFilmed = (foot: string): boolean => this.films.get(foot)?.findLast(isLater) !== undefined;
      // What one visit may do is told of the day as a whole: no block of the same day makes a trim of it past.
      const isCut = (foot: string): boolean =>
        this.cuts.get(foot)?.findLast((one) => isLater(one) && (cut.kind === 'plan' || one.day > day)) !== undefined;
      if (!cut.feet.every((foot) => isFilmed(foot) || isCut(foot))) return [];
      const alsoDone = cut.kind === 'plan' || cut.feet.every(isFilmed);
      const isTaped = (foot: string): boolean => this.tapes.get(foot)?.findLast(isLater) !== undefined;
      return [{ start, end, alsoDone, alsoByHand: alsoDone || cut.feet.every(isTaped) }];
    });
    if (past.length === 0) return told;
    const isPast = ({ code, at }: Finding): boolean =>
      code.startsWith('trim/') &&
      past.some(
        ({ start, end, alsoDone, alsoByHand }) =>
          start <= at.start && at.end <= end && (alsoDone || !done.has(code)) && (alsoByHand || !doneByHand.has(code)),
      );
    return told.some(isPast) ? told.map((one) => (isPast(one) ? { ...one, past: true } : one)) : told;
  }

  private note(foot: string, moment: Moment, among: Map<string, Moment[]>): void {
    const known = among.get(foot);
    if (known) known.push(moment);
    else among.set(foot, [moment]);
  }
}

const takes = ({ heelDown, toeDown, toeBack }: Cut): boolean =>
  [heelDown, toeDown, toeBack].some((size) => size !== null);
