import type { PlateInput } from '../../shared/drawing/plate/plate.ts';
import type { FilmSheet } from '../../shared/views/film-sheet.ts';
import type { Picture, SheetsMessage } from '../messages/messages.ts';
import { toldName } from '../../shared/picture/told-name.ts';
import { t } from '../../shared/language/words.ts';
import type { PictureSizes } from './picture-sizes.ts';

export interface PictureFound {
  readonly picture: PlateInput['picture'];
  /** Why it does not show; null where it does, or where nobody has been asked. */
  readonly says: string | null;
  /** It is on its way for a moment only: the plate should not jump twice. */
  readonly wait: boolean;
}

export function pictureOf(sheet: FilmSheet, { pictures }: SheetsMessage, sizes: PictureSizes): PictureFound {
  const known = pictureNamed(pictures, sheet.picture);
  if (!known) return { picture: null, says: null, wait: false };
  if (known.kind === 'absent') return { picture: null, says: known.says, wait: false };
  const size = sizes.of(known.href);
  if (size.state === 'known')
    return {
      picture: { href: known.href, width: size.width, height: size.height },
      says: known.says ?? null,
      wait: false,
    };
  if (size.state === 'loading') return { picture: null, says: null, wait: !size.late };
  return {
    picture: null,
    says: t('{0} is there but cannot be read as a picture. Save it again as png or jpg.', toldName(sheet.picture)),
    wait: false,
  };
}

/** By the path that the film writes, whatever that is: `constructor` is a path too. */
export function pictureNamed(pictures: SheetsMessage['pictures'], path: string): Picture | undefined {
  return Object.hasOwn(pictures, path) ? pictures[path] : undefined;
}
