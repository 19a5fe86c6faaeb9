import type { Range } from '../notation/signature.ts';

/** How much one visit may do and how old a film may be: the limits that no measure carries. Each is a setting. */
export interface TrimSettings {
  /** mm of heel in one trim. Common practice, no source: no more than 10 mm, rather several trims some days apart. */
  readonly heelPerVisit: number;
  /** Degrees by which one visit may turn the bone. A judgement of ours: about what 10 mm of heel does on a long foot. */
  readonly turnPerVisit: number;
  /** mm of horn that stay outside the lamellae at the toe. Common practice, no source: a bevel stays 5 mm clear. */
  readonly hornAtToe: number;
  /** Days after which a film no longer shows the foot that is planned for. A judgement of ours, from the 4 to 6 weeks of a trimming cycle. */
  readonly filmAge: number;
  /** Days to the next visit of a distorted foot. Lesniak 2017: 4 to 6 weeks, not over 6. */
  readonly interval: number;
  /** mm a day by which the wall grows. A toe of 85 to 90 mm is renewed in 11 to 13 months (Lungwitz): 0.22 to 0.27 mm a day. */
  readonly growth: number;
  /** Of a hundred placings of the same film in how many a plan keeps every limit. 50 is even odds. A judgement of ours. */
  readonly sure: number;
}

export const usualTrim: TrimSettings = {
  heelPerVisit: 10,
  turnPerVisit: 5,
  hornAtToe: 5,
  filmAge: 42,
  interval: 42,
  growth: 0.24,
  sure: 90,
};

/** How far each may be set: above 0, and no further than this. */
export const trimRanges: Readonly<Record<keyof TrimSettings, Range>> = {
  heelPerVisit: { low: 0, high: 30, unit: 'mm' },
  turnPerVisit: { low: 0, high: 20, unit: 'deg' },
  hornAtToe: { low: 0, high: 20, unit: 'mm' },
  filmAge: { low: 0, high: 365, unit: 'days' },
  interval: { low: 0, high: 365, unit: 'days' },
  growth: { low: 0, high: 1, unit: 'mm' },
  sure: { low: 50, high: 99, unit: '%' },
};
