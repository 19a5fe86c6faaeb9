import { inspect } from '../../shared/findings/inspect.ts';

/** What a case file is read as, in the form that the corpus keeps. */
export interface ReadAs {
  /** The record without the places in the text; null where a line is not understood, as a later version may understand it. */
  readonly record: unknown;
  readonly findings: readonly Told[];
}

export interface Told {
  /** From 1. */
  readonly line: number;
  readonly severity: string;
  readonly code: string;
}

/** What a finding begins with that says a line means nothing; all others are about the animal and the foot. */
const ofTheText = /^(?:file|notation|record|measure|accept)\//;

export const isOfTheText = ({ code }: Told): boolean => ofTheText.test(code);

export function readAs(text: string): ReadAs {
  const { study, findings } = inspect(text);
  const starts = lineStarts(text);
  const told = findings.map(({ at, severity, code }) => ({ line: lineOf(starts, at.start), severity, code }));
  const understood = !told.some((one) => one.severity === 'error' && isOfTheText(one));
  return { record: understood ? withoutPlaces(study.record) : null, findings: told };
}

function lineStarts(text: string): number[] {
  return [0, ...[...text.matchAll(/\n/g)].map(({ index }) => index + 1)];
}

const lineOf = (starts: readonly number[], offset: number): number => starts.findLastIndex((at) => at <= offset) + 1;

const isPlace = (value: unknown): boolean =>
  typeof value === 'object' && value !== null && Object.keys(value).sort().join() === 'end,start';

/** Where something stands in the text follows from the text; what it means does not. */
function withoutPlaces(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withoutPlaces);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).flatMap(([key, one]) =>
      isPlace(one) || key === 'start' ? [] : [[key, withoutPlaces(one)] as const],
    ),
  );
}

/** As JSON that a person can read: what holds no further lists or objects stands on one line. */
export function readingText(reading: ReadAs): string {
  return `${laidOut(reading, '')}\n`;
}

function laidOut(value: unknown, indent: string): string {
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const flat = Object.values(value).every((one) => typeof one !== 'object' || one === null);
  const deeper = `${indent} `;
  const list = Array.isArray(value);
  const parts = list
    ? value.map((one) => laidOut(one, deeper))
    : Object.entries(value).map(([key, one]) => `${JSON.stringify(key)}: ${laidOut(one, deeper)}`);
  const [open, close] = list ? ['[', ']'] : ['{', '}'];
  if (parts.length === 0) return open + close;
  const line = `${open} ${parts.join(', ')} ${close}`;
  return flat || line.length < 100 ? line : `${open}\n${deeper}${parts.join(`,\n${deeper}`)}\n${indent}${close}`;
}
