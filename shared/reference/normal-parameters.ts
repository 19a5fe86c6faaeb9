import { lengthFactor, type Animal } from './bands.ts';
import { citation, type SourceName, type Strength } from './sources.ts';

/** What a normal foot is drawn by: one number, and where it comes from. */
export interface NormalParameter {
  readonly value: number;
  readonly unit: 'deg' | 'mm' | '%';
  readonly words: string;
  readonly source: SourceName;
  readonly strength: Strength;
  readonly note?: string;
}

export type NormalName =
  | 'palmarAngle'
  | 'capsularRotation'
  | 'phalangealRotation'
  | 'hornLamellarShare'
  | 'lamellarZone'
  | 'founderDistance'
  | 'coronetExtensor'
  | 'soleDepth'
  | 'breakoverReach'
  | 'toeShare'
  | 'coronetAngle'
  | 'toeHeelDifference';

export type NormalParameters = Readonly<Record<NormalName, NormalParameter>>;

/** Lengths shrink with a small animal, as the limits do; angles and shares do not. */
export function normalParameters(foot: string, animal: Animal): NormalParameters {
  const factor = lengthFactor(animal);
  const mm = (value: number): number => value * factor;
  return {
    palmarAngle: palmarAngle(foot, animal),
    capsularRotation: {
      value: 0,
      unit: 'deg',
      words: 'wall and bone parallel',
      source: 'floyd',
      strength: 'read',
      note: 'the same thickness above and below',
    },
    phalangealRotation: { value: 0, unit: 'deg', words: 'bones in one line', source: 'trade', strength: 'practice' },
    hornLamellarShare: {
      value: 25,
      unit: '%',
      words: 'horn and lamellae, share of the bone’s length',
      source: 'mullard',
      strength: 'read',
      note: 'mean of 415 feet',
    },
    lamellarZone: {
      value: mm(7),
      unit: 'mm',
      words: 'lamellar zone',
      source: 'skelton',
      strength: 'read',
      note: 'healthy feet: 6.9 to 7.5 mm',
    },
    founderDistance: {
      value: mm(4.1),
      unit: 'mm',
      words: 'founder distance',
      source: 'cripps',
      strength: 'memory',
      note: 'mean of normal horses',
    },
    coronetExtensor: {
      value: mm(13.5),
      unit: 'mm',
      words: 'hairline above the extensor process',
      source: 'reddenParks',
      strength: 'memory',
      note: '12 to 15 mm',
    },
    soleDepth: {
      value: mm(15),
      unit: 'mm',
      words: 'sole depth',
      source: 'soleRule',
      strength: 'quoted',
      note: '15 mm or more',
    },
    breakoverReach: {
      value: mm(22.5),
      unit: 'mm',
      words: 'breakover before the tip',
      source: 'reddenTrade',
      strength: 'memory',
      note: '20 to 25 mm',
    },
    toeShare: {
      value: 60,
      unit: '%',
      words: 'share of the bearing length before the coffin joint',
      source: 'grady',
      strength: 'memory',
      note: '50 to 60 %',
    },
    coronetAngle: { value: 23.5, unit: 'deg', words: 'fall of the hairline', source: 'trade', strength: 'practice' },
    toeHeelDifference: {
      value: 2.5,
      unit: 'deg',
      words: 'heel flatter than the toe by',
      source: 'trade',
      strength: 'practice',
      note: 'no measured ground: most feet are flatter at the heel',
    },
  };
}

function palmarAngle(foot: string, { kind }: Animal): NormalParameter {
  const words = foot.endsWith('H') ? 'plantar angle' : 'palmar angle';
  if (kind === 'donkey')
    return { value: 8, unit: 'deg', words, source: 'collins', strength: 'quoted', note: 'sound donkeys' };
  if (foot.endsWith('H'))
    return {
      value: 1.6,
      unit: 'deg',
      words,
      source: 'clements',
      strength: 'read',
      note: 'between the means of both sides',
    };
  return { value: 4, unit: 'deg', words, source: 'textbook', strength: 'read', note: 'usually 3 to 5°' };
}

/** `palmar angle 4° (a textbook, …; usually 3 to 5°)`. */
export function sayParameter({ value, unit, words, source, strength, note }: NormalParameter): string {
  const number = `${Number(value.toFixed(1))}${unit === 'deg' ? '°' : ` ${unit}`}`;
  const stated = value === 0 ? words : `${words} ${number}`;
  return `${stated} (${citation(source, strength)}${note === undefined ? '' : `; ${note}`})`;
}

/** A donkey’s foot has another shape: what is known of it stands above, the rest is a horse’s. */
export function normalBorrowed({ kind }: Animal): string | null {
  switch (kind) {
    case 'donkey':
      return 'Only the palmar angle is a donkey’s; the rest is a horse’s, and a donkey’s foot has another shape.';
    case 'mule':
    case 'hinny':
      return 'A horse’s foot: nothing is known of others.';
    default:
      return null;
  }
}
