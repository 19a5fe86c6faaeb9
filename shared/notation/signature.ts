/**
 * What a statement takes, as data. The parser checks against it, completion offers from it, hover and the
 * docs print it: a word's arguments are written down here once and nowhere else.
 */

export type Dimension =
  | 'length'
  | 'stature'
  | 'angle'
  | 'share'
  | 'mass'
  | 'time'
  | 'resolution'
  | 'insulin'
  | 'acth'
  | 'glucose'
  | 'triglycerides'
  | 'hormone'
  | 'delay'
  | 'warmth';

/** The lowest and the highest number that counts, both included, in a unit of the notation, `px`, or `1` for a plain number. */
export interface Range {
  readonly low: number;
  readonly high: number;
  readonly unit: string;
}

/** Ranges of what a measure decides the dimension of: by that of the unit, `plain` where none is written. */
export type MeasuredRanges = Readonly<Record<'length' | 'angle' | 'share' | 'plain', Range>>;

interface Slot {
  /** Key under which the matched argument is found in the statement. */
  readonly name: string;
  readonly optional?: true;
  /** One or more of them. */
  readonly many?: true;
}

export type Argument =
  | (Slot & { readonly take: 'text' })
  | (Slot & { readonly take: 'date'; readonly partial?: true })
  /** `grades`: what is said of a number that is none of them, where its range alone would say too little. */
  | (Slot & { readonly take: 'number'; readonly range: Range; readonly step?: number; readonly grades?: string })
  | (Slot & { readonly take: 'quantity'; readonly dimension: Dimension; readonly range: Range })
  /** A quantity whose dimension the measure named before it decides. */
  | (Slot & { readonly take: 'measured'; readonly ranges: MeasuredRanges })
  | (Slot & { readonly take: 'foot' })
  | (Slot & { readonly take: 'choice'; readonly of: readonly string[] })
  /** `denials`: words that say that there is none, for which no line is written. */
  | (Slot & { readonly take: 'word'; readonly known: readonly string[]; readonly denials: ReadonlySet<string> })
  /** Letters and digits in one piece, or a text: a chip number, a study code. */
  | (Slot & { readonly take: 'code'; readonly characters?: number; readonly digits?: true })
  | (Slot & { readonly take: 'measure' })
  /** The code of a finding; which there are is not known here. */
  | (Slot & { readonly take: 'finding' })
  | (Slot & { readonly take: 'relation' })
  | (Slot & { readonly take: 'point'; readonly range: Range })
  | (Slot & { readonly take: 'segment'; readonly range: Range })
  /** `+- n`, in pixels; with `measured`, in the measure's own unit. */
  | (Slot & { readonly take: 'spread'; readonly measured?: never; readonly range: Range })
  | (Slot & { readonly take: 'spread'; readonly measured: true; readonly ranges: MeasuredRanges })
  /** A fixed sign or word that only guides the eye. */
  | (Slot & { readonly take: 'mark'; readonly text: string });

export type Form = readonly Argument[];

/** The optional mark that goes by the argument's name and stands right before it: there are both of the two or neither. */
export function markBefore(form: Form, place: number): Argument | null {
  const before = form[place - 1];
  return before?.take === 'mark' && before.optional && before.name === form[place]?.name ? before : null;
}

/** How a form is written in documentation: `FOOT… [QUANTITY] [wedge QUANTITY] [TEXT]`. */
export function writeForm(form: Form): string {
  return form
    .map(writeArgument)
    .map((written, place) => (markBefore(form, place) ? written.slice(1) : written))
    .map((written, place) => (markBefore(form, place + 1) ? written.slice(0, -1) : written))
    .join(' ');
}

/** How an argument is written in documentation: `QUANTITY`, `[TEXT]`, `toe|heel|sole`. */
export function writeArgument(argument: Argument): string {
  const body = argumentBody(argument);
  const many = argument.many ? `${body}…` : body;
  return argument.optional ? `[${many}]` : many;
}

function argumentBody(argument: Argument): string {
  switch (argument.take) {
    case 'text':
      return 'TEXT';
    case 'date':
      return 'DATE';
    case 'number':
      return 'NUMBER';
    case 'quantity':
    case 'measured':
      return 'QUANTITY';
    case 'foot':
      return 'FOOT';
    case 'choice':
      return argument.of.join('|');
    case 'word':
      return 'WORD';
    case 'code':
      return argument.digits ? 'DIGITS' : 'CODE';
    case 'measure':
      return 'MEASURE';
    case 'finding':
      return 'FINDING';
    case 'relation':
      return '>=|<=';
    case 'point':
      return 'POINT';
    case 'segment':
      return 'SEGMENT';
    case 'spread':
      return argument.measured ? '+- QUANTITY' : '+- NUMBER';
    case 'mark':
      return argument.text;
  }
}
