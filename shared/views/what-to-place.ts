import { spokenRows } from '../language/rows.ts';
import type { MeasureName } from '../measures/names.ts';
import { findMeasure, isOfShod, measuresIn } from '../measures/registry.ts';
import { landmarksOf, seldomSeen, type LandmarkName, type View } from '../notation/landmarks.ts';
import { landmarksShown } from '../notation/photo-landmarks.ts';
import type { FilmSheet } from './film-sheet.ts';
import { nameOfLandmark } from './landmark-names.ts';

/** What somebody may want to know of a picture, so as to be led to the places that it takes. */
export interface PlacingSet {
  /** By which it is kept, in whatever language. */
  readonly name: string;
  /** The name as it is shown. */
  readonly words: string;
  readonly view: View;
  readonly kinds: readonly FilmSheet['kind'][];
  /** None: every measure of the view that most feet have. */
  readonly measures: readonly MeasureName[] | 'all';
}

const film = ['film'] as const;
const photo = ['photo'] as const;
const both = ['film', 'photo'] as const;

/** Of each view and kind the first is what is wanted where nobody has chosen. */
// prettier-ignore
const setRows: readonly Omit<PlacingSet, 'words'>[] = [
  { name: 'rotation and sole', view: 'lateral', kinds: film,
    measures: ['palmar-angle', 'capsular-rotation', 'phalangeal-rotation', 'sole-depth.tip', 'sole-depth.wing'] },
  // The landmarks without which no plan is made, and no more: see `needed` in shared/findings/limits/planning.ts.
  { name: 'what a plan needs', view: 'lateral', kinds: film,
    measures: ['palmar-angle', 'sole-depth.tip', 'sole-depth.wing', 'heel-surplus', 'bearing-length'] },
  { name: 'sinking of the bone', view: 'lateral', kinds: film,
    measures: ['founder-distance', 'coronet-extensor', 'sole-depth.tip', 'horn-lamellar.upper', 'horn-lamellar.lower'] },
  { name: 'what a trim may take', view: 'lateral', kinds: film,
    measures: ['palmar-angle', 'sole-depth.tip', 'sole-depth.wing', 'heel-surplus', 'heel-height', 'heel-angle', 'bearing-length',
      'breakover-reach', 'toe-length', 'wall-angle', 'horn-lamellar.lower'] },
  { name: 'pastern and joints', view: 'lateral', kinds: film,
    measures: ['middle-angle', 'axis-angle', 'phalangeal-rotation', 'hoof-pastern-deviation', 'toe-share', 'phalanx-ratio'] },
  { name: 'wall and lamellae', view: 'lateral', kinds: film,
    measures: ['wall-angle', 'horn-lamellar.middle', 'lamellar-zone.middle', 'horn-lamellar-share', 'lamellar-share'] },
  { name: 'the capsule from the side', view: 'lateral', kinds: photo,
    measures: ['wall-angle', 'heel-angle', 'coronet-angle', 'toe-heel-difference', 'toe-length', 'heel-height', 'bearing-length'] },
  { name: 'everything lateral', view: 'lateral', kinds: both, measures: 'all' },
  { name: 'balance from the front', view: 'front', kinds: film, measures: ['p3-tilt', 'joint-tilt', 'coronet-tilt'] },
  { name: 'everything from the front', view: 'front', kinds: both, measures: 'all' },
  { name: 'everything from below', view: 'solar', kinds: both, measures: 'all' },
];

export const placingSets: readonly PlacingSet[] = spokenRows(
  setRows.map((row) => ({ ...row, words: row.name })),
  'words',
);

export function setsFor({ view, kind }: Pick<FilmSheet, 'view' | 'kind'>): readonly PlacingSet[] {
  return placingSets.filter((set) => set.view === view && set.kinds.includes(kind));
}

/** Of the names that are wanted those that mean something in this view; the usual one where none does. */
export function wantedIn(sheet: Pick<FilmSheet, 'view' | 'kind'>, wanted: readonly string[]): readonly string[] {
  const sets = setsFor(sheet);
  const meant = wanted.filter(
    (name) => sets.some((set) => set.name === name) || findMeasure(name)?.view === sheet.view,
  );
  const [usual] = sets;
  return meant.length > 0 || !usual ? meant : [usual.name];
}

