import {
  animals,
  bevelPlaces,
  cutKinds,
  feet,
  landings,
  pictureKinds,
  pulses,
  soles,
  testerAnswers,
  warmths,
  wornKinds,
} from '../notation/choices.ts';
import { landmarkNames, plainViews, views } from '../notation/landmarks.ts';
import { units } from '../notation/units.ts';
import { sexes, signs } from '../notation/vocabulary.ts';
import { handMeasures } from '../measures/by-hand.ts';
import { measures } from '../measures/registry.ts';
import { measureUnits } from '../measures/unit.ts';
import { scaleOrigins } from '../views/scale-origin.ts';
import type { CellOf, SeriesColumn, SeriesTable } from './columns.ts';
import { textKinds, wordsWithText } from './texts.ts';

/**
 * The tables of a case series: what stands in each, in which unit, and what may stand there at all. The rows (`case-rows.ts`), the
 * schema of the data package and the docs follow from them. Every word that may stand in a column that is always there is known
 * beforehand (`enum`, `pattern`), so that no text of a case can get into it.
 */

/** Letters, digits and `.` `_` `-`: a study code that can stand in a key, a path and a table. */
export const codePattern = '^[A-Za-z0-9][A-Za-z0-9._-]{0,31}$';
/** A reader’s code; `R0` is who gave no name. */
export const readerPattern = '^R(?:0|[0-9a-f]{10})$';

export const laboratoryNames = ['insulin', 'acth', 'glucose', 'triglycerides', 'hormone'] as const;

const anyOf = (words: readonly string[]): string => `^(?:${words.join('|')})(?: (?:${words.join('|')}))*$`;
const measureWords = measures.map(({ name }) => name);
const handWords = [...new Set([...measureWords, ...handMeasures.map(({ name }) => name)])];

// prettier-ignore
const caseCode = { name: 'case', type: 'string', title: 'Case', description: 'The study code of the case.', required: true, pattern: codePattern } as const;
const ordinal = <const N extends string>(name: N, title: string, description: string) =>
  ({ name, type: 'integer', title, description, required: true, minimum: 1 }) as const;
// prettier-ignore
const visitNumber = ordinal('visit', 'Visit', 'The number of the visit in its case, from 1, by the days of the visits.');
const filmNumber = ordinal(
  'film',
  'Film',
  'The number of the film or photo in its case, from 1, in the order of the text.',
);
const readingNumber = ordinal(
  'reading',
  'Reading',
  'The number of the reading of its film, from 1, in the order of the text.',
);
const cutNumber = ordinal(
  'cut',
  'Cut',
  'The number of the plan or trim in its case, from 1, in the order of the text.',
);
const oneFoot = {
  name: 'foot',
  type: 'string',
  title: 'Foot',
  description: 'Left or right, fore or hind.',
  required: true,
  enum: feet,
} as const;
const unit = {
  name: 'unit',
  type: 'string',
  title: 'Unit',
  description: 'The unit of the value: degrees, millimetres, per cent, or 1 for a plain ratio.',
  required: true,
  enum: measureUnits,
} as const;

const number = <const N extends string>(name: N, title: string, description: string, unitOf?: string) =>
  ({ name, type: 'number', title, description, ...(unitOf !== undefined && { unit: unitOf }) }) as const;
const value = <const N extends string>(name: N, title: string, description: string, unitOf?: string) =>
  ({ ...number(name, title, description, unitOf), required: true }) as const;
const score = <const N extends string>(name: N, title: string, description: string, minimum: number, maximum: number) =>
  ({ name, type: 'number', title, description, minimum, maximum }) as const;
const word = <const N extends string>(name: N, title: string, description: string, words: readonly string[]) =>
  ({ name, type: 'string', title, description, enum: words }) as const;
const someWords = <const N extends string>(name: N, title: string, description: string, words: readonly string[]) =>
  ({
    name,
    type: 'string',
    title,
    description: `${description} Several have a space between them.`,
    pattern: anyOf(words),
  }) as const;

const footWords = { LF: 'left fore', RF: 'right fore', LH: 'left hind', RH: 'right hind' } as const;
type FootColumn<N extends string> = `${N}_${'lf' | 'rf' | 'lh' | 'rh'}`;

/** A column a foot. */
function ofFeet<
  const N extends string,
  const C extends Pick<SeriesColumn, 'type' | 'enum' | 'pattern' | 'minimum' | 'maximum'>,
>(name: N, title: string, description: string, holds: C) {
  return feet.map((foot) => ({
    name: `${name}_${foot.toLowerCase()}` as FootColumn<N>,
    title: `${title}, ${footWords[foot]}`,
    description,
    ...holds,
  }));
}

