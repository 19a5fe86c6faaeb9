import { footWords, sentence } from '../findings/wording/wording.ts';
import type { ListedPicture, Quantity, Setup } from '../record/schema.ts';

/** How a picture was taken, a sentence each: `Block 60 mm, focus 90 cm, beam centre at 640, 1180.` */
export function setupWords(setup: Setup | null): readonly string[] {
  if (!setup) return [];
  const { paste, block, focus, beam, standing } = setup;
  const taken = [
    block && `block ${said(block)}`,
    focus && `focus ${said(focus)}`,
    beam && `beam centre at ${beam.x}, ${beam.y}`,
    standing && `standing ${standing}`,
  ].filter((words) => typeof words === 'string' && words !== '');
  return [
    ...(taken.length > 0 ? [`${sentence(taken.join(', '))}.`] : []),
    ...(paste === null ? [] : [paste === '' ? 'Paste on the sole.' : `Paste on the sole: ${paste}.`]),
  ];
}

/** `Venogram, left fore, 2026-03-03: films/x.png`. */
export function plainPictureWords({ kind, foot, view, path, taken, setup }: ListedPicture): string {
  const name = view === 'heel' ? `heel ${kind}` : view;
  const how = setupWords(setup).join(' ');
  return `${sentence(name)}, ${footWords[foot]}${taken === null ? '' : `, ${taken}`}: ${path.text}${how === '' ? '' : ` (${how})`}`;
}

const said = ({ value, unit }: Quantity): string => `${value} ${unit}`;
