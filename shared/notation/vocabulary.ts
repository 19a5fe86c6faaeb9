import { spoken, spokenRows } from '../language/rows.ts';
import type { Argument, Dimension, Form, Range } from './signature.ts';
import {
  animals,
  bevelPlaces,
  feet,
  hoofSides,
  landings,
  pulses,
  seenPlaces,
  soles,
  testerAnswers,
  testerPlaces,
  warmths,
  type FootName,
} from './choices.ts';
import { landmarks, plainViews, views } from './landmarks.ts';
import {
  bendPlace,
  coordinate,
  cutAmount,
  heelWedge,
  interval,
  markerLength,
  measuredValue,
  pixelSize,
  placingSpread,
  tapedValue,
  tolerance,
  wornThickness,
  wornWedge,
} from './ranges.ts';
import { units } from './units.ts';

/**
 * The one table of every word of the notation: where it stands, what it takes, what it means. The parser,
 * completion, hover, the formatter, the grammar for colours and the docs all read it.
 */

export type BlockWord = 'hoof' | 'case' | 'limits' | 'visit' | 'film' | 'photo' | 'tape' | 'plan' | 'trim' | 'read';
export type Container = 'file' | BlockWord;

export interface WordRow {
  readonly word: string;
  /** Blocks in which the word may stand. */
  readonly in: readonly Container[];
  /** The forms its arguments may take; the first is the usual one. */
  readonly takes: readonly Form[];
  /** Of those the ones that a block of its own takes, where not every block takes all; the form then says which block is meant. */
  readonly takesIn?: Readonly<Partial<Record<Container, readonly Form[]>>>;
  readonly doc: string;
  readonly example: string;
  /** More than one in the same block is meant. */
  readonly repeats?: true;
}

export interface BlockRow extends WordRow {
  readonly word: BlockWord;
  readonly level: 0 | 1 | 2;
  /** Lines that start with `|` are kept in this block. */
  readonly prose: boolean;
}

export const footDoc: Readonly<Record<FootName, string>> = spoken({
  LF: 'Left fore foot.',
  RF: 'Right fore foot.',
  LH: 'Left hind foot.',
  RH: 'Right hind foot.',
});

export const sexes = ['mare', 'gelding', 'stallion', 'filly', 'colt', 'jenny', 'jack'] as const;

/** Signs for which the vet is called now; any other word is kept too. */
export const signs = [
  'fever',
  'recumbent',
  'discharge',
  'refuses-to-move',
  'sweating',
  'swelling',
  'coronet-gap',
  'sole-bulge',
  'bleeding',
] as const;

/** Words by which somebody writes down that there is no sign; none is a letter from one. Nothing is written where there is none. */
export const denials: ReadonlySet<string> = new Set([
  'no',
  'none',
  'not',
  'nil',
  'nothing',
  'without',
  'negative',
  'absent',
  'normal',
  'ok',
]);

const text = (name: string): Argument => ({ take: 'text', name });
const maybeText = (name: string): Argument => ({ take: 'text', name, optional: true });
const foot: Argument = { take: 'foot', name: 'foot' };
const view: Argument = { take: 'choice', name: 'view', of: [...views, ...plainViews] };
const quantity = (name: string, dimension: Dimension, range: Range): Argument => ({
  take: 'quantity',
  name,
  dimension,
  range,
});
const number = (name: string, low: number, high: number, step?: number, grades?: string): Argument => ({
  take: 'number',
  name,
  range: { low, high, unit: '1' },
  ...(step !== undefined && { step }),
  ...(grades !== undefined && { grades }),
});
/** Looked up where it is told. */
const grades = spoken({ obel: 'Obel grades are 0, 1, 2, 3 or 4. Between two, write the higher.' });
const range = (low: number, high: number, unit: string): Range => ({ low, high, unit });
const spread: Argument = { take: 'spread', name: 'spread', range: placingSpread, optional: true };
const segment = (name: string): Argument => ({ take: 'segment', name, range: coordinate });
const mark = (sign: string): Argument => ({ take: 'mark', name: sign, text: sign });
const manyFeet: Argument = { take: 'foot', name: 'feet', many: true };
const off: Form = [manyFeet, mark('off')];
/** A word and what it stands before, both or neither. */
const clause = (word: string, argument: Argument): readonly Argument[] => [
  { take: 'mark', name: word, text: word, optional: true },
  { ...argument, name: word, optional: true },
];
const choice = (name: string, of: readonly string[], optional?: true): Argument =>
  optional ? { take: 'choice', name, of, optional } : { take: 'choice', name, of };

