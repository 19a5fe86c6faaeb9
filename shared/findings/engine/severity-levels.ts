import { t } from '../../language/words.ts';
import { nearest } from '../../notation/nearest.ts';
import { codes } from '../catalogue.ts';
import type { Finding } from '../finding.ts';
import { accepted } from './accepted.ts';
import { list } from '../wording/wording.ts';

/** The user's severity for each code, where it differs from the usual one. */
export const levels = ['error', 'warning', 'info', 'hint', 'off'] as const;
export type SeverityLevel = (typeof levels)[number];

/** By code. A family such as `trim/*` stands as each of its codes. */
export type SeverityLevels = ReadonlyMap<string, SeverityLevel>;

export const noLevels: SeverityLevels = new Map();

export interface ReadLevels {
  readonly levels: SeverityLevels;
  /** A sentence for each entry that cannot be used: an unknown code or level. It changes nothing. */
  readonly unknown: readonly string[];
  /** A sentence for each entry that is followed only in part: what must be told stays at least information. */
  readonly kept: readonly string[];
}

/** Every name that a level can be set for: `trim/*` and the like, then each code. */
export const levelNames: readonly string[] = [
  ...new Set(codes.map(({ code }) => familyOf(code))),
  ...codes.map(({ code }) => code),
];

/** Reads entries of a code or family and a level. A code overrides its family; of two for the same name the later counts. */
export function readLevels(wishes: Iterable<readonly [name: string, level: unknown]>): ReadLevels {
  const all = [...wishes];
  const found = new Map<string, SeverityLevel>();
  const unknown: string[] = [];
  const kept: string[] = [];
  for (const families of [true, false])
    for (const [name, level] of all) {
      if (name.endsWith('*') !== families) continue;
      const meant = codes.filter(({ code }) => code === name || familyOf(code) === name);
      if (meant.length === 0) {
        const near = nearest(name, levelNames);
        unknown.push(t('There is no finding «{0}».{1}', name, near ? t(' Did you mean «{0}»?', near) : ''));
      } else if (!isLevel(level))
        unknown.push(t('«{0}» is told as {1}, not as «{2}».', name, list(levels, 'or'), String(level)));
      else {
        const quiet = level === 'off' || level === 'hint';
        const held = quiet ? meant.filter(({ never }) => never !== undefined).map(({ code }) => code) : [];
        for (const { code } of meant) found.set(code, held.includes(code) ? 'info' : level);
        if (held.length > 0) kept.push(sayKept(name, level, held));
      }
    }
  return { levels: found, unknown, kept };
}

/** The findings at the user's severities, without those that are off. The same array where none is set. */
export function atLevels<F extends Pick<Finding, 'code' | 'severity' | 'accepted'>>(
  findings: readonly F[],
  wanted: SeverityLevels,
): readonly F[] {
  if (wanted.size === 0) return findings;
  return findings.flatMap((finding) => {
    const level = wanted.get(finding.code);
    if (level === undefined) return [finding];
    if (level === 'off') return [];
    return [{ ...finding, severity: finding.accepted === undefined ? level : accepted(level) }];
  });
}

const isLevel = (value: unknown): value is SeverityLevel => levels.some((level) => level === value);

function familyOf(code: string): string {
  return `${code.slice(0, code.indexOf('/'))}/*`;
}

function sayKept(name: string, level: SeverityLevel, held: readonly string[]): string {
  const wish = level === 'off' ? t('cannot be switched off') : t('cannot be told as a hint');
  return held.length === 1 && held[0] === name
    ? t('«{0}» {1}: what it tells must not be missed. It stays at least information.', name, wish)
    : t('Of «{0}» {1} {2}: what they tell must not be missed. They stay at least information.', name, list(held), wish);
}
