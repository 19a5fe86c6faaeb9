// The licences of the packages that a bundle holds, collected from what esbuild says went into it.
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const texts = join(import.meta.dirname, 'licences');

/** What is compiled into a package and has a licence of its own; its text is `licences/NAME.txt` in small letters. */
export const compiledIn = {
  '@cornerstonejs/codec-openjpeg': [
    { name: 'OpenJPEG', licence: 'BSD-2-Clause' },
    { name: 'Emscripten', licence: 'MIT' },
  ],
  '@cornerstonejs/codec-charls': [
    { name: 'CharLS', licence: 'BSD-3-Clause' },
    { name: 'Emscripten', licence: 'MIT' },
  ],
};

/** Packages whose package.json names no licence; it is the one whose text they hold. */
export const licencesInFiles = { 'png-js': 'MIT' };

/** Packages that name a licence and leave out its text: where it is had from, and what to say with it. */
const textsElsewhere = {
  // The same author, repository and licence; only this one's package holds the file.
  '@cornerstonejs/codec-openjpeg': () =>
    readFileSync(join('node_modules', '@cornerstonejs', 'codec-charls', 'LICENSE'), 'utf8'),
  // The same author and licence, in a package that fontkit and pdfkit rest on as well.
  fontkit: () => readFileSync(join('node_modules', 'restructure', 'LICENSE'), 'utf8'),
  dfa: () => readFileSync(join('node_modules', 'restructure', 'LICENSE'), 'utf8'),
  // The same licence as that of the renderer it wraps.
  '@resvg/resvg-wasm': () => readFileSync(join(texts, 'mpl-2.0.txt'), 'utf8'),
  lerc: () => `Copyright 2015-2021 Esri\n\n${readFileSync(join(texts, 'apache-2.0.txt'), 'utf8')}`,
};

/**
 * @param {readonly { inputs: Record<string, unknown> }[]} metafiles
 * @param {string} file
 */
export function writeNotices(metafiles, file) {
  const notices = foldersIn(metafiles).map((folder) => {
    const { name, version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
    const parts = (compiledIn[name] ?? []).map(
      (part) =>
        `${name} holds ${part.name} in compiled form (${part.licence})\n\n${readFileSync(join(texts, `${part.name.toLowerCase()}.txt`), 'utf8').trim()}`,
    );
    return [`${name} ${version} (${license ?? licencesInFiles[name]})\n\n${textOf(folder, name)}`, ...parts].join(
      '\n\n',
    );
  });
  writeFileSync(file, `Ungula holds code of these packages.\n\n${notices.join(`\n\n${'-'.repeat(78)}\n\n`)}\n`);
}

/** The folders of the packages that went into the bundles. */
function foldersIn(metafiles) {
  const folders = new Set();
  for (const { inputs } of metafiles)
    for (const path of Object.keys(inputs)) {
      const found = /^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(path);
      if (found?.[1]) folders.add(found[1]);
    }
  return [...folders].sort();
}

/** The licence of a package, whole: a name alone does not meet what the licences ask. */
function textOf(folder, name) {
  const own = readdirSync(folder).find((entry) => /^(?:licen[cs]e|copying)(?:\.|$|-)/i.test(entry));
  if (own) return readFileSync(join(folder, own), 'utf8').trim();
  const elsewhere = textsElsewhere[name];
  if (!elsewhere) throw new Error(`${name} comes without the text of its licence: name one in scripts/third-party.mjs`);
  return elsewhere().trim();
}