// prettier-ignore
export const blocks: readonly BlockRow[] = spokenRows([
  {
    word: 'hoof', level: 0, in: ['file'], prose: false,
    takes: [[number('version', 0, 999, 1)]],
    doc: 'The first line of every case file: the version of the notation.', example: 'hoof 1',
  },
  {
    word: 'case', level: 0, in: ['file'], prose: true,
    takes: [[text('name')]],
    doc: 'Who the animal is. Once in a file.', example: 'case "Juniper"',
  },
  {
    word: 'limits', level: 0, in: ['file'], prose: false, repeats: true,
    takes: [[]],
    doc: 'Limits agreed for this case: tighter ones freely, looser ones with `because`.', example: 'limits',
  },
  {
    word: 'visit', level: 0, in: ['file'], prose: true, repeats: true,
    takes: [[{ take: 'date', name: 'date' }, maybeText('title')]],
    doc: 'One visit and all that was seen, measured, planned and done at it. Dates do not go backwards.', example: 'visit 2026-03-04 "first visit"',
  },
  {
    word: 'film', level: 1, in: ['visit'], prose: true, repeats: true,
    takes: [[foot, view, text('path')]],
    doc: 'A radiograph of one foot; the path is relative to the case file. A venogram, a skyline and a heel view are shown and listed, and not measured.', example: 'film LF lateral "films/juniper-lf.png"',
  },
  {
    word: 'photo', level: 1, in: ['visit'], prose: true, repeats: true,
    takes: [[foot, view, text('path')]],
    doc: 'A photograph of one foot; the path is relative to the case file.', example: 'photo LF lateral "photos/juniper-lf.jpg"',
  },
  {
    word: 'tape', level: 1, in: ['visit'], prose: false, repeats: true,
    takes: [[foot]],
    doc: 'What was measured on the hoof by hand: one measure a line.', example: 'tape LF',
  },
  {
    word: 'plan', level: 1, in: ['visit'], prose: true, repeats: true,
    takes: [[foot]],
    doc: 'The trim that is proposed for a foot. It is predicted on the newest lateral film of that foot.', example: 'plan LF',
  },
  {
    word: 'trim', level: 1, in: ['visit'], prose: true, repeats: true,
    takes: [[{ ...foot, many: true }]],
    doc: 'The trim that was done, of one foot or of several that were trimmed alike.', example: 'trim LF RF',
  },
  {
    word: 'read', level: 2, in: ['film', 'photo'], prose: false, repeats: true,
    takes: [[text('reader'), spread]],
    doc: 'One reader’s placing of the landmarks, with how well that reader places one (one standard deviation, px) where known.', example: 'read "first reader"',
  },
], 'doc');

const above: Argument = { take: 'mark', name: 'above', text: '>', optional: true };
/** A value of the blood: as it is, fasting, or so long after what was given. */
const laboratory = (value: Argument, given: string): readonly Form[] => [
  [above, value],
  [above, value, mark('fasting')],
  [above, value, quantity('delay', 'delay', range(1, 600, 'minutes')), mark('after'), mark(given)],
];
const vetSeen: readonly Form[] = [[text('text')], [mark('seen'), { take: 'date', name: 'date' }, maybeText('text')]];

/** What a foot wears: how thick it is, how far it raises the heel, and what there is to say of it. */
const wornForm: Form = [
  manyFeet,
  { ...quantity('thickness', 'length', wornThickness), optional: true },
  ...clause('wedge', quantity('wedge', 'angle', wornWedge)),
  maybeText('text'),
];
const worn: readonly Form[] = [wornForm, off];
const sides: Argument = { take: 'choice', name: 'places', of: hoofSides, many: true, optional: true };
const bootsOfCut: readonly Form[] = [[text('text')]];
const until = 'Until it is `off`, the foot is trimmed, or another is put on.';