// prettier-ignore
export const tables = {
  cases: {
    title: 'Cases',
    description: 'One row a case: the animal, without anything that names it.',
    primaryKey: ['case'],
    foreignKeys: [],
    columns: [
      caseCode,
      { ...word('sharing', 'Sharing', 'Who the case says may see it: a series under its code, or everyone.', ['series', 'open']), required: true },
      word('kind', 'Kind', 'Kind of animal.', animals),
      word('sex', 'Sex', 'Sex, in the words of the trade.', sexes),
      number('height_cm', 'Height', 'Height at the withers.', 'cm'),
      { name: 'onset_months', type: 'integer', title: 'Onset', description: 'Whole months from the onset of the trouble to the first visit; empty where only a year is given.', unit: 'months' },
      { name: 'visits', type: 'integer', title: 'Visits', description: 'How many visits the case has.', required: true, minimum: 0 },
      { name: 'days', type: 'integer', title: 'Days', description: 'Days from the first visit to the last.', unit: 'days', minimum: 0 },
      { name: 'lines_not_read', type: 'integer', title: 'Lines not read', description: 'Lines of the case file that were not understood or count for nothing as they are; what they meant is in no table.', required: true, minimum: 0 },
      { name: 'name', type: 'string', title: 'Name', description: 'The animal’s name; only of cases that are open.', asked: ['names'] },
      { name: 'microchip', type: 'string', title: 'Microchip', description: 'Chip number; only of cases that are open.', asked: ['numbers'] },
      { name: 'ueln', type: 'string', title: 'UELN', description: 'Universal Equine Life Number; only of cases that are open.', asked: ['numbers'] },
      { name: 'foaled', type: 'string', title: 'Date of birth', description: 'As written; the day, or day and month, may be missing.', pattern: '^\\d{4}(?:-\\d{2}(?:-\\d{2})?)?$', asked: ['dates'] },
      { name: 'onset', type: 'string', title: 'Date of onset', description: 'As written; the day, or day and month, may be missing.', pattern: '^\\d{4}(?:-\\d{2}(?:-\\d{2})?)?$', asked: ['dates'] },
    ],
  },
  visits: {
    title: 'Visits',
    description: 'One row a visit, with what was found of the animal and of each foot.',
    primaryKey: ['case', 'visit'],
    foreignKeys: [{ fields: ['case'], table: 'cases' }],
    columns: [
      caseCode,
      visitNumber,
      { name: 'day', type: 'integer', title: 'Day', description: 'Days since the first visit of the case; empty where the visit has no date.', unit: 'days' },
      { name: 'date', type: 'date', title: 'Date', description: 'The day of the visit; where dates are shifted, moved with all dates of its case by the same number of whole days.', asked: ['dates'] },
      { name: 'age_years', type: 'integer', title: 'Age', description: 'Whole years of age on that day.', unit: 'years', minimum: 0 },
      number('weight_kg', 'Weight', 'Body weight.', 'kg'),
      number('girth_cm', 'Girth', 'Heart girth, with a tape.', 'cm'),
      number('length_cm', 'Length', 'Body length, point of shoulder to point of buttock.', 'cm'),
      score('condition', 'Condition', 'Body condition score (Henneke 1983).', 1, 9),
      score('crest', 'Crest', 'Cresty neck score (Carter 2009).', 0, 5),
      score('obel', 'Obel', 'Obel grade of lameness.', 0, 4),
      score('meier', 'Meier', 'The modified Obel score of laminitis (Meier 2019).', 0, 12),
      score('lameness', 'Lameness', 'Lameness over ground (AAEP scale) where no foot is named; of several the gravest.', 0, 5),
      number('temperature_c', 'Temperature', 'The animal’s temperature; of several the highest.', '°C'),
      someWords('signs', 'Signs', 'Warning signs that were seen; a sign that is none of the known ones is `other`.', [...signs, 'other']),
      { name: 'vet_seen', type: 'boolean', title: 'Seen by the vet', description: 'Whether the visit says on which day the vet has seen the animal.', required: true },
      { name: 'next_days', type: 'integer', title: 'Next', description: 'Days until the next visit, as planned at this one.', unit: 'days' },
      ...ofFeet('lameness', 'Lameness', 'Lameness over ground of this foot (AAEP scale); of several the gravest.', { type: 'number', minimum: 0, maximum: 5 }),
      ...ofFeet('pulse', 'Pulse', 'Digital pulse; of several the strongest.', { type: 'string', enum: pulses }),
      ...ofFeet('landing', 'Landing', 'What meets the ground first at the walk; where two lines differ, the last word of heel, flat, toe.', { type: 'string', enum: landings }),
      ...ofFeet('testers', 'Hoof testers', 'The strongest answer to hoof testers at any place.', { type: 'string', enum: testerAnswers }),
      ...ofFeet('sole', 'Sole', 'How firm the sole is under the thumb; of several the softest.', { type: 'string', enum: soles }),
      ...ofFeet('warmth', 'Warmth', 'How warm the hoof feels; of several the warmest.', { type: 'string', enum: warmths }),
    ],
  },
  films: {
    title: 'Films and photos',
    description: 'One row a picture that is listed in the case, with how it was taken. The pictures themselves never leave.',
    primaryKey: ['case', 'film'],
    foreignKeys: [{ fields: ['case', 'visit'], table: 'visits' }],
    columns: [
      caseCode,
      filmNumber,
      visitNumber,
      { name: 'day', type: 'integer', title: 'Day', description: 'The day it was taken, in days since the first visit; below 0 where it was taken before.', unit: 'days' },
      { name: 'taken', type: 'date', title: 'Taken', description: 'The day it was taken; shifted as the dates of its case are.', asked: ['dates'] },
      oneFoot,
      { ...word('kind', 'Kind', 'A radiograph or a photograph.', pictureKinds), required: true },
      { ...word('view', 'View', 'From where it was taken. Venogram, skyline and heel views are listed and not measured.', [...views, ...plainViews]), required: true },
      number('mm_per_px', 'Scale', 'Size of a pixel in the plane of the foot, as it counts.', 'mm/px'),
      word('scale_from', 'Scale from', 'What the scale rests on.', scaleOrigins),
      number('magnify', 'Magnification', 'How many times larger than life the written scale makes the foot.'),
      { name: 'ground', type: 'boolean', title: 'Ground placed', description: 'Whether the ground line is placed.', required: true },
      { name: 'bearing', type: 'boolean', title: 'Bearing placed', description: 'Whether the plane between hoof and shoe is placed.', required: true },
      someWords('worn', 'Worn', 'What the foot wears on it, what lies nearest to the hoof first; empty where nothing is said or it is bare.', wornKinds),
      number('worn_mm', 'Thickness worn', 'Thickness of all that the foot wears together.', 'mm'),
      number('worn_wedge_deg', 'Wedge worn', 'Degrees by which what it wears raises the heel.', 'deg'),
      { name: 'paste', type: 'boolean', title: 'Paste', description: 'Whether paste was put on the sole.' },
      number('block_mm', 'Block', 'Height of the block that the foot stands on.', 'mm'),
      number('focus_mm', 'Focus', 'From the focus of the tube, or the lens, to the picture.', 'mm'),
      { name: 'picture', type: 'string', title: 'Picture', description: 'The path as written; only of cases that are open.', asked: ['pictures'] },
    ],
  },
  readings: {
    title: 'Readings',
    description: 'One row a reading: what one person placed on one picture.',
    primaryKey: ['case', 'film', 'reading'],
    foreignKeys: [{ fields: ['case', 'film'], table: 'films' }],
    columns: [
      caseCode,
      filmNumber,
      readingNumber,
      { name: 'reader', type: 'string', title: 'Reader', description: 'The code of the reader, the same in the whole series; R0 where nobody is named.', required: true, pattern: readerPattern },
      { name: 'reader_name', type: 'string', title: 'Name of the reader', description: 'As written.', asked: ['readers'] },
      number('spread_px', 'Spread', 'One standard deviation of a placing of this reader, where the reading gives one.', 'px'),
      { name: 'landmarks', type: 'integer', title: 'Landmarks', description: 'How many landmarks are placed.', required: true, minimum: 0 },
      { name: 'framed', type: 'boolean', title: 'Frame', description: 'Whether the landmarks tell how the foot lies, so that it can be measured.', required: true },
    ],
  },
  landmarks: {
    title: 'Landmarks',
    description: 'One row a landmark of a reading, on the picture and in the foot’s own frame.',
    primaryKey: ['case', 'film', 'reading', 'landmark'],
    foreignKeys: [{ fields: ['case', 'film', 'reading'], table: 'readings' }],
    columns: [
      caseCode,
      filmNumber,
      readingNumber,
      { ...word('landmark', 'Landmark', 'Its word in the notation; where each lies stands in the docs of the program.', landmarkNames), required: true },
      value('x_px', 'X on the picture', 'To the right; a whole number is the middle of its pixel.', 'px'),
      value('y_px', 'Y on the picture', 'Downwards.', 'px'),
      number('x_mm', 'X in the foot', 'Along the bearing plane to the toe (front view: to the outer side). Empty without a scale or a frame.', 'mm'),
      number('y_mm', 'Y in the foot', 'Up from the bearing plane (solar view: square to X). Empty without a scale or a frame.', 'mm'),
      value('spread_px', 'Spread on the picture', 'One standard deviation of the placing, its own or the usual one.', 'px'),
      number('spread_mm', 'Spread', 'The same in the foot.', 'mm'),
      { name: 'followed', type: 'boolean', title: 'Followed', description: 'Whether it was proposed by the film before and confirmed, so that it shares that placing’s error.', required: true },
    ],
  },
  measures: {
    title: 'Measures',
    description: 'One row a reading and measure.',
    primaryKey: ['case', 'film', 'reading', 'measure'],
    foreignKeys: [{ fields: ['case', 'film', 'reading'], table: 'readings' }],
    columns: [
      caseCode,
      filmNumber,
      readingNumber,
      { ...word('measure', 'Measure', 'Its name in the notation; its formula stands in the docs of the program.', measureWords), required: true },
      value('value', 'Value', 'Not rounded.'),
      unit,
      value('sd', 'Standard deviation', 'One standard deviation that follows from how well landmarks and scale are known.'),
      number('low', 'Usual from', 'The lower end of what counts as usual here, or the limit of the case; in the unit of the value.'),
      number('high', 'Usual to', 'The upper end of it.'),
      { name: 'inside', type: 'boolean', title: 'Inside', description: 'Whether the value lies within; empty where there is neither end.' },
      word('axis', 'Axis', '`short` where a shorter axis stood in for a missing landmark.', ['short']),
    ],
  },
  cuts: {
    title: 'Plans and trims',
    description: 'One row a plan or trim of one foot, with what it was predicted to do.',
    primaryKey: ['case', 'cut'],
    foreignKeys: [{ fields: ['case', 'visit'], table: 'visits' }],
    columns: [
      caseCode,
      cutNumber,
      visitNumber,
      oneFoot,
      { ...word('kind', 'Kind', 'A plan is meant, a trim was done.', cutKinds), required: true },
      number('heel_down_mm', 'Heel down', 'How much the heel is lowered.', 'mm'),
      number('heel_from_mm', 'Heel from', 'From how far in front of the heel’s contact the heel is cut on a plane of its own.', 'mm'),
      number('heel_up_deg', 'Heel up', 'Degrees by which a wedge raises the heel; it is not predicted.', 'deg'),
      number('toe_down_mm', 'Toe down', 'How much the toe is lowered.', 'mm'),
      number('toe_back_mm', 'Toe back', 'How far the toe is brought back.', 'mm'),
      number('inside_down_mm', 'Inside down', 'How much the inner side is lowered.', 'mm'),
      number('outside_down_mm', 'Outside down', 'How much the outer side is lowered.', 'mm'),
      someWords('bevel', 'Bevel', 'Where the edge of the wall is bevelled.', bevelPlaces),
      someWords('leave', 'Left', 'What is not touched.', ['toe', 'heel', 'sole']),
      { name: 'film', type: 'integer', title: 'Film', description: 'The film that it is predicted on; empty where there is none.', minimum: 1 },
      { name: 'film_age_days', type: 'integer', title: 'Age of the film', description: 'Days from that film to the cut.', unit: 'days' },
      number('turn_deg', 'Turn', 'Degrees that the foot is predicted to turn: above 0 where the heel is lowered more. After a cut on two planes, of the foot on its heels.', 'deg'),
      number('turn_on_toe_deg', 'Turn on the toe', 'After a cut on two planes, of the foot on its toe.', 'deg'),
      number('sole_cut_tip_mm', 'Live sole cut at the tip', 'Predicted.', 'mm'),
      number('sole_cut_wing_mm', 'Live sole cut at the wing', 'Predicted.', 'mm'),
      number('sole_cut_heel_mm', 'Live sole cut at the heel', 'Predicted.', 'mm'),
      number('wall_left_mm', 'Wall left', 'Horn and lamellae left at the toe after it is brought back; predicted.', 'mm'),
      number('side_turn_deg', 'Turn to the side', 'Degrees that lowering one side turns the foot on the newest front film: above 0 where the outer side comes down more; predicted.', 'deg'),
    ],
  },
  predictions: {
    title: 'Predictions',
    description: 'One row a cut and measure: what it was before, and what the cut was predicted to leave.',
    primaryKey: ['case', 'cut', 'stance', 'measure'],
    foreignKeys: [{ fields: ['case', 'cut'], table: 'cuts' }],
    columns: [
      caseCode,
      cutNumber,
      { ...word('stance', 'Stance', 'How the foot stands: flat on its new plane or, after a cut on two planes, on its heels (`heels`); on its toe (`toe`); or seen from the front after one side is lowered (`front`).', ['heels', 'toe', 'front']), required: true },
      { ...word('measure', 'Measure', 'Its name in the notation.', measureWords), required: true },
      number('before', 'Before', 'As the foot stands before the cut, from the film and the trims since; empty where that is not known.'),
      value('value', 'Value', 'What the cut is predicted to leave.'),
      unit,
      value('sd', 'Standard deviation', 'Of the value.'),
    ],
  },
  tape: {
    title: 'Taken by hand',
    description: 'One row a value that a hand took of a foot.',
    primaryKey: ['case', 'tape', 'measure'],
    foreignKeys: [{ fields: ['case', 'visit'], table: 'visits' }],
    columns: [
      caseCode,
      ordinal('tape', 'Tape', 'The number of the tape in its case, from 1, in the order of the text.'),
      visitNumber,
      oneFoot,
      { ...word('measure', 'Measure', 'Its name in the notation.', handWords), required: true },
      value('value', 'Value', 'In the unit of the measure.'),
      unit,
      value('sd', 'Standard deviation', 'One standard deviation that is taken of a hand.'),
    ],
  },
  laboratory: {
    title: 'Laboratory',
    description: 'One row a value of the blood.',
    primaryKey: ['case', 'sample'],
    foreignKeys: [{ fields: ['case', 'visit'], table: 'visits' }],
    columns: [
      caseCode,
      ordinal('sample', 'Sample', 'The number of the value in its case, from 1, in the order of the text.'),
      visitNumber,
      { ...word('of', 'Of', 'What was measured; `hormone` is another one, whose name is a text.', laboratoryNames), required: true },
      value('value', 'Value', 'In the laboratory’s own unit.'),
      { ...word('unit', 'Unit', 'As written.', [...new Set(units.map(({ word: written }) => written))]), required: true },
      { name: 'above', type: 'boolean', title: 'Above', description: 'Beyond what the laboratory measures: the value is at least this.', required: true },
      { name: 'fasting', type: 'boolean', title: 'Fasting', description: 'Whether the line says so.', required: true },
      number('after_minutes', 'After', 'Minutes since syrup (insulin) or TRH (ACTH) was given; empty where nothing was.', 'minutes'),
    ],
  },
  removed: {
    title: 'Left out',
    description: 'One row a case and kind of thing that its file says and that did not leave, with how many there are.',
    primaryKey: ['case', 'kind'],
    foreignKeys: [{ fields: ['case'], table: 'cases' }],
    columns: [
      caseCode,
      { ...word('kind', 'Kind', 'What kind of thing it is.', textKinds), required: true },
      { name: 'count', type: 'integer', title: 'Count', description: 'How many.', required: true, minimum: 1 },
    ],
  },
  texts: {
    title: 'Texts',
    description: 'One row a free text; of cases that are open also who is named, where names were asked for. Names and numbers that stand in lines of their own are taken out of it; a name that stands nowhere else is not found.',
    primaryKey: ['case', 'text'],
    foreignKeys: [{ fields: ['case'], table: 'cases' }],
    asked: ['texts', 'names'],
    columns: [
      caseCode,
      ordinal('text', 'Text', 'The number of the text in its case, from 1, in the order of the file.'),
      { name: 'visit', type: 'integer', title: 'Visit', description: 'The visit it belongs to; empty where it belongs to the whole case.', minimum: 1 },
      { ...word('word', 'Word', 'The word of the notation that it is said with; `prose` for plain text.', [...wordsWithText, 'prose']), required: true },
      someWords('feet', 'Feet', 'The feet that it is of.', feet),
      { name: 'words', type: 'string', title: 'Words', description: 'The text.', required: true },
    ],
  },
} as const satisfies Readonly<Record<string, SeriesTable>>;

export type TableName = keyof typeof tables;
export const tableNames = Object.keys(tables) as TableName[];

type ColumnsOf<T extends TableName> = (typeof tables)[T]['columns'][number];

/** A row of a table; a column that was not asked for is null. */
export type RowOf<T extends TableName> = {
  readonly [C in ColumnsOf<T> as C['name']]: CellOf<C>;
};
