import { drawPlate, type PlateInput } from '../../../shared/drawing/plate/plate.ts';
import type { LayerName } from '../../../shared/drawing/scene.ts';
import { alone, themes } from '../../../shared/drawing/alone.ts';
import { unlettered } from '../../../shared/views/plate-of.ts';
import { useActions } from '../actions.ts';
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
  const { save } = useActions();
  const { scale } = input;
  const outline = async (): Promise<void> => {
    if (scale === null) return;
    const { outlineOf } = await import('../../../shared/drawing/outline.ts');
    const scene = outlineOf(drawPlate({ ...unlettered(input), picture: null, cut: null, over: null, key: [] }), scale);
    const { svg } = alone(scene, { width: scene.view.width * scale, sizeIn: 'mm', palette: themes.print });
    save({ kind: 'svg', name: `${name.slice(0, 60)}-outline`, content: svg });
  };
  const more = scale === null ? [] : [[t('Save outline to draw on, true size (SVG)'), () => void outline()] as const];
  return (
    <>
      <TakeRow name={name} draw={draw} more={more} said={null} />
      <p class="aside">{t('Closer: Ctrl and the wheel, then drag; the whole: double click.')}</p>
    </>
  );
}
