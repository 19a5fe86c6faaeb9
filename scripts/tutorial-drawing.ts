// Draws the course of the tutorial's case, as its last step has it, with `ungula draw`. With --check it only compares.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { commandLine } from '../src/cli/command-line.ts';
import { fencedBlocks } from '../tests/unit/told-commands.ts';

const docs = join(import.meta.dirname, '..', 'docs');
const path = join(docs, 'pictures', 'tutorial-course.svg');
const folder = mkdtempSync(join(tmpdir(), 'ungula-tutorial-'));
try {
  const blocks = fencedBlocks(readFileSync(join(docs, 'tutorial.md'), 'utf8'));
  const file = join(folder, 'alder.hoof');
  writeFileSync(file, blocks.flatMap((one) => (one.file === 'alder.hoof' ? [one.text] : [])).join(''));
  const drawn = join(folder, 'course.svg');
  const said: string[] = [];
  const io = { out: () => undefined, err: (line: string) => said.push(line) };
  const status = await commandLine(['draw', file, '--view', 'course', '--foot', 'LF', '-o', drawn], io);
  if (status !== 0) throw new Error(said.join('\n'));
  const svg = readFileSync(drawn, 'utf8');
  if (now() !== svg) {
    if (process.argv.includes('--check')) {
      console.log('docs/pictures/tutorial-course.svg differs from what is drawn: run npm run docs');
      process.exitCode = 1;
    } else {
      writeFileSync(path, svg);
      console.log('docs/pictures/tutorial-course.svg written');
    }
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}

function now(): string {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return '';
  }
}
