import type { MeasureName } from '../../shared/measures/names.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import type { Finding } from '../../shared/findings/finding.ts';

/** What the product makes of the first film of a case file: its measures by name, and what it says. */
export interface ReadFilm {
  readonly value: (measure: string) => number;
  readonly sd: (measure: string) => number;
  readonly names: readonly string[];
  /** Findings about the range of a measure. */
  readonly ranges: (measure: string) => readonly Finding[];
  readonly findings: readonly Finding[];
}

export function readFilm(text: string): ReadFilm {
  const { study, findings } = inspect(text);
  const values = study.films[0]?.readings[0]?.taking.values;
  if (!values) throw new Error('the film is not measured');
  const taken = (measure: string) => {
    // A name that is none is not measured, and fails.
    const found = values.get(measure as MeasureName);
    if (!found) throw new Error(`${measure} is not measured`);
    return found;
  };
  return {
    value: (measure) => taken(measure).value,
    sd: (measure) => taken(measure).sd,
    names: [...values.keys()],
    ranges: (measure) => findings.filter(({ code }) => code === `range/${measure}`),
    findings,
  };
}

/** The levels of what is said of a measure, such as `['warning']`; nothing is said where it is usual. */
export function levels(film: ReadFilm, measure: string): string[] {
  return film.ranges(measure).map(({ severity }) => severity);
}
