import { figures } from '../language/figures.ts';
import { t } from '../language/words.ts';
import { lengthFactor, type JudgedAnimal } from './bands.ts';
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

/** The animals of whose kind a whole normal foot can be built from values that could be read. */
export type NormalAnimal = JudgedAnimal & { readonly kind: 'horse' | 'pony' };

/**
 * The animal, where a normal foot of its own kind can be built; else why none is laid over its feet, in one sentence: a foot is held against its own kind or against none. Of sound
 * donkeys' feet angles could be read (Collins 2011 as quoted), but neither founder distance nor sole depth nor hairline; of
 * mules only that they lie between horse and donkey (Biometrics of hoof balance in equids, abstract); of hinnies nothing.
 */
export function withNormal({ kind, heightMm }: JudgedAnimal): NormalAnimal | string {
  switch (kind) {
    case 'horse':
    case 'pony':
      return { kind, heightMm };
    case 'donkey':
      return t(
        'There is no normal foot to lay over a donkey’s: a horse’s has another shape, and no full set of values of sound donkeys could be read.',
      );
    case 'mule':
      return t(
        'There is no normal foot to lay over a mule’s: it lies between a horse’s and a donkey’s, and no values of it could be read.',
      );
    case 'hinny':
      return t('There is no normal foot to lay over a hinny’s: no values of hinnies’ feet could be read.');
    case null:
      return t(
        'To lay over a normal foot, write in the case what animal this is (animal horse, for example): it is one of its own kind.',
      );
  }
}

/** Lengths shrink with a small animal, as the limits do; angles and shares do not. */
export function normalParameters(foot: string, animal: NormalAnimal): NormalParameters {
  const factor = lengthFactor(animal);
  const mm = (value: number): number => value * factor;
  return {
    palmarAngle: palmarAngle(foot),
    capsularRotation: {
      value: 0,
      unit: 'deg',
      words: t('wall and bone parallel'),
      source: 'floyd',
      strength: 'read',
      note: t('the same thickness above and below'),
    },
    phalangealRotation: { value: 0, unit: 'deg', words: t('bones in one line'), source: 'trade', strength: 'practice' },
    hornLamellarShare: {
      value: 25,
      unit: '%',
      words: t('horn and lamellae, share of the bone’s length'),
      source: 'mullard',
      strength: 'read',
      note: t('mean of 415 feet'),
    },
    lamellarZone: {
      value: mm(7),
      unit: 'mm',
      words: t('lamellar zone'),
      source: 'skelton',
      strength: 'read',
      note: t('healthy feet: 6.9 to 7.5 mm'),
    },
    founderDistance: {
      value: mm(4.1),
      unit: 'mm',
      words: t('founder distance'),
      source: 'cripps',
      strength: 'memory',
      note: t('mean of normal horses'),
    },
    coronetExtensor: {
      value: mm(13.5),
      unit: 'mm',
      words: t('hairline above the extensor process'),
      source: 'reddenParks',
      strength: 'memory',
      note: t('12 to 15 mm'),
    },
    soleDepth: {
      value: mm(15),
      unit: 'mm',
      words: t('sole depth'),
      source: 'soleRule',
      strength: 'quoted',
      note: t('15 mm or more'),
    },
    breakoverReach: {
      value: mm(22.5),
      unit: 'mm',
      words: t('breakover before the tip'),
      source: 'reddenTrade',
      strength: 'memory',
      note: t('20 to 25 mm'),
    },
    toeShare: {
      value: 60,
      unit: '%',
      words: t('share of the bearing length before the coffin joint'),
      source: 'grady',
      strength: 'memory',
      note: t('50 to 60 %'),
    },
    coronetAngle: { value: 23.5, unit: 'deg', words: t('fall of the hairline'), source: 'trade', strength: 'practice' },
    toeHeelDifference: {
      value: 2.5,
      unit: 'deg',
      words: t('heel flatter than the toe by'),
      source: 'trade',
      strength: 'practice',
      note: t('no measured ground: most feet are flatter at the heel'),
    },
  };
}

function palmarAngle(foot: string): NormalParameter {
  const words = foot.endsWith('H') ? t('plantar angle') : t('palmar angle');
  if (foot.endsWith('H'))
    return {
      value: 1.6,
      unit: 'deg',
      words,
      source: 'clements',
      strength: 'read',
      note: t('between the means of both sides'),
    };
  return { value: 4, unit: 'deg', words, source: 'textbook', strength: 'read', note: t('usually 3 to 5°') };
}

/** `palmar angle 4° (a textbook, …; usually 3 to 5°)`. */
export function sayParameter({ value, unit, words, source, strength, note }: NormalParameter): string {
  const number = `${figures(Number(value.toFixed(1)))}${unit === 'deg' ? '°' : ` ${unit}`}`;
  const stated = value === 0 ? words : `${words} ${number}`;
  return `${stated} (${citation(source, strength)}${note === undefined ? '' : `; ${note}`})`;
}

/** Of ponies no set of values could be read; only that most lengths follow the height, and that angles do not (Thieme 2015). */
export function normalBorrowed({ kind, heightMm }: NormalAnimal): string | null {
  if (kind === 'horse') return null;
  const borrowed = t('A horse’s foot made smaller by the height at the withers: no values of ponies could be read');
  return heightMm === null
    ? t('{0}. No height is written: its lengths are a full-sized horse’s.', borrowed)
    : `${borrowed}.`;
}
