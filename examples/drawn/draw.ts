/**
 * Draws the films of the example cases and of the lessons and writes down where every landmark truly is.
 *
 *   node examples/drawn/draw.ts            writes examples/films/*.png and examples/drawn/truth.json, and those of the lessons
 *   node examples/drawn/draw.ts --check    redraws in memory and says whether the files are the same
 *   node examples/drawn/draw.ts --blocks   prints each film's block in the notation
 */
import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { basename, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { films, type Film } from './films.ts';
import { lessonFilms } from './lessons.ts';
import { filmBlock } from './notation.ts';
import { photoBlock, photos, plainPictures } from './plain-pictures.ts';
import { picture } from './picture.ts';
import { encode, greys } from './png.ts';
import type { Picture } from './render.ts';
import { truthOnFilm } from './truth.ts';

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));
const filmPath = (name: string): string => here(`../films/${name}.png`);
/** The student's sheets and the teacher's keys lie in folders of their own, each with its films. */
const lessonFolders = ['../lessons/films', '../lessons/key/films'] as const;

/** Every drawn film, with each place that it is written to. */
const drawnFilms: readonly (readonly [film: Film, paths: readonly string[]])[] = [
  ...films.map((film) => [film, [filmPath(film.name)]] as const),
  ...lessonFilms.map((film) => [film, lessonFolders.map((folder) => here(`${folder}/${film.name}.png`))] as const),
];

const truths: readonly (readonly [path: string, films: readonly Film[]])[] = [
  [here('./truth.json'), films],
  [here('./lessons-truth.json'), lessonFilms],
];

const truthText = (of: readonly Film[]): string => `${JSON.stringify({ films: of.map(truthOnFilm) }, null, 2)}\n`;

/** Beside and then renamed, so that no reader ever sees half a picture. */
function put(path: string, bytes: Buffer | string): void {
  writeFileSync(`${path}.part`, bytes);
  renameSync(`${path}.part`, path);
}

function write(): void {
  for (const folder of ['../films', ...lessonFolders]) mkdirSync(here(folder), { recursive: true });
  for (const [film, paths] of drawnFilms) {
    const bytes = encode(picture(film));
    for (const path of paths) put(path, bytes);
    console.log(`${film.name}.png  ${film.view.width} x ${film.view.height}  ${Math.round(bytes.length / 1000)} kB`);
  }
  for (const { name, draw } of plainPictures) put(filmPath(name), encode(draw()));
  for (const [path, of] of truths) put(path, truthText(of));
}

function read(path: string): Buffer | undefined {
  try {
    return readFileSync(path);
  } catch {
    return undefined;
  }
}

function compared(
  found: Buffer | undefined,
  drawn: Picture,
): 'same' | 'same picture, packed otherwise' | 'missing' | 'different' {
  if (!found) return 'missing';
  if (found.equals(encode(drawn))) return 'same';
  try {
    return Buffer.from(greys(found)).equals(Buffer.from(drawn.grey)) ? 'same picture, packed otherwise' : 'different';
  } catch {
    return 'different';
  }
}

function check(): boolean {
  let good = true;
  const say = (name: string, verdict: string): void => {
    console.log(`${name}  ${verdict}`);
    if (!verdict.startsWith('same')) good = false;
  };
  for (const [film, paths] of drawnFilms) {
    const drawn = picture(film);
    for (const path of paths) say(relative(here('..'), path), compared(read(path), drawn));
  }
  for (const { name, draw } of plainPictures) say(`${name}.png`, compared(read(filmPath(name)), draw()));
  for (const [path, of] of truths) {
    const found = read(path);
    say(basename(path), !found ? 'missing' : found.toString('utf8') === truthText(of) ? 'same' : 'different');
  }
  return good;
}

const [flag] = process.argv.slice(2);
if (flag === '--check') process.exitCode = check() ? 0 : 1;
else if (flag === '--blocks')
  console.log(
    [...[...films, ...lessonFilms].map((film) => filmBlock(truthOnFilm(film))), ...photos.map(photoBlock)].join('\n'),
  );
else if (flag === undefined) write();
else {
  console.error(`unknown option ${flag}; known: --check, --blocks`);
  process.exitCode = 2;
}
