import { spokenRows } from '../language/rows.ts';
import type { MeasureName } from '../measures/names.ts';
import type { Severity } from './severity.ts';
import type { SourceName, Strength } from './sources.ts';

export type Feet = 'fore' | 'hind' | 'all';

export interface Threshold {
  readonly side: 'low' | 'high';
  readonly at: number;
  readonly severity: Severity;
  readonly source: SourceName;
  readonly strength: Strength;
  /** What this means and what to do, after the sentence with the numbers. */
  readonly says?: string;
  /** Where others put the same line. */
  readonly against?: readonly Against[];
  /** Shrunk with the animal's height. */
  readonly scaled?: true;
  /** No line for an animal under 24 months. */
  readonly grownOnly?: true;
}

export interface Against {
  readonly at: number;
  readonly source: SourceName;
  readonly strength: Strength;
  /** The sentence that tells it in a message, in place of the figure and who gives it; empty where `says` of the line has it. */
  readonly says?: string;
}

/** What is usual for a measure, and from where on a value is reported. */
export interface Band {
  readonly measure: MeasureName;
  readonly feet: Feet;
  /** Horses, ponies, mules and hinnies, or donkeys, whose feet are another shape. */
  readonly animals: 'horses' | 'donkeys' | 'all';
  /** High limits of lengths shrink with the animal; low ones never do, and angles and ratios hold for every size. */
  readonly scales: boolean;
  /** Outermost first on each side: of two cuts of one severity that a value passes the first is the one reported. */
  readonly thresholds: readonly Threshold[];
  /** A measure that readers repeat badly says so in each finding. */
  readonly weak?: true;
  /** A figure for light horses only: none for an animal over 165 cm or 650 kg. */
  readonly lightOnly?: true;
}

const rotationAlone =
  'Rotation alone says little about the outcome; the grade of lameness and sinking of the bone weigh more (Hunt 1993).';

// prettier-ignore
export const bands: readonly Band[] = [
  {
    measure: 'palmar-angle', feet: 'fore', animals: 'horses', scales: false, weak: true,
    thresholds: [
      { side: 'low', at: 2, severity: 'warning', source: 'textbook', strength: 'read', grownOnly: true },
      { side: 'high', at: 10, severity: 'warning', source: 'textbook', strength: 'read' },
    ],
  },
  {
    measure: 'palmar-angle', feet: 'hind', animals: 'horses', scales: false, weak: true,
    thresholds: [
      // No more than information: the middle half of 225 unselected horses lay between -1.4 and 2.3 degrees.
      { side: 'low', at: 0, severity: 'info', source: 'clements', strength: 'read', grownOnly: true, says: 'Hind feet of lame horses lay below 0°, those of controls 1.4 to 1.8°; but many hind feet lie below 0°.' },
      // No study of hind feet draws this line: it is that of the fore feet.
      { side: 'high', at: 10, severity: 'info', source: 'textbook', strength: 'read', says: 'A textbook gives this for fore feet; hind feet usually lie lower.' },
    ],
  },
  {
    measure: 'palmar-angle', feet: 'fore', animals: 'donkeys', scales: false, weak: true,
    thresholds: [{ side: 'high', at: 10, severity: 'info', source: 'collins', strength: 'quoted', says: 'Donkeys: about 8° where sound, about 11° with laminitis.' }],
  },
  {
    measure: 'capsular-rotation', feet: 'all', animals: 'all', scales: false, weak: true,
    thresholds: [
      { side: 'high', at: 11.5, severity: 'warning', source: 'stick', strength: 'memory', says: `This is for the vet, or the lower wall is flared: place both wall points on its upper part. ${rotationAlone}` },
      {
        side: 'high', at: 5.5, severity: 'warning', source: 'stick', strength: 'memory', says: rotationAlone,
        against: [{ at: 6.8, source: 'stickQuotes', strength: 'memory', says: 'Others quote the same paper with 6.8°.' }],
      },
    ],
  },
  {
    // Ponies were measured, donkeys were not: in a sound donkey the bone may lie low, and nobody says how low.
    measure: 'founder-distance', feet: 'all', animals: 'horses', scales: true, weak: true,
    thresholds: [
      // The 16 mm that some name as the founder distance are taken from the hairline: they belong to coronet-extensor.
      {
        side: 'high', at: 15, severity: 'error', source: 'careTextbook', strength: 'read', says: 'The bone lies very low in the capsule. One film cannot tell whether it sinks: ask the vet today.',
        against: [{ at: 15.2, source: 'eustace', strength: 'memory' }],
      },
      // 7.9 in the paper.
      { side: 'high', at: 8, severity: 'warning', source: 'eustace', strength: 'memory' },
    ],
  },
  {
    measure: 'coronet-extensor', feet: 'all', animals: 'horses', scales: true,
    thresholds: [{ side: 'high', at: 16, severity: 'warning', source: 'sherlock', strength: 'quoted' }],
  },
  {
    // Mean and one and two standard deviations: 25 %, 3 %.
    measure: 'horn-lamellar-share', feet: 'fore', animals: 'horses', scales: false,
    thresholds: [
      { side: 'high', at: 31, severity: 'warning', source: 'mullard', strength: 'read', says: 'Mean 25 %, SD 3 % in feet without laminitis.' },
      { side: 'high', at: 28, severity: 'info', source: 'mullard', strength: 'read', says: 'Mean 25 %, SD 3 % in feet without laminitis; cobs lie 2 % higher.' },
    ],
  },
  {
    measure: 'lamellar-share', feet: 'fore', animals: 'horses', scales: false,
    thresholds: [{ side: 'high', at: 11, severity: 'warning', source: 'skelton', strength: 'read', says: 'In acute laminitis without rotation 95 % of feet lay above 11 %, 95 % of healthy ones below.' }],
  },
  ...(['upper', 'middle', 'lower'] as const).map(
    (place): Band => ({
      measure: `horn-lamellar.${place}`, feet: 'fore', animals: 'horses', scales: true, lightOnly: true,
      thresholds: [{ side: 'high', at: 20, severity: 'info', source: 'floyd', strength: 'read', says: 'Light horses: 17 to 19 mm, the same above and below.' }],
    }),
  ),
  {
    measure: 'sole-depth.tip', feet: 'all', animals: 'all', scales: false,
    thresholds: [
      { side: 'low', at: 7, severity: 'warning', source: 'taylor', strength: 'quoted', says: 'Protect the foot, and take none of the sole.' },
      {
        side: 'low', at: 12, severity: 'info', source: 'parks', strength: 'memory',
        says: 'Sound horses have 11.5 ± 4.5 mm before and 8.6 ± 3.3 mm after a trim; 15 mm is widely taught. Leave the sole under and in front of the tip alone.',
        against: [{ at: 15, source: 'soleRule', strength: 'quoted', says: '' }],
      },
    ],
  },
  {
    measure: 'coronet-angle', feet: 'fore', animals: 'horses', scales: false,
    thresholds: [{ side: 'low', at: 15, severity: 'info', source: 'trade', strength: 'practice', says: 'A flat hairline often goes with high heels; in Arabians it is usual.' }],
  },
];