const pictures: readonly Container[] = ['film', 'photo'];
const cuts: readonly Container[] = ['plan', 'trim'];
/** Where findings are told that a person may live with. */
const acceptedIn: readonly Container[] = ['case', 'visit', 'film', 'photo', 'tape', 'plan', 'trim', 'read'];

// prettier-ignore
export const statements: readonly WordRow[] = spokenRows([
  { word: 'animal', in: ['case'], takes: [[choice('kind', animals), choice('sex', sexes, true)]], doc: 'Kind of animal and, if known, its sex.', example: 'animal horse gelding' },
  { word: 'breed', in: ['case'], takes: [[text('breed')]], doc: 'Breed or type.', example: 'breed "cob"' },
  { word: 'foaled', in: ['case'], takes: [[{ take: 'date', name: 'date', partial: true }]], doc: 'Date of birth; the day, or day and month, may be left out. Age then counts from the last day that it may have been.', example: 'foaled 2013-05' },
  { word: 'height', in: ['case'], takes: [[quantity('height', 'stature', range(50, 220, 'cm'))]], doc: 'Height at the withers.', example: 'height 148 cm' },
  { word: 'microchip', in: ['case'], takes: [[{ take: 'code', name: 'number', characters: 15, digits: true }]], doc: 'Chip number, 15 digits (ISO 11784).', example: 'microchip 985000000000001' },
  { word: 'ueln', in: ['case'], takes: [[{ take: 'code', name: 'number', characters: 15 }]], doc: 'Universal Equine Life Number, 15 letters and digits.', example: 'ueln 25000100155928M' },
  { word: 'code', in: ['case'], takes: [[{ take: 'code', name: 'code' }]], doc: 'Study code that stands for the name in a case series.', example: 'code S07' },
  { word: 'sharing', in: ['case'], takes: [[choice('sharing', ['private', 'series', 'open'])]], doc: 'Who may see the case in an export: nobody (private, also where nothing is said), a series under its code, or everyone.', example: 'sharing series' },
  { word: 'key', in: ['case'], takes: [[text('file'), ...clause('by', text('reader'))], [mark('by'), text('by')]], doc: 'What makes the case a lesson: what its films are held against, once somebody has placed them. The key is another case file, of several readers in it the one that is named, or the reading of a reader in this file. Until it is shown, the preview keeps back values, findings and key.', example: 'key "teacher.hoof" by "Rowan"' },
  { word: 'onset', in: ['case'], takes: [[{ take: 'date', name: 'date', partial: true }, text('text')]], doc: 'When the trouble began, and what was seen; the day, or day and month, may be left out.', example: 'onset 2025-11 "short on hard ground"' },
  { word: 'consent', in: ['case'], takes: [[{ take: 'date', name: 'date' }, maybeText('text')]], doc: 'The day on which the owner agreed that the case is published, and to what.', example: 'consent 2026-03-04 "in a series, without names"' },

  { word: 'diagnosis', in: ['case', 'visit'], repeats: true, takes: [[text('text')]], doc: 'What the vet diagnosed, in the vet’s words.', example: 'diagnosis "insulin dysregulation; laminitis of both fore feet"' },
  { word: 'farrier', in: ['case', 'visit'], takes: [[text('who')]], doc: 'Who trims and shoes.', example: 'farrier "T. B."' },

  { word: 'by', in: ['visit'], takes: [[text('who')]], doc: 'Who made the visit.', example: 'by "K. M."' },
  { word: 'weight', in: ['visit'], takes: [[quantity('weight', 'mass', range(15, 1500, 'kg'))]], doc: 'Body weight.', example: 'weight 512 kg' },
  { word: 'girth', in: ['visit'], takes: [[quantity('girth', 'length', range(30, 320, 'cm'))]], doc: 'Heart girth, with a tape.', example: 'girth 190 cm' },
  { word: 'length', in: ['visit'], takes: [[quantity('length', 'length', range(30, 320, 'cm'))]], doc: 'Body length, point of shoulder to point of buttock.', example: 'length 203 cm' },
  { word: 'condition', in: ['visit'], takes: [[number('score', 1, 9, 0.25)]], doc: 'Body condition score (Henneke 1983).', example: 'condition 7' },
  { word: 'crest', in: ['visit'], takes: [[number('score', 0, 5, 0.5)]], doc: 'Cresty neck score (Carter 2009).', example: 'crest 3.5' },
  { word: 'obel', in: ['visit'], takes: [[number('grade', 0, 4, 1, grades.obel)]], doc: 'Obel grade of lameness.', example: 'obel 2' },
  { word: 'meier', in: ['visit'], takes: [[number('score', 0, 12, 1)]], doc: 'The modified Obel score of laminitis (Meier 2019): five criteria, added up.', example: 'meier 5' },
  { word: 'lameness', in: ['visit'], repeats: true, takes: [[{ ...manyFeet, optional: true }, number('grade', 0, 5, 0.5)]], doc: 'Lameness over ground, 0 to 5 (AAEP scale: 0 none, 3 at the trot always, 4 plain at the walk, 5 hardly bears weight), of a foot where one is named.', example: 'lameness LF 2' },
  { word: 'landing', in: ['visit'], repeats: true, takes: [[manyFeet, choice('landing', landings)]], doc: 'What meets the ground first at the walk.', example: 'landing LF RF toe' },
  { word: 'testers', in: ['visit'], repeats: true, takes: [[manyFeet, { take: 'choice', name: 'places', of: testerPlaces, many: true }, choice('answer', testerAnswers)]], doc: 'Hoof testers: where they were set (inner and outer: the quarters), and how much the foot answers.', example: 'testers LF toe sole moderate' },
  { word: 'sole', in: ['visit'], repeats: true, takes: [[manyFeet, choice('firmness', soles)]], doc: 'How firm the sole is under the thumb.', example: 'sole LF RF firm' },
  { word: 'temperature', in: ['visit'], repeats: true, takes: [[quantity('temperature', 'warmth', range(30, 44, 'C'))], [manyFeet, choice('warmth', warmths)]], doc: 'The animal’s temperature; or how warm hooves feel.', example: 'temperature 38.2 C' },
  { word: 'seen', in: ['visit'], repeats: true, takes: [[manyFeet, choice('place', seenPlaces), text('text')]], doc: 'Something seen on a foot: where, and what.', example: 'seen LF coronet "a dip over the toe, as wide as a thumb"' },
  { word: 'pulse', in: ['visit'], repeats: true, takes: [[manyFeet, choice('pulse', pulses)]], doc: 'Digital pulse of one foot or several.', example: 'pulse LF RF bounding' },
  { word: 'insulin', in: ['visit'], takes: laboratory(quantity('value', 'insulin', range(0, 10_000, 'uIU/mL')), 'syrup'), doc: 'Blood insulin, in the laboratory’s own unit; `>` where it is beyond what the laboratory measures. `fasting`, or how long after corn syrup was given.', example: 'insulin 38 uIU/mL' },
  { word: 'acth', in: ['visit'], takes: laboratory(quantity('value', 'acth', range(0, 10_000, 'pg/mL')), 'TRH'), doc: 'Blood ACTH, in the laboratory’s own unit; `>` where it is beyond what the laboratory measures. Where TRH was given, how long after it.', example: 'acth 24 pg/mL' },
  { word: 'glucose', in: ['visit'], takes: [[quantity('value', 'glucose', range(0.1, 60, 'mmol/L'))]], doc: 'Blood glucose, in the laboratory’s own unit.', example: 'glucose 5.2 mmol/L' },
  { word: 'triglycerides', in: ['visit'], takes: [[above, quantity('value', 'triglycerides', range(0.01, 100, 'mmol/L'))]], doc: 'Blood triglycerides, in the laboratory’s own unit.', example: 'triglycerides 0.9 mmol/L' },
  { word: 'hormone', in: ['visit'], repeats: true, takes: [[text('name'), above, quantity('value', 'hormone', range(0, 100_000, 'nmol/L'))]], doc: 'Another hormone by its name, in the laboratory’s own unit. Kept as it is written.', example: 'hormone "adiponectin" 4.1 ug/mL' },
  { word: 'medicine', in: ['visit'], repeats: true, takes: [[text('name'), ...clause('dose', text('dose')), ...clause('from', { take: 'date', name: 'from' }), ...clause('until', { take: 'date', name: 'until' })]], doc: 'A medicine as the vet prescribed it: its name, the dose in the vet’s words, from when until when.', example: 'medicine "phenylbutazone" dose "1 g twice a day" from 2026-03-04 until 2026-03-11' },
  { word: 'owner', in: ['visit'], repeats: true, takes: [[text('text')]], doc: 'What the owner says.', example: 'owner "lies down more since Sunday"' },
  { word: 'adverse', in: ['visit'], repeats: true, takes: [[text('text')]], doc: 'What went wrong or did harm in the course of what was done; “none” where it was asked for and there was nothing.', example: 'adverse "none"' },
  { word: 'feed', in: ['visit'], repeats: true, takes: [[text('text')]], doc: 'What is fed.', example: 'feed "soaked hay, 7.5 kg a day"' },
  { word: 'turnout', in: ['visit'], repeats: true, takes: [[text('text')]], doc: 'Where and how long the animal is out.', example: 'turnout "dry paddock, all day"' },
  { word: 'vet', in: ['visit', 'case'], repeats: true, takes: vetSeen, takesIn: { visit: vetSeen, case: [[text('text')]] }, doc: 'At a visit what the vet found, said or agreed to; in the case who the vet is. `vet seen` and a date: the vet has seen the animal on that day; only this closes an alarm.', example: 'vet "agrees to lower the heels in steps"' },
  { word: 'sign', in: ['visit'], repeats: true, takes: [[{ take: 'word', name: 'signs', known: signs, denials, many: true }]], doc: 'Warning signs seen. With any of them the vet is called now.', example: 'sign fever recumbent' },
  { word: 'shoe', in: ['visit'], repeats: true, takes: worn, doc: `What a foot is shod with from here on: how thick the shoe is, how far it raises the heel (with a minus: the toe), and its make. ${until} \`off\` leaves the foot bare.`, example: 'shoe LF RF 10 mm wedge 3 deg "concave, rolled toe, set back 8 mm"' },
  { word: 'pad', in: ['visit'], repeats: true, takes: worn, doc: `A pad, alone or under a shoe. ${until} It goes with the shoe it lies under.`, example: 'pad LF RF 5 mm "leather, with sole packing"' },
  { word: 'cast', in: ['visit'], repeats: true, takes: worn, doc: `A hoof cast. ${until}`, example: 'cast LF RF "cloth to above the heels, four weeks"' },
  { word: 'next', in: ['visit'], takes: [[quantity('after', 'time', interval)], [{ take: 'date', name: 'date' }]], doc: 'When to come back: after a time, or on a date.', example: 'next 4 weeks' },

  { word: 'taken', in: pictures, takes: [[{ take: 'date', name: 'date' }]], doc: 'When the picture was taken, if not on the day of the visit.', example: 'taken 2026-03-03' },
  {
    word: 'scale', in: pictures,
    takes: [
      [quantity('known length', 'length', markerLength), mark('='), segment('marker')],
      [quantity('pixel', 'resolution', pixelSize)],
      [mark('dicom')],
      [mark('bone')],
    ],
    doc: 'How large a pixel is: from a marker of known length, as a number, from what the picture’s own file states, or from the bones: `scale bone` takes the lengths of the bones on the other films of the foot, which stay the same in a grown animal.', example: 'scale 100 mm = 1310, 1422 .. 2290, 1425',
  },
  { word: 'magnify', in: pictures, takes: [[number('factor', 0.5, 2)]], doc: 'How many times larger than life the scale makes the foot, where the marker lay off its plane. Lengths are divided by it.', example: 'magnify 1.04' },
  { word: 'ground', in: pictures, takes: [[segment('line')]], doc: 'The ground line, from one point on it to another.', example: 'ground 180, 1388 .. 1650, 1392' },
  { word: 'bearing', in: pictures, takes: [[segment('line')]], doc: 'The plane between hoof and shoe, from one point on it to another: what the trimmed wall bears on. The ground stays what the shoe stands on.', example: 'bearing 190, 1340 .. 1640, 1343' },
  { word: 'paste', in: pictures, takes: [[maybeText('text')]], doc: 'Paste that shows on the film was put on the sole: where.', example: 'paste "from the frog’s point to the toe"' },
  { word: 'block', in: pictures, takes: [[quantity('height', 'length', range(1, 500, 'mm'))]], doc: 'How high the block is that the foot stands on.', example: 'block 60 mm' },
  { word: 'focus', in: pictures, takes: [[quantity('distance', 'length', range(10, 1000, 'cm'))]], doc: 'From the focus of the tube, or the lens, to the picture.', example: 'focus 90 cm' },
  { word: 'beam', in: pictures, takes: [[{ take: 'point', name: 'centre', range: coordinate }]], doc: 'Where the centre of the beam meets the picture.', example: 'beam 640, 1180' },
  { word: 'standing', in: pictures, takes: [[text('text')]], doc: 'How the animal stood.', example: 'standing "square, both fore feet on blocks, cannon upright"' },
  { word: 'expect', in: pictures, repeats: true, takes: [[{ take: 'measure', name: 'measure' }, { take: 'measured', name: 'value', ranges: measuredValue }, { take: 'spread', name: 'tolerance', measured: true, ranges: tolerance, optional: true }]], doc: 'A stated value, from a teacher or a paper, or read by hand: a finding says where the computed one differs by more than the tolerance.', example: 'expect palmar-angle 5 deg +- 1 deg' },

  { word: 'heel', in: cuts, takes: [[mark('down'), quantity('amount', 'length', cutAmount), ...clause('from', quantity('from', 'length', bendPlace))], [mark('up'), quantity('wedge', 'angle', heelWedge)]], doc: 'How much the heel is lowered. With `from`, on a plane of its own from so far in front of the heel’s contact backwards, the toe staying as it is: `heel down 8 mm from 60 mm`. Or by how many degrees a wedge raises it, which is kept and not predicted.', example: 'heel down 8 mm' },
  { word: 'toe', in: cuts, takes: [[mark('down'), quantity('amount', 'length', cutAmount)], [mark('back'), quantity('amount', 'length', cutAmount)]], doc: 'How much the toe is lowered, or how far it is brought back.', example: 'toe back 3 mm' },
  { word: 'inside', in: cuts, takes: [[mark('down'), quantity('amount', 'length', cutAmount)]], doc: 'How much the inner side is lowered; predicted on the newest front film.', example: 'inside down 2 mm' },
  { word: 'outside', in: cuts, takes: [[mark('down'), quantity('amount', 'length', cutAmount)]], doc: 'How much the outer side is lowered; predicted on the newest front film.', example: 'outside down 2 mm' },
  { word: 'bevel', in: cuts, repeats: true, takes: [[{ take: 'choice', name: 'places', of: bevelPlaces, many: true }, { ...quantity('amount', 'length', cutAmount), optional: true }, maybeText('text')]], doc: 'Where the edge of the wall is bevelled, and how high.', example: 'bevel toe 8 mm' },
  { word: 'quarters', in: cuts, repeats: true, takes: [[sides, { ...quantity('amount', 'length', cutAmount), optional: true }, maybeText('text')]], doc: 'Quarters relieved of the ground: on which side, and by how much; both sides where none is named.', example: 'quarters inner 3 mm' },
  { word: 'bars', in: cuts, repeats: true, takes: [[sides, { ...quantity('amount', 'length', cutAmount), optional: true }, maybeText('text')]], doc: 'Bars trimmed: on which side, and by how much; both sides where none is named.', example: 'bars outer 2 mm "laid over the sole"' },
  { word: 'leave', in: cuts, repeats: true, takes: [[{ take: 'choice', name: 'parts', of: ['toe', 'heel', 'sole'], many: true }]], doc: 'What is not touched.', example: 'leave toe sole' },
  { word: 'boots', in: ['visit', ...cuts], repeats: true, takes: [...worn, ...bootsOfCut], takesIn: { visit: worn, plan: bootsOfCut, trim: bootsOfCut }, doc: `Boots, with the feet that wear them. ${until} With a text alone, in a plan or trim: boots, pads or casts for its foot.`, example: 'boots LF RF 12 mm "foam pads, day and night"' },
  { word: 'why', in: cuts, repeats: true, takes: [[text('text')]], doc: 'Why it is proposed or was done.', example: 'why "first of three steps"' },
  { word: 'work', in: cuts, repeats: true, takes: [[text('text')]], doc: 'Other work, such as flare dressed.', example: 'work "flare dressed on the outer quarter"' },

  {
    word: 'accept', in: acceptedIn, repeats: true,
    takes: [[{ take: 'finding', name: 'finding' }, { take: 'measure', name: 'measure', optional: true }, mark('because'), text('reason')]],
    doc: 'A finding in this block that has been looked at and is lived with, and why. It stays visible. A measure narrows it to what is told of that measure.', example: 'accept range/palmar-angle because "chronic case, agreed with the vet on Tuesday"',
  },
], 'doc');

