import { randomNormal } from 'd3-random';
import { describe, expect, it } from 'vitest';
import { changeOfValue } from '../../shared/course/error-of-films.ts';
import { valuesOfFilm } from '../../shared/course/value-of-film.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { findMeasure } from '../../shared/measures/registry.ts';
import { stoodFlatter } from '../unit/moved-foot.ts';
import { soundFoot, type Places } from '../unit/plain-foot.ts';
import { seeded } from './dice.ts';

/**
 * The outside check of what two films share: a true foot is placed by a hand on its first film, and followed on later ones. Drawn
 * again and again, the differences of the measures have to spread as the program states for one such case. Of a line both ends
 * carry on the mean of what both erred by. Ends of the ground line are placed by hand on each film. Nothing of how the program counts it is used here.
 */
const HAND = 0.5;
const ADDED = 0.15;
const FILM = 0.6;

type Placed = Record<string, readonly [number, number]>;

/** How a film shows the foot: mm a pixel, degrees that the picture is tilted, whether the toe is on the left. */
interface Sight {
  readonly mmPerPx: number;
  readonly tilt: number;
  readonly isMirrored: boolean;
}

const sights: readonly Sight[] = [
  { mmPerPx: 0.1, tilt: 0, isMirrored: false },
  { mmPerPx: 0.14, tilt: 7, isMirrored: true },
  { mmPerPx: 0.08, tilt: -4, isMirrored: false },
];
const sightOf = (film: number): Sight => sights[film % sights.length] as Sight;

function onPicture([x, y]: readonly [number, number], { mmPerPx, tilt, isMirrored }: Sight): string {
  const [sine, cosine] = [Math.sin((tilt * Math.PI) / 180), Math.cos((tilt * Math.PI) / 180)];
  const across = isMirrored ? -x : x;
  const px = 2500 + (across * cosine - y * sine) / mmPerPx;
  const down = 2500 - (across * sine + y * cosine) / mmPerPx;
  return `${px.toFixed(3)}, ${down.toFixed(3)}`;
}

interface FilmDrawn {
  readonly places: Places;
  readonly ground: readonly [readonly [number, number], readonly [number, number]];
  /** Of how many films before it it is known by; null where it was placed by hand and says nothing. */
  readonly followed: number | null;
}

function textOf(films: readonly FilmDrawn[]): string {
  const visits = films.map(({ places, ground, followed }, index) => {
    const sight = sightOf(index);
    const said = (name: string): string =>
      followed === null ? '' : ` +- ${(stated(name, followed) / sight.mmPerPx).toFixed(3)} followed`;
    return [
      `visit 2026-${String(index + 1).padStart(2, '0')}-01`,
      `  film LF lateral "f${index}.png"`,
      `    scale ${sight.mmPerPx} mm/px`,
      `    ground ${onPicture(ground[0], sight)} .. ${onPicture(ground[1], sight)}`,
      ...Object.entries(places).map(
        ([name, place]) => `    ${name} @ ${onPicture(place ?? [0, 0], sight)}${said(name)}`,
      ),
    ].join('\n');
  });
  return `hoof 1\n\ncase "Drawn"\n  animal horse mare\n\n${visits.join('\n\n')}\n`;
}

/** How a foot stands on each film: made of the sound one, what is moved in it moved there too. */
type Stand = (places: Places) => Places;

/** Draws of one case; `by` says how each later film is placed. */
class Series {
  private readonly normal: () => number;

  constructor(seed: number) {
    this.normal = randomNormal.source(seeded(seed))();
  }

  private off(place: readonly [number, number], sd: number): readonly [number, number] {
    return [place[0] + sd * this.normal(), place[1] + sd * this.normal()];
  }

  /** `between`: by how much the bone lies elsewhere from film to film, mm. */
  drawn(stands: readonly Stand[], by: 'hand' | 'followed', between = 0): string {
    const errors: Record<string, readonly [number, number]> = {};
    const films = stands.map((stand, film): FilmDrawn => {
      const lower = between * this.normal();
      const old = { ...errors };
      for (const name of Object.keys(soundFoot)) {
        const before = film === 0 || by === 'hand' ? undefined : old[name];
        errors[name] = before ? this.off(middle(before, old[partnerOf(name) ?? name]), ADDED) : this.off([0, 0], HAND);
      }
      // The error lies in the foot and turns with it, as what a film proposes was found by the same surroundings.
      const missed: Placed = {};
      for (const [name, [x, y]] of Object.entries(soundFoot)) {
        const [dx, dy] = errors[name] ?? [0, 0];
        missed[name] = [x + dx, y + dy - (isBone(name) ? lower : 0)];
      }
      const ends = [this.off([-140, 0], HAND), this.off([60, 0], HAND)] as const;
      return { places: stand(missed), ground: ends, followed: film === 0 || by === 'hand' ? null : film };
    });
    return textOf(films);
  }
}

const isBone = (name: string): boolean => /^(?:p3|coffin|navicular)\./.test(name);

/** Two points on a straight line of the foot. A film lays the line where the greys along all of it were, so that both ends err alike. */
const lineEnds: readonly (readonly [string, string])[] = [
  ['p3.dorsal.upper', 'p3.dorsal.lower'],
  ['wall.upper', 'wall.lower'],
  ['wall.inner.upper', 'wall.inner.lower'],
];
const partnerOf = (name: string): string | undefined =>
  lineEnds.find((ends) => ends.includes(name))?.find((one) => one !== name);

