import { realpath } from 'node:fs/promises';
import { t } from '../../shared/language/words.ts';
import { CommandProblem } from './problem.ts';

export const drawingKinds = ['svg', 'png'] as const;
export type DrawingKind = (typeof drawingKinds)[number];

/** By its ending; null for any other file. */
export function drawingKind(path: string): DrawingKind | null {
  const ending = /\.([^./\\]+)$/.exec(path)?.[1]?.toLowerCase();
  return drawingKinds.find((kind) => kind === ending) ?? null;
}

/**
 * The file behind the output's links is what would be replaced: it has to be a drawing of this kind, and neither the case nor one
 * of its films, which are pictures as well.
 *
 * @param pictures of the case, as paths
 *
 * @throws CommandProblem where it is not.
 */
export async function mayBecomeTheDrawing(
  output: string,
  source: string | null,
  pictures: readonly string[],
): Promise<void> {
  let real: string;
  try {
    real = await realpath(output);
  } catch {
    return; // Not there yet, or cannot be reached, which saving says.
  }
  if (real === source) throw new CommandProblem(t('is the case itself; name another file for the drawing'));
  const films = await Promise.all(pictures.map((path) => realpath(path).catch(() => null)));
  if (films.includes(real)) throw new CommandProblem(t('is a picture of the case; name another file for the drawing'));
  if (drawingKind(real) !== drawingKind(output))
    throw new CommandProblem(t('is a link to {0}, which is no drawing of this kind; it was left as it is', real));
}
