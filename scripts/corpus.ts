// `npm run corpus`: writes down what the new files of tests/corpus are read as, their digests, and what is promised beside them.
// What is written already stays: tests/unit/read-for-ever.test.ts fails where it would have to change.
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { readAs, readingText } from '../tests/corpus/reading.ts';
import { promisesNow } from '../tests/corpus/promises.ts';
import { wordsUsed, wordsWanted } from '../tests/corpus/words-used.ts';

const corpus = join(import.meta.dirname, '..', 'tests', 'corpus');
const digests = join(corpus, 'digests.txt');
const promised = join(corpus, 'promised.json');

const folders = readdirSync(corpus, { withFileTypes: true }).flatMap((one) => (one.isDirectory() ? [one.name] : []));
for (const folder of folders)
  for (const name of readdirSync(join(corpus, folder)).filter((one) => one.endsWith('.hoof'))) {
    const path = join(corpus, folder, name);
    const reading = path.replace(/\.hoof$/, '.json');
    if (!existsSync(reading)) writeFileSync(reading, readingText(readAs(readFileSync(path, 'utf8'))));
  }

const listed = existsSync(digests) ? readFileSync(digests, 'utf8') : '';
const missing = folders
  .flatMap((folder) => readdirSync(join(corpus, folder)).map((name) => `${folder}/${name}`))
  .filter((name) => !listed.split('\n').some((line) => line.endsWith(`  ${name}`)))
  .map(
    (name) =>
      `${createHash('sha256')
        .update(readFileSync(join(corpus, name)))
        .digest('hex')}  ${name}\n`,
  );
writeFileSync(digests, listed + missing.join(''));

const before: Partial<Record<string, string[]>> = existsSync(promised)
  ? JSON.parse(readFileSync(promised, 'utf8'))
  : {};
const both = Object.fromEntries(
  Object.entries(promisesNow()).map(([name, now]) => [name, [...new Set([...(before[name] ?? []), ...now])].sort()]),
);
writeFileSync(promised, `${JSON.stringify(both, null, 1)}\n`);
console.log(`${missing.length} files are new in the corpus`);

const texts = folders.flatMap((folder) =>
  readdirSync(join(corpus, folder)).flatMap((name) =>
    name.endsWith('.hoof') ? [readFileSync(join(corpus, folder, name), 'utf8')] : [],
  ),
);
const used = wordsUsed(texts);
for (const one of wordsWanted()) if (!used.has(one)) console.log(`no file has it yet: ${one}`);
