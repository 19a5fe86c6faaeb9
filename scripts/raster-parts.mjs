// What the command line draws pictures (PNG) with, beside its bundle: a renderer and its letters, the same for all: one family, and another
// for what that lacks, such as Arabic.
// None of it goes into the package of the editor, whose browser draws them.
import { copyFileSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT } from './steps.mjs';

const modules = join(ROOT, 'node_modules');
const folder = join(ROOT, 'raster');

const parts = [
  [join(modules, '@resvg', 'resvg-wasm', 'index_bg.wasm'), 'resvg.wasm'],
  [join(ROOT, 'scripts', 'licences', 'mpl-2.0.txt'), 'resvg-licence.txt'],
  ...['DejaVuSerif', 'DejaVuSerif-Bold', 'DejaVuSerif-Italic', 'DejaVuSans'].map((name) => [
    join(modules, 'dejavu-fonts-ttf', 'ttf', `${name}.ttf`),
    `${name}.ttf`,
  ]),
  [join(modules, 'dejavu-fonts-ttf', 'LICENSE'), 'dejavu-licence.txt'],
];

export function copyRasterParts() {
  mkdirSync(folder, { recursive: true });
  for (const [from, to] of parts) copyFileSync(from, join(folder, to));
}
