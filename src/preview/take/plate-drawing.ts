import { drawPlate, type PlateInput } from '../../../shared/drawing/plate/plate.ts';
import type { LayerName, Scene } from '../../../shared/drawing/scene.ts';
import { sceneToSvg } from '../../../shared/drawing/svg.ts';
import { embedded } from './embedded.ts';
import type { Drawing } from './picture.ts';

/** As wide as a page of a letter takes it, CSS pixels. */
const WIDTH = 1200;

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
  const height = (WIDTH * scene.view.height) / scene.view.width;
  return {
    drawing: { svg: sceneToSvg(scene, { standalone: true, width: WIDTH, height }), width: WIDTH, height },
    isWithoutFilm: input.picture !== null && film === null,
  };
}

/** The scene without some of its layers. */
export function without(scene: Scene, hidden: readonly LayerName[]): Scene {
  return { ...scene, layers: scene.layers.filter(({ data }) => !data?.layer || !hidden.includes(data.layer)) };
}
