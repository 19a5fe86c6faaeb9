import { shownDate } from '../language/dates.ts';
import { sayQuantity } from '../language/figures.ts';
import { t } from '../language/words.ts';
import { sayChoice } from '../language/choice-words.ts';
import { footWords, sentence } from '../findings/wording/wording.ts';
import type { ListedPicture, Setup } from '../record/schema.ts';

/** How a picture was taken, a sentence each: `Block 60 mm, focus 90 cm, beam centre at 640, 1180.` */
export function setupWords(setup: Setup | null): readonly string[] {
  if (!setup) return [];
  const { paste, block, focus, beam, standing } = setup;
  const taken = [
    block && t('block {0}', sayQuantity(block)),
    focus && t('focus {0}', sayQuantity(focus)),
    beam && t('beam centre at {0}, {1}', beam.x, beam.y),
    standing && t('standing {0}', standing),
  ].filter((words) => typeof words === 'string' && words !== '');
  return [
    ...(taken.length > 0 ? [`${sentence(taken.join(', '))}.`] : []),
    ...(paste === null ? [] : [paste === '' ? t('Paste on the sole.') : t('Paste on the sole: {0}.', paste)]),
  ];
}

/** `Venogram, left fore, 2026-03-03: films/x.png`. */
export function plainPictureWords({ kind, foot, view, path, taken, setup }: ListedPicture): string {
  const name = view === 'heel' ? t('heel {0}', sayChoice(kind)) : sayChoice(view);
  const how = setupWords(setup).join(' ');
  return `${sentence(name)}, ${footWords[foot]}${taken === null ? '' : `, ${shownDate(taken)}`}: ${path.text}${how === '' ? '' : ` (${how})`}`;
}
