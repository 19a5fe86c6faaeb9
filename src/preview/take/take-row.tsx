import type { Drawing } from '../../../shared/drawing/alone.ts';
import { t } from '../../../shared/language/words.ts';
import { LARGEST_SAVED, type Way } from '../../messages/course-messages.ts';
import { useActions } from '../actions.ts';
import { base64Of, pngOf } from './picture.ts';

/** A drawing that is ready to go along. */
export interface DrawingTaken {
  readonly drawing: Drawing;
  /** What is missing from it, in a sentence; null where it is whole. */
  readonly says: string | null;
}

interface TakeProps {
  /** Of the file, without its ending. */
  readonly name: string;
  draw(): Promise<DrawingTaken>;
  readonly more?: readonly (readonly [words: string, act: () => void, way?: Way])[];
  /** How the last one went. */
  readonly said: string | null;
}

/** A drawing taken along: copied as a picture, saved as a picture or a drawing, or printed. */
export function TakeRow({ name, draw, more = [], said }: TakeProps) {
  const actions = useActions();
  const buttons = (['copy', 'png', 'svg', 'print'] as const).map(
    (way) => [words[way], () => void take(way, name, draw, actions), way] as const,
  );
  return (
    <p class="save-row">
      {[...buttons, ...more].map(([label, act, way]) => (
        <button key={label} type="button" class="go" data-take={way} onClick={act}>
          {label}
        </button>
      ))}
      <span role="status">{said}</span>
    </p>
  );
}

const words: Readonly<Record<Way, string>> = {
  copy: t('Copy as picture'),
  png: t('Save picture (PNG)'),
  svg: t('Save drawing (SVG)'),
  print: t('Print'),
};

/** Takes a drawing along, and says how that went; what is saved is written where a person says. */
export async function take(
  way: Way,
  name: string,
  draw: () => Promise<DrawingTaken>,
  { save, say }: Pick<ReturnType<typeof useActions>, 'save' | 'say'>,
): Promise<void> {
  try {
    if (way === 'copy') return await copy(draw, say);
    const { drawing, says } = await draw();
    const content = way === 'png' ? await base64Of(await pngOf(drawing)) : drawing.svg;
    if (content.length > LARGEST_SAVED) return say(t('The picture is too large to be saved from here.'));
    if (says !== null) say(says);
    save({ kind: way, name, content });
  } catch {
    say(t('The picture could not be made. Save the drawing (SVG) instead.'));
  }
}

async function copy(draw: () => Promise<DrawingTaken>, say: (words: string) => void): Promise<void> {
  try {
    // The clipboard is asked at once: a browser lets a page only while a press is fresh.
    const taken = draw();
    await navigator.clipboard.write([new ClipboardItem({ 'image/png': taken.then(({ drawing }) => pngOf(drawing)) })]);
    const { says } = await taken;
    say([t('The picture is copied.'), ...(says === null ? [] : [says])].join(' '));
  } catch {
    say(t('This editor does not let a page copy pictures. Save the picture instead.'));
  }
}
