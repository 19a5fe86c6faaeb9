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

/** What was taken in one way: by film, on a photo or by hand. Nothing is drawn from one series to another. */
export interface StaveSeries {
  readonly source: 'film' | 'photo' | 'hand';
  /** What is said of a value where it does not stand alone: `by hand`; nothing of films. */
  readonly sourceWords: string;
  readonly points: readonly StavePoint[];
  readonly changes: readonly StaveChange[];
  readonly trend: StaveTrend | null;
}

export interface StaveRow extends StaveSeries {
  readonly measure: string;
  /** `Palmar angle`. */
  readonly words: string;
  readonly unit: 'deg' | 'mm' | '%' | '1';
  readonly usual: { readonly low: number | null; readonly high: number | null } | null;
  readonly usualText: string;
  /** One thing more to say below the words, such as when the wall has grown out. */
  readonly note: string | null;
  /** The same measure taken in other ways, on the same scale. */
  readonly beside: readonly StaveSeries[];
}

/** All series of a row. */
export const seriesOf = (row: StaveRow): readonly StaveSeries[] => [row, ...row.beside];

export interface StaveTrim {
  readonly day: number;
  readonly words: string;
}

/** A day with films, photos or values by hand: where the cursor stops. */
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
