import { t } from '../../../shared/language/words.ts';
import type { PictureFound } from '../picture-of.ts';

interface ButtonProps {
  readonly found: PictureFound;
  onPlace(): void;
}

/** On the plate's caption; without a picture there is nothing to place on. */
export function PlaceButton({ found: { picture }, onPlace }: ButtonProps) {
  if (!picture) return null;
  return (
    <button type="button" class="place-button" onClick={onPlace}>
      {t('Place landmarks')}
    </button>
  );
}
