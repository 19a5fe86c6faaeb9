import { t, useWords } from '../../../shared/language/words.ts';
import { pyramidOf, type Pyramid } from '../../../shared/picture/seek/pyramid.ts';
import { answerTo } from './answer.ts';
import { greysOf } from './greys-of.ts';
import type { FromProposer, ToProposer } from './proposing-messages.ts';

/** What runs in the worker that `Proposer` starts: pictures are decoded and searched here, so that the page drops no frame for it. */

/** Twice a large film: of two pictures with all that is made of them a page may hold no more. */
const MOST_PIXELS = 40_000_000;

const pictures = new Map<string, Promise<Pyramid | null>>();

self.addEventListener('message', ({ data }: MessageEvent<ToProposer>) => {
  if (data.type === 'picture') {
    // Decoded while the first places are still being clicked.
    pictures.set(data.href, decoded(data.file));
    return;
  }
  useWords(data.words);
  void proposed(data).then((answer) => {
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker, not a window
    self.postMessage(answer);
  });
});

async function proposed({ id, before, now }: Extract<ToProposer, { type: 'propose' }>): Promise<FromProposer> {
  const [one, other] = await Promise.all([before && pictures.get(before.href), pictures.get(now.href)]);
  if ((before && !one) || !other)
    return { id, proposed: { says: t('A picture could not be searched, so nothing is proposed. Place by eye.') } };
  const earlier = before && one ? { foot: before.foot, picture: one } : null;
  return { id, proposed: answerTo(earlier, { foot: now.foot, picture: other }) };
}

async function decoded(file: Blob): Promise<Pyramid | null> {
  try {
    const bitmap = await createImageBitmap(file);
    const { width, height } = bitmap;
    if (width * height > MOST_PIXELS) return null;
    const pen = new OffscreenCanvas(width, height).getContext('2d', { willReadFrequently: true });
    pen?.drawImage(bitmap, 0, 0);
    bitmap.close();
    const greys = pen && greysOf(pen.getImageData(0, 0, width, height));
    return greys && pyramidOf(greys);
  } catch {
    return null;
  }
}
