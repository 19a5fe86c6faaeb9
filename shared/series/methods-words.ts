import { counted, t } from '../language/words.ts';
import { spoken } from '../language/rows.ts';
import { program } from '../export/structured/uids.ts';
import { list, sentence } from '../findings/wording/wording.ts';
import { handSpreadWords } from '../measures/hand-spread.ts';
import { findHandMeasure } from '../measures/by-hand.ts';
import { findMeasure } from '../measures/registry.ts';
import type { OwnSet } from '../reference/own-set.ts';
import { scaleOrigins, type ScaleOrigin } from '../views/scale-origin.ts';
import { nameOfLandmark } from '../views/landmark-names.ts';
import { Citing, workOfSet } from './citing.ts';
import { agreementWords, changeWords, limitWords } from './methods-judged.ts';
import type { MethodsFacts } from './methods.ts';

/** The paragraph of a paper that says what was done, and the works that it names. */
export interface MethodsParagraph {
  /** Sentences, in their order. */
  readonly sentences: readonly string[];
  readonly citing: Citing;
}

/**
 * Says what was used in these cases, and nothing that was not. @param reference sets of reference values of one's own that were given
 */
export function methodsParagraph(facts: MethodsFacts, reference: readonly OwnSet[] = []): MethodsParagraph {
  const citing = new Citing();
  const sentences = [
    ...whatThereWas(facts),
    ...(facts.source === 'hand' ? [handSpreadWords()] : [...whoPlaced(facts), ...howScaled(facts)]),
    ...howMeasured(facts),
    ...(facts.source === 'hand' ? [] : howSure(facts)),
    ...whatIsOne(facts),
    ...changeWords(facts, citing),
    ...limitWords(facts, citing),
    ...agreementWords(facts, citing),
    ...byWhich(reference, citing),
  ];
  return { sentences, citing };
}

function whatThereWas(facts: MethodsFacts): string[] {
  const { source, films, feet, animals, visits } = facts;
  const all = [...animals.values()].reduce((sum, n) => sum + n, 0);
  if (all === 0) return [t('No case has anything of this kind to measure.')];
  const kinds = list([...animals].sort(([, a], [, b]) => b - a).map(([kind, n]) => kindWords(kind, n)));
  return [
    t(
      'The measures are from {0} of {1} of {2} ({3}), at {4}.',
      filmWords(source, films),
      counted(feet, 'one foot', '{0} feet'),
      counted(all, 'one animal', '{0} animals'),
      kinds,
      counted(visits, 'one visit', '{0} visits'),
    ),
  ];
}

function filmWords(source: MethodsFacts['source'], n: number): string {
  if (source === 'film') return counted(n, 'one radiograph', '{0} radiographs');
  return source === 'photo'
    ? counted(n, 'one photograph', '{0} photographs')
    : counted(n, 'one set of values taken by hand', '{0} sets of values taken by hand');
}

function kindWords(kind: string, n: number): string {
  switch (kind) {
    case 'horse':
      return counted(n, 'one horse', '{0} horses');
    case 'pony':
      return counted(n, 'one pony', '{0} ponies');
    case 'donkey':
      return counted(n, 'one donkey', '{0} donkeys');
    case 'mule':
      return counted(n, 'one mule', '{0} mules');
    case 'hinny':
      return counted(n, 'one hinny', '{0} hinnies');
    default:
      return counted(n, 'one of a kind that is not said', '{0} of a kind that is not said');
  }
}

function* whoPlaced(facts: MethodsFacts): Iterable<string> {
  const { readers, unnamed, readings, followed, landmarks } = facts;
  if (readings === 0) return;
  yield counted(
    readers,
    'One reader placed the landmarks by hand ({1}).',
    '{0} readers placed the landmarks by hand ({1}).',
    counted(readings, 'one reading', '{0} readings'),
  );
  if (unnamed && readers > 1) yield t('Readings without a name count as one reader’s.');
  if (landmarks.size > 0) yield t('The measures rest on {0}.', landmarkWords(facts));
  if (followed.placings > 0)
    yield counted(
      followed.placings,
      'One placing on {1} was proposed by the film before of the same foot and confirmed by a person; it shares that film’s error, which cancels where the two are compared.',
      '{0} placings on {1} were proposed by the film before of the same foot and confirmed by a person; they share that film’s error, which cancels where the two are compared.',
      counted(followed.films, 'one film', '{0} films'),
    );
}

