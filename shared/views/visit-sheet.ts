import { sayQuantity } from '../language/figures.ts';
import { t } from '../language/words.ts';
import type { Inspection } from '../findings/inspect.ts';
import { footWords, list } from '../findings/wording/wording.ts';
import { dayNumber } from '../notation/dates.ts';
import { LineMap } from '../notation/line-map.ts';
import { cutWords } from './film-sheet.ts';
import { seenWords } from './seen-words.ts';
import { grouped } from './grouped.ts';

/** One visit at a glance: how the animal was, and what was done. Plain data, words ready to be shown. */
export interface VisitSheet {
  readonly date: string | null;
  /** Days since 1970-01-01; null where the visit has no date. */
  readonly day: number | null;
  readonly title: string | null;
  /** First and last line of its block, from 0. */
  readonly line: number;
  readonly endLine: number;
  /** `Obel 2`; null where no grade is written. */
  readonly comfort: string | null;
  /** `512 kg`. */
  readonly weight: string | null;
  /** `Trim left fore: heel down 5 mm`; trims before plans, since they are what was done. */
  readonly done: readonly string[];
  /** What was seen, found in the blood, and put on or taken off the feet: `Shoe on left fore: 10 mm`. */
  readonly seen: readonly string[];
  /** The picture of its first film, else of its first picture that is not measured, as written; null where it has none. */
  readonly picture: string | null;
}

/** In the order of the text. */
export function visitSheets({ study, tree }: Pick<Inspection, 'study' | 'tree'>): VisitSheet[] {
  const map = new LineMap(tree.text);
  const cutsOf = grouped(study.cuts, ({ visit }) => visit);
  return study.record.visits.map((visit) => {
    const { date, title, obel, weight, films, pictures, at } = visit.is;
    const cuts = cutsOf.get(visit) ?? [];
    const done = (['trim', 'plan'] as const).flatMap((kind) =>
      cuts
        // What is done to several feet alike is said once.
        .filter(({ cut }) => cut.kind === kind && cut.foot === cut.feet[0])
        .map((cut) => {
          const where = list(cut.cut.feet.map((foot) => footWords[foot]));
          return kind === 'plan' ? t('Plan {0}: {1}', where, cutWords(cut)) : t('Trim {0}: {1}', where, cutWords(cut));
        }),
    );
    return {
      date,
      day: date === null ? null : dayNumber(date),
      title,
      line: visit.line,
      endLine: map.at(visit.start + at.end).line,
      comfort: obel && t('Obel {0}', obel.value),
      weight: weight && sayQuantity(weight),
      done,
      seen: seenWords(visit.is),
      picture: (films[0] ?? pictures[0])?.path.text ?? null,
    };
  });
}