/** The measures behind names of sets and of measures, in the order of the registry. */
export function measuresWanted(view: View, wanted: readonly string[]): readonly MeasureName[] {
  const names = new Set<MeasureName>(
    wanted.flatMap((name) => {
      const set = placingSets.find((one) => one.name === name);
      if (!set) return findMeasure(name)?.name ?? [];
      return set.measures === 'all' ? commonIn(view) : set.measures;
    }),
  );
  return measuresIn(view)
    .map(({ name }) => name)
    .filter((name) => names.has(name));
}

/** Without what rests on a landmark, or a shoe, that many feet do not have: that is asked for by name. */
const commonIn = (view: View): MeasureName[] =>
  measuresIn(view)
    .filter((measure) => !isOfShod(measure) && !measure.needs.some((need) => seldomSeen.has(need)))
    .map(({ name }) => name);

/** More that somebody may place once what was wanted is there. */
export interface NextSet {
  readonly name: string;
  readonly words: string;
  /** Keys of its steps, and how many of them are open. */
  readonly keys: readonly string[];
  readonly open: number;
}

/** What a plan needs, where the film lacks some of it and nobody has wanted it yet. */
export function nextSet(sheet: FilmSheet, wanted: readonly string[]): NextSet | null {
  const set = setsFor(sheet).find(({ name }) => name === 'what a plan needs');
  if (!set || wantedIn(sheet, wanted).includes(set.name)) return null;
  const steps = stepsFor(sheet, [set.name]);
  const open = steps.filter((step) => !isPlaced(step, sheet)).length;
  return open === 0 ? null : { name: set.name, words: set.words, keys: steps.map(({ key }) => key), open };
}

/** One thing to place. */
export interface PlacingStep {
  /** `scale`, `ground`, `bearing`, or the landmark's word. */
  readonly key: string;
  readonly name: string;
  /** One line on where it lies. */
  readonly advice: string;
  /** A joint's centre, which three points on the rounded end of the bone give. */
  readonly byRim: boolean;
}

const scaleStep: PlacingStep = {
  key: 'scale',
  name: 'Scale marker',
  advice: 'The two ends of a marker of known length that lies in the plane of the foot.',
  byRim: false,
};
const groundStep: PlacingStep = {
  key: 'ground',
  name: 'Ground line',
  advice: 'Two points on what the foot stands on, one behind the heel and one before the toe.',
  byRim: false,
};
const bearingStep: PlacingStep = {
  key: 'bearing',
  name: 'Bearing line',
  advice: 'Two points on the plane between hoof and shoe, one at either end of it.',
  byRim: false,
};
spokenRows([scaleStep, groundStep, bearingStep], 'name', 'advice');
const rims: ReadonlySet<LandmarkName> = new Set(['coffin.centre', 'pastern.centre', 'fetlock.centre']);

/** What is placed by its two ends. */
export const lineKeys = ['scale', 'ground', 'bearing'] as const;
export type LineKey = (typeof lineKeys)[number];

export function isLineKey(key: string | undefined): key is LineKey {
  return (lineKeys as readonly (string | undefined)[]).includes(key);
}

const contacts: Readonly<Record<View, readonly LandmarkName[]>> = {
  lateral: ['toe.ground', 'heel.ground'],
  front: ['wall.medial', 'wall.lateral'],
  solar: ['toe', 'heel.medial', 'heel.lateral'],
};

/** What has to be placed for what is wanted, in the order in which one goes round the foot. */
export function stepsFor(
  sheet: Pick<FilmSheet, 'view' | 'kind'> & Partial<Pick<FilmSheet, 'isShod'>>,
  wanted: readonly string[],
): readonly PlacingStep[] {
  const { view, isShod = false } = sheet;
  const names = wantedIn(sheet, wanted);
  const measures = measuresWanted(view, names).flatMap((name) => findMeasure(name) ?? []);
  const needs = new Set<LandmarkName>(measures.flatMap((measure) => measure.needs));
  // Everything is everything that the picture shows. Some places no measure needs; the bones are drawn by them.
  const shows = landmarksShown(view, sheet.kind);
  if (placingSets.some((set) => set.measures === 'all' && names.includes(set.name))) {
    if (sheet.kind === 'photo') needs.clear();
    for (const { word, seen } of shows) if (seen !== 'seldom') needs.add(word);
  }
  for (const name of frameNeeds(sheet, needs)) needs.add(name);
  // What was wanted by name is asked for even where a photo hardly shows it.
  const inOrder = [...shows, ...landmarksOf(view).filter((one) => !shows.includes(one))];
  const steps = inOrder
    .filter(({ word }) => needs.has(word))
    .map(({ word, doc }): PlacingStep => ({
      key: word,
      name: nameOfLandmark(word),
      advice: doc,
      byRim: rims.has(word),
    }));
  const withBearing = view === 'lateral' && isShod ? [bearingStep, ...steps] : steps;
  const first = [
    ...(measures.some(({ kind }) => kind === 'length') ? [scaleStep] : []),
    ...(view === 'solar' ? [] : [groundStep]),
  ];
  if (sheet.kind === 'film') return [...first, ...withBearing];
  // A photo begins with the contacts: they say where the ground is, and which way the foot faces.
  const isContact = ({ key }: PlacingStep): boolean => contacts[view].some((name) => name === key);
  return [...withBearing.filter(isContact), ...first, ...withBearing.filter((step) => !isContact(step))];
}

