import { spoken } from '../../language/rows.ts';
import { t } from '../../language/words.ts';
import { findMeasure } from '../../measures/registry.ts';
import type { AgreedLimit, CutFigures, Margin, SolePlace } from '../../trim/cut-limits.ts';
import type { HeelSide } from '../../trim/heels.ts';
import type { Prediction } from '../../trim/predict.ts';
import type { CutSize } from '../../trim/stand.ts';
import { say, sayLimit, toBearing } from './wording.ts';

/** The foot that the limits were held against. */
interface JudgedFoot {
  readonly isUnshod?: boolean | undefined;
}

const soles: Readonly<Record<SolePlace, string>> = spoken({
  tip: 'under the tip',
  wing: 'under the wing',
  heel: 'beside the heel',
});

export const heelWords: Readonly<Record<HeelSide, string>> = spoken({
  inside: 'the inner heel',
  outside: 'the outer heel',
});

/** What stops a cut, in the foot and not as a code: of one code and place always the same words. */
const stops: Readonly<
  Record<string, (margin: Pick<Margin, 'place' | 'agreed'>, of: CutFigures, foot: JudgedFoot) => string>
> = {
  'trim/below-sole-plane': () => t('the live sole plane at the heel'),
  'trim/live-sole': ({ place }) => t('the live sole {0}', soles[place ?? 'tip']),
  'trim/palmar-angle': (_, { palmarAngle }, foot) =>
    toBearing(
      palmarAngle === null ? t('the palmar angle') : t('the palmar angle of {0}', sayLimit(palmarAngle, 'deg')),
      foot,
    ),
  'trim/sole-depth': ({ place }) => t('the depth of the sole {0}', soles[place ?? 'tip']),
  'trim/turn-per-visit': (_, { turn }) => t('the {0} that one visit may turn the bone by', sayLimit(turn, 'deg')),
  'trim/wall-left': (_, { horn }) => t('the {0} of horn that stay at the toe', sayLimit(horn, 'mm')),
  'trim/toe-shortened': () => t('the toe, which keeps its height'),
  'trim/agreed': ({ agreed }) => sayAgreed(agreed),
};

/** `the limit of this case: heel height 20 mm` */
function sayAgreed(agreed: AgreedLimit | null): string {
  const measure = agreed && findMeasure(agreed.measure);
  return measure
    ? t('the limit of this case: {0} {1}', measure.words, sayLimit(agreed.at, measure.unit))
    : t('a limit of this case');
}

/** `the live sole under the tip`; each once. */
export function sayStops(
  margins: readonly Pick<Margin, 'code' | 'place' | 'agreed'>[],
  figures: CutFigures,
  foot: JudgedFoot,
): string[] {
  return [...new Set(margins.map((margin) => stops[margin.code]?.(margin, figures, foot) ?? t('a limit')))];
}

const beyond: Readonly<Record<string, (margin: Margin, foot: JudgedFoot) => string>> = {
  'trim/below-sole-plane': ({ value }) => t('{0} below the live sole plane at the heel', say(-value, 'mm')),
  'trim/live-sole': ({ place, value }) => t('{0} into live sole {1}', say(-value, 'mm'), soles[place ?? 'tip']),
  'trim/palmar-angle': ({ value }, foot) =>
    t('{0} {1} under its limit', toBearing(t('the palmar angle'), foot), say(-value, 'deg')),
  'trim/sole-depth': ({ place }) => t('too little sole left {0}', soles[place ?? 'tip']),
  'trim/turn-per-visit': ({ value }) => t('the bone turned {0} more than one visit may', say(-value, 'deg')),
  'trim/wall-left': ({ value }) => t('{0} too little horn left at the toe', sayShort(value)),
  'trim/toe-shortened': () => t('the toe lowered where it should keep its height'),
  'trim/agreed': ({ agreed, value }) => {
    const measure = agreed && findMeasure(agreed.measure);
    return measure ? t('{0} beyond {1}', say(-value, measure.unit), sayAgreed(agreed)) : t('a limit broken');
  },
};

/** By how many mm something falls short; never none. */
const sayShort = (value: number): string => (-value < 0.05 ? t('less than {0}', say(0.1, 'mm')) : say(-value, 'mm'));

/** Of an animal for which nobody knows the lowest palmar angle: that none is held; else empty. */
export const sayNoLowest = ({ palmarAngle }: Pick<CutFigures, 'palmarAngle'>): string =>
  palmarAngle === null ? t('No lowest palmar angle is known for this animal, so none is held against it.') : '';

/** `1.2 mm into live sole under the tip`: each limit that a cut breaks, and by how much. */
export function sayBroken(margins: readonly Margin[], foot: JudgedFoot): string[] {
  const broken = margins.filter((margin) => margin.broken);
  const isHeelTold = broken.some(({ code }) => code === 'trim/below-sole-plane');
  return broken
    .filter(({ code, place }) => !(isHeelTold && code === 'trim/live-sole' && place === 'heel'))
    .map((margin) => beyond[margin.code]?.(margin, foot) ?? t('a limit broken'));
}

/** `the bone comes to stand 1.9° steeper`, `… flatter`; empty where it does not turn. */
export function sayTurn(delta: number): string {
  const amount = say(Math.abs(delta), 'deg');
  return /[1-9]/.test(amount)
    ? t('the bone comes to stand {0} {1}', amount, delta > 0 ? t('flatter') : t('steeper'))
    : '';
}

/** Of a cut on two planes both stances: `on its heels the bone comes to stand 7.6° flatter, on its toe as before`. */
export function sayTurns({ delta, onToe }: Pick<Prediction, 'delta' | 'onToe'>): string {
  if (!onToe) return sayTurn(delta);
  const asBefore = t('as before');
  const onHeels = sayTurn(delta) || t('the bone stands {0}', asBefore);
  const standing = sayTurn(onToe.delta);
  return standing === ''
    ? t('on its heels {0}, on its toe {1}', onHeels, asBefore)
    : t('on its heels {0}, on its toe {1}', onHeels, standing);
}

/** `heel down 4 mm, toe back 3 mm`. */
export function saySize({ heelDown, heelFrom, toeDown, toeBack, insideDown = 0, outsideDown = 0 }: CutSize): string {
  const parts = [
    heelDown > 0 &&
      (heelFrom === undefined
        ? t('heel down {0}', sayLimit(heelDown, 'mm'))
        : t('heel down {0} from {1}', sayLimit(heelDown, 'mm'), sayLimit(heelFrom, 'mm'))),
    toeDown > 0 && t('toe down {0}', sayLimit(toeDown, 'mm')),
    toeBack > 0 && t('toe back {0}', sayLimit(toeBack, 'mm')),
    insideDown > 0 && t('inside down {0}', sayLimit(insideDown, 'mm')),
    outsideDown > 0 && t('outside down {0}', sayLimit(outsideDown, 'mm')),
  ];
  return parts.filter((part) => typeof part === 'string').join(', ') || 'nothing';
}