/** A landmark's line in a picture: `NAME @ POINT [+- NUMBER] [followed]`. */
export const placingForm: Form = [
  mark('@'),
  { take: 'point', name: 'point', range: coordinate },
  spread,
  { take: 'mark', name: 'followed', text: 'followed', optional: true },
];
export const placingDoc = spoken({
  followed:
    'Proposed by the last earlier film of this foot and view that has the landmark, and confirmed by a person. `+-` is the whole deviation, that of the placing before included; where the two films are compared, what they share cancels.',
});
/** A line of `tape`: `MEASURE QUANTITY`. */
export const tapeForm: Form = [{ take: 'measured', name: 'value', ranges: tapedValue }];
/** A line of `limits`: `MEASURE >= QUANTITY [because TEXT]`. */
const bound: Form = [
  { take: 'relation', name: 'relation' },
  { take: 'measured', name: 'value', ranges: measuredValue },
];
export const limitForms: readonly Form[] = [bound, [...bound, mark('because'), text('because')]];

const rowsByWord = new Map<string, WordRow>([...blocks, ...statements].map((row) => [row.word, row]));
const blocksByWord = new Map<string, BlockRow>(blocks.map((row) => [row.word, row]));

export function findRow(word: string): WordRow | undefined {
  return rowsByWord.get(word);
}

