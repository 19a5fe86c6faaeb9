import type { SourceName, Strength } from './sources.ts';

export type Severity = 'error' | 'warning' | 'info' | 'hint';
export type Feet = 'fore' | 'hind' | 'all';

export interface Cut {
  readonly side: 'low' | 'high';
  readonly at: number;
  readonly severity: Severity;
  readonly source: SourceName;
  readonly strength: Strength;
  /** What this means and what to do, after the sentence with the numbers. */
  readonly says?: string;
  /** Where others put the same line. */
  readonly against?: readonly Against[];
}

export interface Against {
  readonly at: number;
  readonly source: SourceName;
  readonly strength: Strength;
}

/** What is usual for a measure, and from where on a value is reported. */
export interface Band {
  readonly measure: string;
  readonly feet: Feet;
  /** Horses, ponies, mules and hinnies, or donkeys, whose feet are another shape. */
  readonly animals: 'horses' | 'donkeys' | 'all';
  /** Lengths shrink with the animal; angles and ratios hold for every size. */
  readonly scales: boolean;
  /** Outermost first on each side: the first cut that a value passes is the one reported. */
  readonly cuts: readonly Cut[];
  /** A measure that readers repeat badly says so in each finding. */
  readonly weak?: true;
}

const rotationAlone =
  'Rotation alone foretells little; the grade of lameness and sinking of the bone weigh more (Hunt 1993).';

// prettier-ignore
export const bands: readonly Band[] = [
  {
    measure: 'palmar-angle', feet: 'fore', animals: 'horses', scales: false, weak: true,
    cuts: [
      { side: 'low', at: 2, severity: 'warning', source: 'textbook', strength: 'read' },
      { side: 'high', at: 10, severity: 'warning', source: 'textbook', strength: 'read' },
    ],
  },
  {
    measure: 'palmar-angle', feet: 'hind', animals: 'horses', scales: false, weak: true,
    cuts: [{ side: 'low', at: 0, severity: 'warning', source: 'clements', strength: 'read', says: 'Hind feet of lame horses lay below 0°, those of controls 1.4 to 1.8°.' }],
  },
  {
    measure: 'palmar-angle', feet: 'fore', animals: 'donkeys', scales: false, weak: true,
    cuts: [{ side: 'high', at: 11, severity: 'warning', source: 'collins', strength: 'quoted', says: 'Donkeys: about 8° where sound, about 11° with laminitis.' }],
  },
  {
    measure: 'capsular-rotation', feet: 'all', animals: 'all', scales: false, weak: true,
    cuts: [
      { side: 'high', at: 11.5, severity: 'error', source: 'stick', strength: 'memory', says: `This is for the vet. ${rotationAlone}` },
      {
        side: 'high', at: 5.5, severity: 'warning', source: 'stick', strength: 'memory', says: rotationAlone,
        against: [{ at: 6.8, source: 'stickQuotes', strength: 'memory' }],
      },
    ],
  },
  {
    measure: 'founder-distance', feet: 'all', animals: 'all', scales: true, weak: true,
    cuts: [
      // The 16 mm that some name as the founder distance are taken from the hairline: they belong to coronet-extensor.
      {
        side: 'high', at: 15, severity: 'error', source: 'careTextbook', strength: 'read', says: 'The bone may be sinking: call the vet now.',
        against: [{ at: 15.2, source: 'eustace', strength: 'memory' }],
      },
      // 7.9 in the paper.
      { side: 'high', at: 8, severity: 'warning', source: 'eustace', strength: 'memory', says: 'Compare with the other feet and with earlier films of this one.' },
    ],
  },
  {
    measure: 'coronet-extensor', feet: 'all', animals: 'all', scales: true,
    cuts: [{ side: 'high', at: 16, severity: 'warning', source: 'sherlock', strength: 'quoted', says: 'Compare with the other feet and with earlier films of this one.' }],
  },
  {
    measure: 'horn-lamellar-share', feet: 'fore', animals: 'horses', scales: false,
    cuts: [
      { side: 'high', at: 28, severity: 'warning', source: 'mullard', strength: 'read', says: 'Mean 25 %, SD 3 % in feet without laminitis.' },
      { side: 'high', at: 25, severity: 'info', source: 'mullard', strength: 'read', says: '42 % of feet without laminitis lie above 25 %.' },
    ],
  },
  {
    measure: 'lamellar-share', feet: 'fore', animals: 'horses', scales: false,
    cuts: [{ side: 'high', at: 11, severity: 'warning', source: 'skelton', strength: 'read', says: 'In acute laminitis without rotation 95 % of feet lay above 11 %, 95 % of healthy ones below.' }],
  },
  ...(['upper', 'middle', 'lower'] as const).map(
    (place): Band => ({
      measure: `horn-lamellar.${place}`, feet: 'fore', animals: 'horses', scales: true,
      cuts: [{ side: 'high', at: 20, severity: 'warning', source: 'floyd', strength: 'read', says: 'Light horses: 17 to 19 mm, the same above and below.' }],
    }),
  ),
  {
    measure: 'sole-depth.tip', feet: 'all', animals: 'all', scales: true,
    cuts: [
      { side: 'low', at: 10, severity: 'error', source: 'parks', strength: 'memory', says: 'Leave the sole alone and talk to the vet; under about 7 mm the foot wants protection (Taylor 2014, as quoted by others).' },
      { side: 'low', at: 15, severity: 'warning', source: 'parks', strength: 'memory', says: 'Leave the sole in front of and under the tip alone.' },
    ],
  },
  {
    measure: 'toe-heel-difference', feet: 'all', animals: 'all', scales: false,
    cuts: [{ side: 'high', at: 5, severity: 'info', source: 'dyson', strength: 'quoted', says: 'The heels run under.' }],
  },
  {
    measure: 'coronet-angle', feet: 'fore', animals: 'horses', scales: false,
    cuts: [{ side: 'low', at: 15, severity: 'info', source: 'trade', strength: 'practice', says: 'A flat hairline often goes with high heels.' }],
  },
];

/** Withers height from which length limits hold as they stand; below it they shrink in proportion. */
export const fullHeightMm = 1480;

export interface Animal {
  readonly kind: 'horse' | 'pony' | 'donkey' | 'mule' | 'hinny' | null;
  readonly heightMm: number | null;
}

/** The factor by which length limits shrink for a small animal; 1 from 148 cm at the withers and where no height is known. */
export function lengthFactor(animal: Animal): number {
  return animal.heightMm === null ? 1 : Math.min(1, animal.heightMm / fullHeightMm);
}

/** The band of a measure for this foot and animal, its length limits already scaled; undefined where none is known. */
export function bandFor(measure: string, foot: string, animal: Animal): Band | undefined {
  const where: Feet = foot.endsWith('H') ? 'hind' : 'fore';
  const who = animal.kind === 'donkey' ? 'donkeys' : 'horses';
  const band = bands.find(
    (row) =>
      row.measure === measure &&
      (row.feet === 'all' || row.feet === where) &&
      (row.animals === 'all' || row.animals === who),
  );
  const factor = lengthFactor(animal);
  if (!band?.scales || factor === 1) return band;
  return { ...band, cuts: band.cuts.map((cut) => scaled(cut, factor)) };
}

function scaled(cut: Cut, factor: number): Cut {
  const against = cut.against?.map((other) => ({ ...other, at: other.at * factor }));
  return { ...cut, at: cut.at * factor, ...(against && { against }) };
}
