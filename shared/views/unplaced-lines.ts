import { say } from '../findings/wording/wording.ts';
import { fixed } from '../language/figures.ts';
import { spoken } from '../language/rows.ts';
import { t } from '../language/words.ts';
import type { MarkedBearing, MarkedReading, PlacedLine } from '../lessons/marked-reading.ts';
import { isBearingOff, isTurned } from '../lessons/off-key.ts';

const unplacedWords: Readonly<Record<PlacedLine, string>> = spoken({
  scale: 'not placed: the scale, so that no length can be told',
  ground: 'not placed: the ground line',
  bearing: 'not placed: the plane between hoof and shoe (bearing)',
});

/** Lines of the key that the student has not, and a plane between hoof and shoe that is not where the key has it. */
export function unplacedLines({ unplaced, bearing, points: [point] }: MarkedReading): string[] {
  return [
    ...unplaced.map((line) => `    ${unplacedWords[line]}`),
    ...(bearing && isBearingOff(bearing) ? [bearingLine(bearing, point?.unit ?? 'mm')] : []),
  ];
}

function bearingLine({ turned, up }: MarkedBearing, unit: 'mm' | 'px'): string {
  if (isTurned(turned))
    return t('    the plane between hoof and shoe is turned by {0} against the key’s', say(Math.abs(turned), 'deg'));
  const far = `${fixed(Math.abs(up), 1)} ${unit}`;
  return up > 0
    ? t('    the plane between hoof and shoe lies {0} too high', far)
    : t('    the plane between hoof and shoe lies {0} too low', far);
}
