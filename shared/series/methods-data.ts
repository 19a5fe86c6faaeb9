import { bibtex } from '../export/bibtex.ts';
import type { MethodsJson } from '../export/json-shapes.ts';
import { program } from '../export/structured/uids.ts';
import { citation } from '../reference/sources.ts';
import type { LimitUse, MethodsFacts } from './methods.ts';
import type { MethodsParagraph } from './methods-words.ts';

/** What `methods --format json` prints. */
export function methodsDocument(facts: MethodsFacts, { sentences, citing }: MethodsParagraph): MethodsJson {
  const { spreads, spread } = facts;
  const { byTwo, repeated, copies, followed } = facts.agreement();
  return {
    ungula: 1,
    program: { ...program },
    source: facts.source,
    cases: facts.cases,
    animals: Object.fromEntries(facts.animals),
    feet: facts.feet,
    visits: facts.visits,
    films: facts.films,
    shod: facts.shod,
    readings: facts.readings,
    readers: { all: facts.readers, unnamed: facts.unnamed },
    scales: { from: Object.fromEntries(facts.scales), none: facts.unscaled, magnified: facts.magnified },
    landmarks: [...facts.landmarks].map(([landmark, use]) => ({ landmark, ...use })),
    followed: { ...facts.followed },
    spread: {
      usualMm: spread.mm,
      usualPx: spread.px,
      placings: { ...spreads },
      ofReaders: [...facts.ofReaders].sort(([a], [b]) => a - b).map(([px, { size }]) => ({ px, readers: size })),
    },
    measures: facts.uses.map(({ measure, ...use }) => ({ measure: measure.name, unit: measure.unit, ...use })),
    limits: facts.limits.map((limit) => ({
      measure: limit.measure,
      side: limit.side,
      feet: limit.feet,
      animals: limit.animals,
      at: limit.at,
      source: sourceOf(limit),
      values: limit.values,
    })),
    ownLimits: facts.ownLimits,
    agreement: { byTwo, repeated, copies, followed },
    paragraph: sentences.join(' '),
    references: citing.cited.map((cited) => ({ key: cited.work.key, bibtex: bibtex([cited]) })),
  };
}

const sourceOf = ({ published, named }: LimitUse): string =>
  published ? citation(published.source, published.strength) : (named ?? '');