const middle = (a: readonly [number, number], b = a): readonly [number, number] => [
  (a[0] + b[0]) / 2,
  (a[1] + b[1]) / 2,
];

/** What a followed place is said to be known to, mm: of a line, half of what both old ends together are. */
function stated(name: string, film: number): number {
  const before = film === 0 ? HAND : stated(name, film - 1);
  return film === 0 ? HAND : Math.hypot(partnerOf(name) === undefined ? before : before / Math.SQRT2, ADDED);
}

const asItWas: Stand = (places) => places;
const flatter: Stand = (places) => stoodFlatter(3, places);
const lowered =
  (mm: number): Stand =>
  (places) =>
    Object.fromEntries(
      Object.entries(places).map(([name, place]) => {
        const [x, y] = place ?? [0, 0];
        return [name, isBone(name) ? [x, y - mm] : [x, y]] as const;
      }),
    );

function statedChange(stands: readonly Stand[], name: string, from: number, to: number): number {
  const films = stands.map((stand, film) => ({
    places: stand(soundFoot),
    ground: [
      [-140, 0],
      [60, 0],
    ] as const,
    followed: film === 0 ? null : film,
  }));
  const { study } = inspect(textOf(films));
  const [was, now] = [study.films[from], study.films[to]];
  const measure = findMeasure(name);
  const values = [was, now].map((film) => film && measure && valuesOfFilm(film)?.get(measure.name));
  const [before, after] = values;
  if (!was || !now || !before || !after) throw new Error(`${name} is not measured`);
  return changeOfValue(before, after, study, [was, now]).sd;
}

describe('the change of a measure from a film to one that was followed from it', () => {
  const DRAWS = 1500;
  const names = ['palmar-angle', 'capsular-rotation', 'sole-depth.tip', 'coronet-extensor.level', 'p3-length'] as const;
  const stands = [asItWas, flatter, asItWas];
  const series = new Series(1);
  const all = Array.from({ length: DRAWS }, () => {
    const text = series.drawn(stands, 'followed');
    const { study } = inspect(text);
    return study.films.map((film) => valuesOfFilm(film));
  });

  it.each(names.flatMap((name) => [[name, 0, 1] as const, [name, 0, 2] as const, [name, 1, 2] as const]))(
    'has the deviation that is stated: %s, film %i to %i',
    (name, from, to) => {
      const differences = all.map((films) => {
        const [was, now] = [films[from]?.get(name), films[to]?.get(name)];
        if (!was || !now) throw new Error(`${name} is not measured`);
        return now.value - was.value;
      });
      const mean = differences.reduce((sum, one) => sum + one, 0) / DRAWS;
      const found = Math.sqrt(differences.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (DRAWS - 1));
      const said = statedChange(stands, name, from, to);
      expect(said / found).toBeGreaterThan(0.9);
      // The way of a followed line is told anew, better than a placing of each end would: the larger deviation stays stated.
      const isLoose = name === 'capsular-rotation' && from === 0;
      expect(said / found).toBeLessThan(isLoose ? 1.25 : 1.1);
      if (isLoose) {
        // So that of a hundred changes of nothing no more than the five that are due are clear.
        const clear = differences.filter((one) => Math.abs(one - mean) > 1.96 * said).length;
        expect(clear / DRAWS).toBeLessThanOrEqual(0.05);
        return;
      }
      // And it is another one than that of two films placed by hand: these parts cancel.
      const [was, now] = [from, to].map((film) => all.map((films) => films[film]?.get(name)?.sd ?? 0));
      const apart = Math.hypot(was?.[0] ?? 0, now?.[0] ?? 0);
      expect(said).toBeLessThan(0.9 * apart);
    },
  );
});

/** In how many of a hundred series the bone is told to sink, at all. */
function told(stands: readonly Stand[], by: 'hand' | 'followed', count: number): number {
  const series = new Series(7);
  let found = 0;
  for (let draw = 0; draw < count; draw++)
    if (inspect(series.drawn(stands, by, FILM)).findings.some(({ code }) => code === 'course/sinking')) found++;
  return (100 * found) / count;
}

describe('a bone that sinks, on films that were followed', () => {
  const SERIES = 300;

  it('by 3 mm is told at least as often as by hand', () => {
    const stands = [asItWas, lowered(3)];
    const [hand, followed] = [told(stands, 'hand', SERIES), told(stands, 'followed', SERIES)];
    expect(hand).toBeGreaterThan(40);
    expect(followed).toBeGreaterThanOrEqual(hand);
  }, 120_000);

  it('by nothing is told in no more than 5 of 100', () => {
    expect(told([asItWas, flatter], 'followed', SERIES)).toBeLessThanOrEqual(5);
  }, 120_000);

  // As on films placed by hand, docs/sinking.md: 11 of 100 series of five films at all.
  it('by nothing over five films is told no more often than by hand', () => {
    expect(told([asItWas, flatter, asItWas, flatter, asItWas], 'followed', SERIES)).toBeLessThanOrEqual(11);
  }, 120_000);
});
