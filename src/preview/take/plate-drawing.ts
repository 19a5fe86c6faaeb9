import { drawPlate, type PlateInput } from '../../../shared/drawing/plate/plate.ts';
import { alone, usualWidth, without, type Drawing } from '../../../shared/drawing/alone.ts';
import type { LayerName } from '../../../shared/drawing/scene.ts';
import { embedded } from './embedded.ts';

export interface PlateTaken {
  readonly drawing: Drawing;
  /** The film could not be put into it: the browser does not let the page look at it. */
  readonly isWithoutFilm: boolean;
}

/**
 * The plate as it is shown, as a drawing that stands alone: ink on paper whatever the editor's theme, the film within it, the
 * hidden layers left out.
 */
export async function plateDrawing(input: PlateInput, hidden: readonly LayerName[]): Promise<PlateTaken> {
  const film = input.picture && (await embedded(input.picture.href));
  const picture = input.picture && film !== null ? { ...input.picture, href: film } : null;
  const scene = without(drawPlate({ ...input, picture, highlight: null, labelsAt: 'beside', lettering: 1 }), hidden);
  return {
    drawing: alone(scene, { width: usualWidth.plate }),
    isWithoutFilm: input.picture !== null && film === null,
  };
}
