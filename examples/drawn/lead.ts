import { at, type Point } from './plane.ts';

/** Strokes of the lead letters that say which foot a film shows, in a box one high, y down. */
const strokes: Record<string, readonly (readonly Point[])[]> = {
  L: [[at(0, 0), at(0, 1), at(0.52, 1)]],
  F: [
    [at(0.55, 0), at(0, 0), at(0, 1)],
    [at(0, 0.47), at(0.44, 0.47)],
  ],
  R: [
    [at(0, 1), at(0, 0), at(0.33, 0), at(0.5, 0.09), at(0.55, 0.26), at(0.49, 0.42), at(0.33, 0.5), at(0, 0.5)],
    [at(0.3, 0.5), at(0.57, 1)],
  ],
};

/** The lines of a word of lead letters, px. */
export function letters(word: string, corner: Point, height: number): Point[][] {
  return [...word].flatMap((letter, n) =>
    (strokes[letter] ?? []).map((line) =>
      line.map((p) => at(corner.x + (p.x + n * 0.85) * height, corner.y + p.y * height)),
    ),
  );
}