/** Landmarks that were placed as often and by as many people stand together. */
function landmarkWords({ landmarks }: MethodsFacts): string {
  const groups = new Map<string, string[]>();
  for (const [name, { readings, readers }] of landmarks) {
    const often = t(
      'in {0} by {1}',
      counted(readings, 'one reading', '{0} readings'),
      counted(readers, 'one reader', '{0} readers'),
    );
    groups.set(often, [...(groups.get(often) ?? []), `${t('“{0}”', nameOfLandmark(name))} (${name})`]);
  }
  return [...groups].map(([often, names]) => `${list(names)} (${often})`).join('; ');
}

const originWords: Readonly<Record<ScaleOrigin['from'], string>> = spoken({
  marker: 'a marker of known length',
  number: 'a stated size of the pixel',
  file: 'what the picture’s own file states',
  bone: 'the lengths of the bones on other films of the foot',
  'bone of the other foot': 'the lengths of the bones on films of the other foot of the pair',
});

function* howScaled({ scales, unscaled, magnified, films }: MethodsFacts): Iterable<string> {
  const used = scaleOrigins.flatMap((from) => {
    const n = scales.get(from);
    return n === undefined ? [] : [`${originWords[from]} (${n})`];
  });
  if (used.length > 0) yield t('The pictures were put to scale by {0}.', list(used));
  if (unscaled > 0 && films > 0)
    yield counted(
      unscaled,
      'One picture has no scale and gives no length.',
      '{0} pictures have no scale and give no length.',
    );
  if (magnified > 0)
    yield counted(
      magnified,
      'Of one picture the scale was divided by a stated magnification.',
      'Of {0} pictures the scale was divided by a stated magnification.',
    );
}

function* howMeasured({ uses, source, shod }: MethodsFacts): Iterable<string> {
  if (uses.length === 0) return;
  if (source !== 'hand')
    yield t(
      'Each was measured in the foot’s own axes, X along the plane that the wall bears on and to the toe, Y square to it and up, in millimetres and degrees.',
    );
  if (shod > 0)
    yield counted(
      shod,
      'On one picture the foot wears something: what the bones stand to is the ground, what the wall stands to the plane between hoof and shoe.',
      'On {0} pictures the foot wears something: what the bones stand to is the ground, what the wall stands to the plane between hoof and shoe.',
    );
  for (const { measure, films, feet } of uses) {
    const known = findMeasure(measure.name);
    const doc = known?.doc ?? findHandMeasure(measure.name)?.doc ?? '';
    const formula = known && source !== 'hand' ? `, ${known.formula}` : '';
    yield t(
      '{0} ({1}{2}; {3}, {4}): {5}',
      sentence(measure.words),
      measure.name,
      formula,
      counted(films, 'one value', '{0} values'),
      counted(feet, 'one foot', '{0} feet'),
      doc,
    );
  }
}

function* howSure({ spreads, spread, ofReaders, uses }: MethodsFacts): Iterable<string> {
  if (uses.length === 0) return;
  const readers = [...ofReaders].sort(([a], [b]) => a - b);
  const known = [
    spreads.usual > 0 && t('{0} mm where nothing else is written ({1})', spread.mm, placings(spreads.usual)),
    spreads.usualPx > 0 &&
      t('{0} px on films without a scale where nothing else is written ({1})', spread.px, placings(spreads.usualPx)),
    spreads.reader > 0 &&
      t(
        'what is written of the reader, {0} ({1})',
        list(readers.map(([px, { size }]) => t('{0} px of {1}', px, counted(size, 'one reader', '{0} readers')))),
        placings(spreads.reader),
      ),
    spreads.own > 0 && t('what is written at the placing itself ({0})', placings(spreads.own)),
  ].filter((part) => typeof part === 'string');
  yield t(
    'Each value has one standard deviation, carried to first order from those of the placings and of the scale; that of a placing is {0}. It holds no error of the beam or of how the animal stood.',
    list(known),
  );
}

const placings = (n: number): string => counted(n, 'one placing', '{0} placings');

function* whatIsOne({ severalReadings, severalFilms, source }: MethodsFacts): Iterable<string> {
  if (severalReadings > 0) yield t('Where a film has several readings their mean is its value.');
  if (severalFilms > 0)
    yield source === 'hand'
      ? t('Where a foot was measured several times on a day the mean is its value of that day.')
      : t('Where a foot has several films of a day their mean is its value of that day.');
}

function byWhich(reference: readonly OwnSet[], citing: Citing): string[] {
  reference.forEach((set, place) => citing.add(workOfSet(set, place), 'read'));
  const { name, version } = program;
  citing.add({ key: 'ungula', kind: 'misc', title: name, note: t('Computer program, version {0}', version) }, 'read');
  return [
    reference.length > 0
      ? t(
          'All was computed with Ungula {0}, with reference values of one’s own: {1}.',
          version,
          list(reference.map((set) => set.name)),
        )
      : t('All was computed with Ungula {0}.', version),
  ];
}
