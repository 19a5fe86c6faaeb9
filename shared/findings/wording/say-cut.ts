import type { CutFigures, Margin, SolePlace } from '../../trim/cut-limits.ts';
import type { CutSize } from '../../trim/stand.ts';
import { say, sayLimit } from './wording.ts';

const soles: Readonly<Record<SolePlace, string>> = {
  tip: 'under the tip',
  wing: 'under the wing',
  heel: 'beside the heel',
};

/** What stops a cut, in the foot and not as a code: of one code and place always the same words. */
const stops: Readonly<Record<string, (margin: Pick<Margin, 'place'>, of: CutFigures) => string>> = {
  'trim/below-sole-plane': () => 'the live sole plane at the heel',
  'trim/live-sole': ({ place }) => `the live sole ${soles[place ?? 'tip']}`,
  'trim/palmar-angle': (_, { palmarAngle }) =>
    `the palmar angle${palmarAngle === null ? '' : ` of ${sayLimit(palmarAngle, 'deg')}`}`,
  'trim/sole-depth': ({ place }) => `the depth of the sole ${soles[place ?? 'tip']}`,
  'trim/turn-per-visit': (_, { turn }) => `the ${sayLimit(turn, 'deg')} that one visit may turn the bone by`,
  'trim/wall-left': (_, { horn }) => `the ${sayLimit(horn, 'mm')} of horn that stay at the toe`,
  'trim/toe-shortened': () => 'the toe, which keeps its height',
};

/** `the live sole under the tip`; each once. */
export function sayStops(margins: readonly Pick<Margin, 'code' | 'place'>[], figures: CutFigures): string[] {
  return [...new Set(margins.map((margin) => stops[margin.code]?.(margin, figures) ?? 'a limit'))];
}

const beyond: Readonly<Record<string, (margin: Margin) => string>> = {
  'trim/below-sole-plane': ({ value }) => `${say(-value, 'mm')} below the live sole plane at the heel`,
  'trim/live-sole': ({ place, value }) => `${say(-value, 'mm')} into live sole ${soles[place ?? 'tip']}`,
  'trim/palmar-angle': ({ value }) => `the palmar angle ${say(-value, 'deg')} under its limit`,
  'trim/sole-depth': ({ place }) => `too little sole left ${soles[place ?? 'tip']}`,
  'trim/turn-per-visit': ({ value }) => `the bone turned ${say(-value, 'deg')} more than one visit may`,
  'trim/wall-left': ({ value }) => `${say(-value, 'mm')} too little horn left at the toe`,
  'trim/toe-shortened': () => 'the toe lowered where it should keep its height',
};

/** `1.2 mm into live sole under the tip`: each limit that a cut breaks, and by how much. */
export function sayBroken(margins: readonly Margin[]): string[] {
  const broken = margins.filter((margin) => margin.broken);
  const isHeelTold = broken.some(({ code }) => code === 'trim/below-sole-plane');
  return broken
    .filter(({ code, place }) => !(isHeelTold && code === 'trim/live-sole' && place === 'heel'))
    .map((margin) => beyond[margin.code]?.(margin) ?? 'a limit broken');
}

/** `the bone comes to stand 1.9° steeper`, `… flatter`; empty where it does not turn. */
export function sayTurn(delta: number): string {
  const amount = say(Math.abs(delta), 'deg');
  return /[1-9]/.test(amount) ? `the bone comes to stand ${amount} ${delta > 0 ? 'flatter' : 'steeper'}` : '';
}

/** `heel down 4 mm, toe back 3 mm`. */
export function saySize({ heelDown, toeDown, toeBack }: CutSize): string {
  const parts = [
    heelDown > 0 && `heel down ${sayLimit(heelDown, 'mm')}`,
    toeDown > 0 && `toe down ${sayLimit(toeDown, 'mm')}`,
    toeBack > 0 && `toe back ${sayLimit(toeBack, 'mm')}`,
  ];
  return parts.filter((part) => typeof part === 'string').join(', ') || 'nothing';
}