/** Which way the toe, or the outer side, lies has to be known too. */
function frameNeeds(
  { view, kind }: Pick<FilmSheet, 'view' | 'kind'>,
  needs: ReadonlySet<LandmarkName>,
): readonly LandmarkName[] {
  const has = (pair: readonly LandmarkName[]): boolean => pair.every((name) => needs.has(name));
  const bone = kind === 'film';
  switch (view) {
    case 'lateral': {
      const pairs: readonly (readonly [LandmarkName, LandmarkName])[] = [
        ['p3.tip', 'p3.wing'],
        ['toe.ground', 'heel.ground'],
      ];
      return pairs.some(has) ? [] : (pairs[bone ? 0 : 1] ?? []);
    }
    case 'front': {
      const pairs: readonly (readonly [LandmarkName, LandmarkName])[] = [
        ['p3.medial', 'p3.lateral'],
        ['coronet.medial', 'coronet.lateral'],
        ['wall.medial', 'wall.lateral'],
      ];
      return pairs.some(has) ? [] : (pairs[bone ? 0 : 1] ?? []);
    }
    case 'solar':
      return ['toe', 'heel.medial', 'heel.lateral'];
  }
}

/** Everything of a picture that may be placed, whether it is wanted or not. */
export function everyStep({ view }: Pick<FilmSheet, 'view'>): readonly PlacingStep[] {
  const steps = landmarksOf(view).map(({ word, doc }): PlacingStep => ({
    key: word,
    name: nameOfLandmark(word),
    advice: doc,
    byRim: rims.has(word),
  }));
  if (view === 'solar') return [scaleStep, ...steps];
  return [scaleStep, groundStep, bearingStep, ...steps];
}

export function isPlaced({ key }: Pick<PlacingStep, 'key'>, { placed, ground, bearing, scale }: FilmSheet): boolean {
  if (key === 'scale') return scale !== null;
  if (key === 'ground') return ground !== null;
  if (key === 'bearing') return bearing !== null;
  return key in placed;
}

/** Where the walk stands: at the step that was chosen, else at the first that is open; null where nothing is open. */
export function stepAt(
  steps: readonly PlacingStep[],
  sheet: FilmSheet,
  chosen: string | null,
  skipped: readonly string[],
): PlacingStep | null {
  const kept = steps.find(({ key }) => key === chosen);
  return kept ?? steps.find((step) => isOpen(step, sheet, skipped)) ?? null;
}

/** The next open step after one, from the beginning again where none follows; null where nothing is open any more. */
export function stepAfter(
  steps: readonly PlacingStep[],
  sheet: FilmSheet,
  from: string,
  skipped: readonly string[],
): PlacingStep | null {
  const at = steps.findIndex(({ key }) => key === from);
  const round = [...steps.slice(at + 1), ...steps.slice(0, Math.max(at, 0))];
  return round.find((step) => isOpen(step, sheet, skipped)) ?? null;
}

/** The step before one, placed or not; the last where the walk is over; null at the first. */
export function stepBefore(steps: readonly PlacingStep[], from: string | null): PlacingStep | null {
  if (from === null) return steps.at(-1) ?? null;
  const at = steps.findIndex(({ key }) => key === from);
  return at > 0 ? (steps[at - 1] ?? null) : null;
}

const isOpen = (step: PlacingStep, sheet: FilmSheet, skipped: readonly string[]): boolean =>
  !isPlaced(step, sheet) && !skipped.includes(step.key);
