import { describe, expect, it } from 'vitest';
import { randomView, toNotation } from '../property/random-views.ts';
import { frontByLibrary, solarByLibrary } from './other-views-by-library.ts';
import { readFilm } from './readings.ts';

const views = {
  front: { landmarks: 8, measures: 8, byLibrary: frontByLibrary },
  solar: { landmarks: 11, measures: 9, byLibrary: solarByLibrary },
} as const;

/** Pictures that lie any way on the plate; names of a pair exchanged in some, as a reader in a hurry writes them. */
describe.each(['front', 'solar'] as const)('%s measures against flatten-js', (view) => {
  const { landmarks, measures, byLibrary } = views[view];
  const pictures = Array.from({ length: 400 }, (_, index) => randomView(view, 70_000 + index)).filter(
    ({ film }) => film.scale && film.landmarks.length >= landmarks,
  );

  it('every one of them, on every picture', () => {
    for (const picture of pictures) {
      const product = readFilm(toNotation(picture));
      const library = byLibrary(picture.film);
      expect([...product.names].sort()).toEqual([...library.keys()].sort());
      for (const [measure, reference] of library)
        expect(Math.abs(product.value(measure) - reference), `${measure} of ${picture.seed}`).toBeLessThan(1e-7);
      expect(library.size).toBe(measures);
    }
    expect(pictures.length).toBeGreaterThan(100);
  });
});
