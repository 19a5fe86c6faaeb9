import { spreadInPixels, type FootInput } from '../geometry/foot-input.ts';
import { footFrame, type FilmFrame } from '../geometry/frame.ts';
import { once } from '../notation/once.ts';
import type { StudiedFilm, StudiedReading, Study } from '../trim/study.ts';
import {
  capsuleLevel,
  levelByPlacing,
  rulers,
  type CapsuleLevel,
  type Convention,
  type Ruler,
} from './capsule-level.ts';
import { errorOfFilms, scaleSd } from './error-of-films.ts';
import { errorOnFilm } from './followed.ts';
import { meanOfDay, type LevelOnFilm } from './mean-of-day.ts';
import { readersOf, type Reader } from './readers.ts';
import type { FilmLevel } from './rise.ts';

/** What the level of the bone in the capsule is measured with on each day of a series. */
export interface LevelSeries {
  readonly ruler: Ruler;
  readonly conventions: readonly Convention[];
  readonly levels: readonly FilmLevel[];
}

/** Fewer conventions stand in only where a film lacks one. */
const choices: readonly (readonly Convention[])[] = [['wall', 'hairline'], ['hairline'], ['wall']];

/** What one placing may claim here, mm: no case may mute its alarm with `+- 400`, nor sharpen it with `+- 0`. */
const bounds = { least: 0.1, most: 2 };

/** By the films that were asked about, for as long as somebody has that list, and the reader's name: several rules ask for the same. */
const seriesOfStudy = once<Study, WeakMap<readonly StudiedFilm[], Map<string | null, readonly LevelSeries[]>>>(
  () => new WeakMap(),
);

/**
 * The series in which a foot's sinking is looked for, by day. The best ruler and both conventions, where every day has
 * them; else also the next best that the newest day shares with an earlier one, so that a landmark that is left out
 * silences nothing.
 */
export function levelSeries(
  films: readonly StudiedFilm[],
  study: Study,
  reader: Reader = readersOf(films)[0],
): readonly LevelSeries[] {
  const ofStudy = seriesOfStudy(study);
  let ofFilms = ofStudy.get(films);
  if (!ofFilms) ofStudy.set(films, (ofFilms = new Map()));
  let series = ofFilms.get(reader.name);
  if (!series) ofFilms.set(reader.name, (series = lookFor(films, study, reader)));
  return series;
}

function lookFor(films: readonly StudiedFilm[], study: Study, reader: Reader): LevelSeries[] {
  const days = byDay(films, reader);
  const series: LevelSeries[] = [];
  for (const ruler of rulers) {
    let whole = false;
    for (const conventions of choices) {
      const levels = days.flatMap((day) => levelOf(day, ruler, conventions, study, reader) ?? []);
      if (levels.length < 2) continue;
      series.push({ ruler, conventions, levels });
      whole = levels.at(-1)?.day === days.at(-1)?.[0]?.day;
      if (levels.length === days.length || whole) break;
    }
    if (whole) break;
  }
  return series;
}

type Dated = StudiedFilm & { readonly day: number };

/** Films on which the extensor process is placed, those of one day together. */
function byDay(films: readonly StudiedFilm[], reader: Reader): Dated[][] {
  const days: Dated[][] = [];
  for (const film of films) {
    const studied = reader.reads(film);
    // Asked of the text: to look into the frame would lay out every film at every keystroke.
    const isPlaced = studied?.reading.placings.some(({ name }) => name === 'p3.extensor') === true;
    if (film.day === null || !isPlaced || !studied?.taking.frame) continue;
    const same = days.at(-1);
    if (same?.[0]?.day === film.day) same.push(film as Dated);
    else days.push([film as Dated]);
  }
  return days;
}

/** The mean of a day's films, with the error of each from film to film. */
function levelOf(
  films: readonly Dated[],
  ruler: Ruler,
  conventions: readonly Convention[],
  study: Study,
  reader: Reader,
): FilmLevel | null {
  const observed = errorOfFilms(study).ofFilms('coronet-extensor.level');
  const betweenFilms = study.change.filmLength ** 2;
  const found = films.flatMap((film): LevelOnFilm[] => {
    const studied = reader.reads(film);
    const level = studied && levelOn(studied, ruler, conventions, study);
    if (!level) return [];
    const { value, variance, byPlacing } = level;
    // What was observed knows nothing of the error of a scale from the bones, and of what placings share.
    if (observed !== null) return [{ value, variance: observed ** 2 + (scaleSd(film) * value) ** 2, error: null }];
    const error = errorOnFilm(film, studied, study.series, byPlacing, boundedMm);
    return [{ value, variance: variance + betweenFilms, error }];
  });
  const [first] = films;
  return first && found.length > 0 ? meanOfDay(first.day, found) : null;
}

/** What two placings share, where neither may claim more or less; nothing stays nothing. */
const boundedMm = (mm: number): number => (mm > 0 ? Math.min(bounds.most, Math.max(bounds.least, mm)) : 0);

interface LevelOfReading extends CapsuleLevel {
  readonly byPlacing: () => ReturnType<typeof levelByPlacing>;
}

/** Levels of a reading by ruler and conventions; what they rest on beside the reading is the setting of the placings. */
const levelsOfReading = new WeakMap<
  StudiedReading,
  { spread: Study['spread']; levels: Map<string, LevelOfReading | null> }
>();

function levelOn(
  studied: StudiedReading,
  ruler: Ruler,
  conventions: readonly Convention[],
  study: Study,
): LevelOfReading | null {
  let kept = levelsOfReading.get(studied);
  if (kept?.spread !== study.spread) levelsOfReading.set(studied, (kept = { spread: study.spread, levels: new Map() }));
  const key = `${ruler} ${conventions.join(' ')}`;
  let level = kept.levels.get(key);
  if (level === undefined) {
    const frame = boundedFrame(studied);
    const found = frame && capsuleLevel(frame, ruler, conventions);
    let byPlacing: ReturnType<typeof levelByPlacing> | undefined;
    level = found && {
      ...found,
      // Of most films nobody asks.
      byPlacing: () => (byPlacing ??= levelByPlacing(frame, ruler, conventions)),
    };
    kept.levels.set(key, level);
  }
  return level;
}

/** The film's own frame, or one in which no placing claims less or more than it may. */
function boundedFrame({ input, taking: { scale, frame } }: StudiedReading): FilmFrame | null {
  if (scale === null) return frame;
  const [least, most] = [bounds.least / scale, bounds.most / scale];
  const within = (px: number): number => Math.min(most, Math.max(least, px));
  const fits = (px: number | null): boolean => px === null || px === within(px);
  const usualPx = spreadInPixels(input, scale);
  if (fits(usualPx) && input.landmarks.every(({ spread }) => fits(spread))) return frame;
  const bounded: FootInput = {
    ...input,
    spread: { mm: null, px: within(usualPx) },
    landmarks: input.landmarks.map((one) => ({ ...one, spread: one.spread === null ? null : within(one.spread) })),
  };
  return footFrame(() => bounded).frame;
}
