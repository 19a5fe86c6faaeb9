import { t } from '../../shared/language/words.ts';

/**
 * Bytes of pictures in one page. They stand in it as text, a third longer, and all of a page is one string: V8 holds 512 MB, and a
 * browser has to hold it again.
 */
const most = 110_000_000;

/** How much of pictures a page still takes. */
export class PageRoom {
  private left = most;

  /** Whether so many bytes go in, which are then taken. */
  takes(bytes: number): boolean {
    if (bytes > this.left) return false;
    this.left -= bytes;
    return true;
  }

  /** What stands in place of a picture for which there is no room. */
  static lack(path: string): string {
    return t(
      'The picture {0} is left out: a page holds {1} MB of pictures. Report fewer cases in one page, or save a smaller copy of the picture.',
      path,
      most / 1e6,
    );
  }
}
