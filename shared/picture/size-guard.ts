import { t } from '../language/words.ts';
import { Unreadable } from './unreadable.ts';

/** Above the largest film digitised at 50 micrometres (35 x 43 cm, 60 million pixels): more than that is a broken header. */
export const mostPixels = 2 ** 26;

/** No radiograph compresses further than this, so a header that claims more was not written for these bytes. */
const mostPixelsPerByte = 2000;
const alwaysAllowed = 2 ** 20;

/**
 * Refuses a declared size (pixels) before anything is allocated for it.
 * @param stored bytes in the file that the picture would come from.
 * @throws Unreadable
 */
export function refuseImpossibleSize(width: number, height: number, stored: number): void {
  if (!(width > 0 && height > 0))
    throw new Unreadable(t('The file says that its picture is 0 pixels wide or high, so there is nothing to show.'));
  const pixels = width * height;
  if (pixels > mostPixels)
    throw new Unreadable(
      t(
        'The file says that its picture is {0} by {1} pixels, which is larger than any radiograph; the file is probably damaged.',
        width,
        height,
      ),
    );
  if (pixels > alwaysAllowed + stored * mostPixelsPerByte) {
    throw new Unreadable(
      t(
        'The file says that its picture is {0} by {1} pixels, but only {2} bytes of picture are there; it is cut short or damaged.',
        width,
        height,
        stored,
      ),
    );
  }
}