export function findBlock(word: string): BlockRow | undefined {
  return blocksByWord.get(word);
}

export function isBlockRow(row: WordRow): row is BlockRow {
  return 'level' in row;
}

/** The forms of a word in a block. */
export function formsIn(row: WordRow, place: Container): readonly Form[] {
  return row.takesIn?.[place] ?? row.takes;
}

export function rowsIn(place: Container): readonly WordRow[] {
  return [...blocks, ...statements].filter((row) => row.in.includes(place));
}

export function isFoot(word: string): word is FootName {
  return (feet as readonly string[]).includes(word);
}

/** Every word that means something somewhere, for the grammar that colours a file. */
export function everyWord(): {
  blocks: string[];
  statements: string[];
  landmarks: string[];
  units: string[];
  choices: string[];
} {
  const choices = new Set<string>(feet);
  const forms = [...blocks, ...statements].flatMap((row) => row.takes);
  for (const argument of [...forms, placingForm].flat()) {
    if (argument.take === 'choice') argument.of.forEach((word) => choices.add(word));
    if (argument.take === 'word') argument.known.forEach((word) => choices.add(word));
    if (argument.take === 'mark' && /^[a-z]/.test(argument.text)) choices.add(argument.text);
  }
  choices.add('because');
  return {
    blocks: blocks.map((row) => row.word),
    statements: statements.map((row) => row.word),
    landmarks: landmarks.map((landmark) => landmark.word),
    units: [...new Set(units.map((unit) => unit.word))],
    choices: [...choices],
  };
}
