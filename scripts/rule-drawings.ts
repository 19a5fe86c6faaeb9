// Writes the drawings of docs/sinking.md and docs/rules.md. With --check it only compares.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { ruleDrawings } from './rule-scenes.ts';

const folder = join(import.meta.dirname, '..', 'docs', 'pictures');
const checking = process.argv.includes('--check');
for (const [name, svg] of Object.entries(ruleDrawings())) {
  const path = join(folder, name);
  let now = '';
  try {
    now = readFileSync(path, 'utf8');
  } catch {
    // A drawing that is not there yet is one that differs.
  }
  if (now === svg) continue;
  if (checking) {
    console.log(`docs/pictures/${name} differs from what is drawn: run npm run docs`);
    process.exitCode = 1;
  } else {
    writeFileSync(path, svg);
    console.log(`docs/pictures/${name} written`);
  }
}
