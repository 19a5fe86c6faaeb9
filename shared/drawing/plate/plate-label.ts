/** A measure that is lettered beside the foot. */
export interface PlateLabel {
  /** The measure's name in the notation: `palmar-angle`. */
  measure: string;
  /** Its name in the trade's words: `palmar angle`. */
  words: string;
  /** The value as it is read: `7.4° ± 0.6`. */
  text: string;
  value: number;
  unit: 'deg' | 'mm' | '%';
  band: { low: number | null; high: number | null } | null;
  state: 'within' | 'low' | 'high' | 'act' | 'unsure' | 'none';
  /** Half the width of the value's interval, drawn as a bar on the rule. */
  error?: number;
  /** Where the band comes from, told where the pointer rests on the label. */
  source?: string;
  /** What a cut that is laid over the plate makes of it. */
  after?: { readonly value: number; readonly text: string };
}
