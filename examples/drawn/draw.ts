/**
 * Draws the films of the example cases and writes down where every landmark truly is.
 *
 *   node examples/drawn/draw.ts            writes examples/films/*.png and examples/drawn/truth.json
 *   node examples/drawn/draw.ts --check    redraws in memory and says whether the files are the same
 *   node examples/drawn/draw.ts --blocks   prints each film's block in the notation
 */
import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { films } from './films.ts';
import { filmBlock } from './notation.ts';
import { photoBlock, photos, plainPictures } from './plain-pictures.ts';
import { picture } from './picture.ts';
import { encode, greys } from './png.ts';
import type { Picture } from './render.ts';
import { truth } from './truth.ts';

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));
const filmPath = (name: string): string => here(`../films/${name}.png`);
const truthPath = here('./truth.json');

const truthText = (): string => `${JSON.stringify({ films: films.map(truth) }, null, 2)}\n`;

/** Beside and then renamed, so that no reader ever sees half a picture. */
function put(path: string, bytes: Buffer | string): void {
  writeFileSync(`${path}.part`, bytes);
  renameSync(`${path}.part`, path);
}

function write(): void {
  mkdirSync(here('../films'), { recursive: true });
  for (const film of films) {
    const bytes = encode(picture(film));
    put(filmPath(film.name), bytes);
    console.log(`${film.name}.png  ${film.view.width} x ${film.view.height}  ${Math.round(bytes.length / 1000)} kB`);
  }
  for (const { name, draw } of plainPictures) put(filmPath(name), encode(draw()));
  put(truthPath, truthText());
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
  for (const film of films) say(`${film.name}.png`, compared(read(filmPath(film.name)), picture(film)));
  for (const { name, draw } of plainPictures) say(`${name}.png`, compared(read(filmPath(name)), draw()));
  const found = read(truthPath);
  say('truth.json', !found ? 'missing' : found.toString('utf8') === truthText() ? 'same' : 'different');
  return good;
}

const [flag] = process.argv.slice(2);
if (flag === '--check') process.exitCode = check() ? 0 : 1;
else if (flag === '--blocks')
  console.log([...films.map((film) => filmBlock(truth(film))), ...photos.map(photoBlock)].join('\n'));
else if (flag === undefined) write();
else {
  console.error(`unknown option ${flag}; known: --check, --blocks`);
  process.exitCode = 2;
}
