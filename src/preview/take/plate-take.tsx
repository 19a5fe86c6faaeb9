import type { PlateInput } from '../../../shared/drawing/plate/plate.ts';
import type { LayerName } from '../../../shared/drawing/scene.ts';
import { t } from '../../../shared/language/words.ts';
import { plateDrawing } from './plate-drawing.ts';
import { TakeRow, type DrawingTaken } from './take-row.tsx';

interface PlateTakeProps {
  readonly input: PlateInput;
  readonly hidden: readonly LayerName[];
  readonly name: string;
}

/** The plate taken along as it is shown, and how to look closer; how it went is said below the plate. */
export function PlateTake({ input, hidden, name }: PlateTakeProps) {
  const draw = async (): Promise<DrawingTaken> => {
    const { drawing, isWithoutFilm } = await plateDrawing(input, hidden);
    return { drawing, says: isWithoutFilm ? t('The film itself is not in it: only the drawing is.') : null };
  };
  return (
    <>
      <TakeRow name={name} draw={draw} said={null} />
      <p class="aside">{t('Closer: Ctrl and the wheel, then drag; the whole: double click.')}</p>
    </>
  );
}
