/** What a stave is drawn from: plain data, days since 1970-01-01, all words ready to be shown. */

export interface StavePoint {
  readonly day: number;
  readonly value: number;
  /** Half the height of its stroke, in the measure's unit: 1.96 standard deviations. */
  readonly error: number;
  /** `7.4° ± 0.6`. */
  readonly text: string;
  readonly state: 'within' | 'low' | 'high' | 'act' | 'unsure' | 'none';
}

export interface StaveChange {
  /** Places among the points. */
  readonly from: number;
  readonly to: number;
  readonly clear: boolean;
  /** A length, compared with a film whose scale is in doubt. */
  readonly doubted?: boolean;
  /** What of it comes from another shoe; empty where nothing does. */
  readonly shoe?: string;
  /** `−2.1°`. */
  readonly text: string;
}

/** A line through `middle` and the two slopes that bound it, each by day. */
export interface StaveTrend {
  readonly slope: number;
  readonly low: number;
  readonly high: number;
  readonly middle: { readonly day: number; readonly value: number };
  /** Whether the films are enough to carry 95 %. */
  readonly carried: boolean;
  readonly words: string;
}

export interface StaveRow {
  readonly measure: string;
  /** `Palmar angle`. */
  readonly words: string;
  readonly unit: 'deg' | 'mm' | '%' | '1';
  readonly usual: { readonly low: number | null; readonly high: number | null } | null;
  readonly usualText: string;
  /** One thing more to say below the words, such as when the wall has grown out. */
  readonly note: string | null;
  readonly points: readonly StavePoint[];
  readonly changes: readonly StaveChange[];
  readonly trend: StaveTrend | null;
}

export interface StaveTrim {
  readonly day: number;
  readonly words: string;
}

/** A day with films: where the cursor stops. */
export interface StaveStop {
  readonly day: number;
  /** `2026-03-03`. */
  readonly date: string;
}

export interface StaveInput {
  /** CSS pixels: the drawing is made to fit, so that its letters stay as large as they are. */
  readonly width: number;
  /** In the order of their days. */
  readonly stops: readonly StaveStop[];
  readonly trims: readonly StaveTrim[];
  readonly rows: readonly StaveRow[];
  readonly title: string;
  readonly description: string;
  /** For a picture that stands alone: what is above it, and what explains its signs below. */
  readonly alone?: { readonly heading: string; readonly key: string };
}
