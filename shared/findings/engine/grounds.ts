import type { StudiedCut, StudiedFilm } from '../../trim/study.ts';
import type { RuleContext } from '../rule.ts';

/**
 * What is told of a visit rests on the visit and on these grounds, each under a key of its own, and on nothing else: it holds for as
 * long as every ground is the same. A rule that is to look at something more gets it here first. `tests/property/grounds.test.ts`
 * changes each of them.
 */
type Grounds<From> = Readonly<Record<string, (from: From) => unknown>>;

/** What a case brings to the rules of its visits. */
export type CaseGround = Pick<RuleContext, 'animal' | 'record' | 'reference' | 'trim'>;

export const caseGrounds = {
  kind: ({ animal }) => animal.kind,
  height: ({ animal }) => animal.heightMm,
  born: ({ animal }) => animal.born,
  'grown from': ({ animal }) => animal.grownFrom,
  'own sets of values': ({ reference }) => reference,
  'settings of trims': ({ trim }) => trim,
  limits: ({ record }) => record.limits.map(({ is }) => is),
} as const satisfies Grounds<CaseGround>;

/** What a film brings, its own visit's or one that a rule has asked for by its day; where it stands in the file does not count. */
export const filmGrounds = {
  text: ({ film }) => film,
  readings: ({ readings }) => readings,
  'what the picture says': ({ stored }) => stored,
  'scale from the bones': ({ bone }) => bone,
  'what the foot wears': ({ worn }) => worn,
  'why it is bare': ({ bareBy }) => bareBy,
} as const satisfies Grounds<StudiedFilm>;

/** What a cut brings; the film that it is predicted on counts as well. */
const trimsAsGround = (trims: StudiedCut['earlier']): unknown[] => trims.flatMap(({ visit, cut }) => [visit.is, cut]);

export const cutGrounds = {
  prediction: ({ prediction }) => prediction,
  'trims before': ({ earlier, unmeasured }) => trimsAsGround([...earlier, ...unmeasured]),
  'trims of the same visit': ({ sameVisit }) => trimsAsGround(sameVisit),
} as const satisfies Grounds<StudiedCut>;

/** Whether every ground is the same; lists are where they hold the same things. */
export function hasSameGrounds<From>(grounds: Grounds<From>, one: From, other: From): boolean {
  return one === other || Object.values(grounds).every((ground) => isSame(ground(one), ground(other)));
}

function isSame(one: unknown, other: unknown): boolean {
  if (!Array.isArray(one) || !Array.isArray(other)) return one === other;
  return one.length === other.length && one.every((item, index) => item === other[index]);
}
