import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { VIM_FILETYPE_FILE } from '../../scripts/vim-syntax.ts';
import {
  differences,
  editedTexts,
  examples,
  isKnown,
  linesOf,
  productColours,
  type Coloured,
} from '../colours/product-colours.ts';
import { Checks, expectEqual, expectThat, type Outcome } from './checks.ts';
import { install, mayInstall, onPath } from './debian.ts';
import { describe } from './failure.ts';
import { scratchFolder } from './under-test.ts';

// On a machine that has nothing else to do each takes half a minute.
const LIMIT_SECONDS = 600;
const EDITED = 1000;

/** The server's word for each syntax group; null for plain ink. */
const ofGroup: Readonly<Record<string, string | null>> = {
  '': null,
  hoofBlock: 'keyword',
  hoofUnit: 'keyword',
  hoofWord: 'property',
  hoofLandmark: 'type',
  hoofMeasure: 'variable',
  hoofFinding: 'enumMember',
  hoofFoot: 'enumMember',
  hoofChoice: 'enumMember',
  hoofMark: 'operator',
  hoofOperator: 'operator',
  hoofNumber: 'number',
  hoofText: 'string',
  hoofEscape: 'string',
  hoofCode: 'string',
  hoofComment: 'comment',
  hoofProse: null,
};

/** Debian's Vim and Neovim with the syntax that is made for them, each line held against what the server colours in it. */
export async function runVim(): Promise<Outcome> {
  const checks = new Checks();
  const folder = scratchFolder('vim');
  // The rules know nothing of other lines, so each line is tried once, whichever text it is from.
  const [ofExamples, ofEdited] = [distinct(examples.values()), distinct(editedTexts(EDITED, 20261129))];
  for (const line of ofExamples.keys()) ofEdited.delete(line);
  const lines = [...ofExamples, ...ofEdited];
  const file = join(folder, 'lines.hoof');
  // A first line, as a mark of byte order would count for none there.
  writeFileSync(file, `hoof 1\n${lines.map(([line]) => `${line}\n`).join('')}`);
  for (const [title, names, packages] of editors) {
    const { path, why } = await found(names, packages);
    if (path === null) {
      checks.skip(`colours in ${title}`, why);
      continue;
    }
    await checks.check(
      `${title} colours ${ofExamples.size} lines of the examples and ${ofEdited.size} edited ones as the server does`,
      LIMIT_SECONDS + 10,
      async () => {
        expectThat(ofExamples.size > 300 && ofEdited.size > EDITED / 2, 'too few lines to compare');
        const [head, ...groups] = inEditor(path, file, join(folder, title));
        expectEqual(head, { filetype: 'hoof', syntax: 'hoof' }, 'what the file is taken for');
        expectEqual(groups.length, lines.length + 1, 'the number of lines');
        const wrong = lines.flatMap(([line, tokens], place) => {
          const types = typesOf(line, groups[place + 1] as Run[]);
          return differences(line, tokens, (column) => types[column] ?? null, isKnown).map(
            (one) => `${JSON.stringify(line)} ${one}`,
          );
        });
        expectEqual(wrong.slice(0, 20), [], `lines that are coloured otherwise (${wrong.length})`);
      },
    );
  }
  return checks.outcome;
}

const editors: readonly (readonly [title: string, names: readonly string[], packages: readonly string[]])[] = [
  ['Vim', ['vim.basic', 'vim'], ['vim']],
  ['Neovim', ['nvim'], ['neovim']],
];

type Run = readonly [byte: number, group: string];

/** Each line of the texts that the server colours, once. */
function distinct(texts: Iterable<string>): Map<string, readonly Coloured[]> {
  const lines = new Map<string, readonly Coloured[]>();
  for (const text of texts) {
    // As a file holds it.
    const written = text.toWellFormed();
    const all = linesOf(written);
    for (const [number, tokens] of productColours(written)) lines.set(all[number] ?? '', tokens);
  }
  return lines;
}

/** The colour of each UTF-16 unit of a line. */
function typesOf(line: string, runs: readonly Run[]): (string | null)[] {
  const bytes: (string | null)[] = Array.from({ length: Buffer.byteLength(line) }, () => null);
  for (const [start, group] of runs) {
    if (!Object.hasOwn(ofGroup, group)) throw new Error(`no word for the group ${group}`);
    bytes.fill(ofGroup[group] ?? null, start);
  }
  const types: (string | null)[] = [];
  let at = 0;
  for (const character of line) {
    for (let unit = 0; unit < character.length; unit++) types.push(bytes[at] ?? null);
    at += Buffer.byteLength(character);
  }
  return types;
}

function inEditor(program: string, file: string, folder: string): unknown[] {
  mkdirSync(folder);
  const answer = join(folder, 'answer');
  const quiet = program.endsWith('nvim') ? ['--headless'] : ['-es', '-N'];
  const { stdout, stderr } = spawnSync(
    program,
    [...quiet, '-u', 'NONE', '-i', 'NONE', '-S', join(import.meta.dirname, 'vim-probe.vim')],
    {
      cwd: folder,
      encoding: 'utf8',
      timeout: LIMIT_SECONDS * 1000,
      env: {
        ...process.env,
        HOME: folder,
        LC_ALL: 'C.UTF-8',
        ...Object.fromEntries(['CONFIG', 'DATA', 'STATE', 'CACHE'].map((kind) => [`XDG_${kind}_HOME`, folder])),
        UNGULA_VIM: dirname(dirname(VIM_FILETYPE_FILE)),
        UNGULA_LINES: file,
        UNGULA_ANSWER: answer,
      },
    },
  );
  if (!existsSync(answer)) throw new Error(`no answer was written; it said: ${stdout}${stderr}`);
  return readFileSync(answer, 'utf8')
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line) as unknown);
}

async function found(
  names: readonly string[],
  packages: readonly string[],
): Promise<{ path: string | null; why: string }> {
  const there = onPath(names);
  if (there !== null) return { path: there, why: '' };
  if (!mayInstall()) return { path: null, why: 'it is not here, and can be installed only as root on Debian' };
  try {
    await install(packages);
    return { path: onPath(names), why: 'Debian’s package brought none' };
  } catch (error) {
    return { path: null, why: `it cannot be installed: ${describe(error).split('\n')[0]}` };
  }
}