const thresholds = bands.flatMap((band) => band.thresholds);
spokenRows([...thresholds, ...thresholds.flatMap(({ against = [] }) => against)], 'says');

/** Withers height from which length limits hold as they stand; below it the high ones shrink in proportion. */
export const fullHeightMm = 1480;

/** Beyond either an animal is no light horse. A judgement of ours. */
const light = { heightMm: 1650, weightKg: 650 };

export interface JudgedAnimal {
  readonly kind: 'horse' | 'pony' | 'donkey' | 'mule' | 'hinny' | null;
  readonly heightMm: number | null;
  /** Under 24 months on the day that is judged; left out where it is grown or no birth date is given. */
  readonly young?: true;
  /** The newest weight up to the day that is judged; left out where there is none. */
  readonly weightKg?: number;
}

/** The factor by which high limits of lengths shrink for a small animal; 1 from 148 cm at the withers and where no height is known. */
export function lengthFactor(animal: JudgedAnimal): number {
  return animal.heightMm === null ? 1 : Math.min(1, animal.heightMm / fullHeightMm);
}

export function isHeavy({ heightMm, weightKg = 0 }: JudgedAnimal): boolean {
  return (heightMm ?? 0) > light.heightMm || weightKg > light.weightKg;
}

/**
 * The band of a measure for this foot and animal, its high length limits already scaled; undefined where none is known.
 * Under 24 months there is none for a length that shrinks with the animal, as all were found on grown ones, and no lowest
 * palmar angle to trim down to; the sole, shares and the other angles are judged as ever, so that nothing grave is silent.
 */
export function bandFor(measure: MeasureName, foot: string, animal: JudgedAnimal): Band | undefined {
  const where: Feet = foot.endsWith('H') ? 'hind' : 'fore';
  const who = animal.kind === 'donkey' ? 'donkeys' : 'horses';
  const band = bands.find(
    (row) =>
      row.measure === measure &&
      (row.feet === 'all' || row.feet === where) &&
      (row.animals === 'all' || row.animals === who) &&
      !(row.lightOnly && isHeavy(animal)),
  );
  if (band && animal.young) {
    const thresholds = band.thresholds.filter((cut) => !cut.grownOnly);
    return band.scales || thresholds.length === 0 ? undefined : { ...band, thresholds };
  }
  const factor = lengthFactor(animal);
  if (!band?.scales || factor === 1) return band;
  return {
    ...band,
    thresholds: band.thresholds.flatMap((cut) => {
      if (cut.side === 'low') return [cut];
      return cut.severity === 'error' ? [cut, asWarning(scaled(cut, factor))] : [scaled(cut, factor)];
    }),
  };
}

function scaled(cut: Threshold, factor: number): Threshold {
  const against = cut.against?.map((other) => ({ ...other, at: other.at * factor }));
  return { ...cut, at: cut.at * factor, scaled: true, ...(against && { against }) };
}

/** An alarm that is probably too strict is none: what is an error at full height is a warning where it was scaled. */
const asWarning = ({ side, at, source, strength, against, scaled }: Threshold): Threshold => ({
  side,
  at,
  severity: 'warning',
  source,
  strength,
  ...(against && { against }),
  ...(scaled && { scaled }),
});
