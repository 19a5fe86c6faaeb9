import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Checks, expectEqual, expectThat, type Outcome } from './checks.ts';
import { install, mayInstall, onPath } from './debian.ts';
import type { Finding } from './expected.ts';
import { describe } from './failure.ts';
import { disownGroup, ownGroup, signalGroup } from './leftovers.ts';
import { ROOT, copyOfExamples, scratchFolder, type UnderTest } from './under-test.ts';

const LIMIT_SECONDS = 120;
const NAME = 'the language server in Neovim';

type Placed = Finding & { column: number };
type Shown = Omit<Placed, 'file'>;

interface Answer {
  version: string;
  clients: number;
  opened: Shown[];
  hover: { contents: { value: string } } | null;
  completion: { items: { label: string }[] } | null;
  edited: Shown[];
  ended: boolean;
}

/** `ungula serve --stdio` with a client that is not ours, set up with the lines that the guide gives for it. */
export async function runNeovim({ cli, examples }: UnderTest): Promise<Outcome> {
  const checks = new Checks();
  const { neovim, why } = await findNeovim();
  if (neovim === null) {
    checks.skip(NAME, why);
    return checks.outcome;
  }
  console.log(`Neovim at ${neovim}`);
  const folder = scratchFolder('neovim');
  const path = join(copyOfExamples(examples, folder), 'mistakes.hoof');
  const text = readFileSync(path, 'utf8');
  const opened = check(cli, path);
  // Mends one finding, and puts characters before what follows that the editor and the protocol count differently.
  const edit = { ...spot(text, 'cob '), text: '"🐴 é" wide ' };
  const lines = text.split('\n');
  const line = lines[edit.line] ?? '';
  lines[edit.line] = line.slice(0, edit.from) + edit.text + line.slice(edit.to);
  // In a copy of its own: beside the other, the two would be told that they show the same pictures.
  const after = join(copyOfExamples(examples, scratchFolder('neovim-after')), 'mistakes.hoof');
  writeFileSync(after, lines.join('\n'));
  const edited = check(cli, after);

  let answer: Answer | undefined;
  await checks.check('Neovim runs the server as the guide says', LIMIT_SECONDS + 10, async () => {
    const landmark = spot(text, 'p3.wing');
    const word = spot(text, 'weight 512 mm');
    answer = await inNeovim(neovim, cli, folder, {
      case: path,
      guide: guide(folder),
      opened: opened.length,
      hover: { line: landmark.line, character: landmark.from + 1 },
      completion: { line: word.line, character: word.from },
      edit,
      edited: edited.length,
    });
    expectEqual(answer.clients, 1, 'clients in the editor');
  });
  if (!answer) return checks.outcome;
  const shown = answer;
  console.log(`  Neovim ${shown.version}`);
  await checks.check('Neovim shows what check prints', 5, async () => same(shown.opened, opened));
  await checks.check('hover answers Neovim', 5, async () => {
    expectThat(shown.hover?.contents.value.includes('p3.wing') === true, `hover says ${JSON.stringify(shown.hover)}`);
  });
  await checks.check('completion answers Neovim', 5, async () => {
    const labels = shown.completion?.items.map(({ label }) => label) ?? [];
    expectThat(labels.includes('weight'), `completion offers ${labels.join(', ')}`);
  });
  await checks.check('after an edit Neovim shows what check prints of the new text', 5, async () => {
    expectThat(JSON.stringify(opened) !== JSON.stringify(edited), 'the edit changed nothing');
    same(shown.edited, edited);
  });
  await checks.check('the server ends when Neovim asks it to', 5, async () =>
    expectEqual(shown.ended, true, 'the server has ended'),
  );
  return checks.outcome;
}

async function findNeovim(): Promise<{ neovim: string | null; why: string }> {
  const found = onPath(['nvim']);
  if (found !== null) return { neovim: found, why: '' };
  if (!mayInstall()) return { neovim: null, why: 'no Neovim here, and it can be installed only as root on Debian' };
  try {
    await install(['neovim']);
    return { neovim: onPath(['nvim']), why: 'Debian’s package brought no nvim' };
  } catch (error) {
    return { neovim: null, why: `Neovim cannot be installed: ${describe(error).split('\n')[0]}` };
  }
}

/** The Lua of the guide, newest first, as files: what people copy is what is tried. */
function guide(folder: string): { current: string; older: string } {
  const blocks = [...readFileSync(join(ROOT, 'docs', 'editors.md'), 'utf8').matchAll(/^```lua\n(.*?)^```$/gms)];
  const [current, older] = blocks.map(([, lua = ''], index) => {
    const file = join(folder, `guide-${index}.lua`);
    writeFileSync(file, lua);
    return file;
  });
  if (current === undefined || older === undefined) throw new Error('docs/editors.md has not two pieces of Lua');
  return { current, older };
}

async function inNeovim(neovim: string, cli: string, folder: string, task: object): Promise<Answer> {
  const answer = join(folder, 'answer.json');
  const programs = join(folder, 'bin');
  mkdirSync(programs);
  const quoted = [process.execPath, cli].map((word) => `'${word.replaceAll("'", "'\\''")}'`).join(' ');
  writeFileSync(join(programs, 'ungula'), `#!/bin/sh\nexec ${quoted} "$@"\n`, { mode: 0o755 });
  const home = join(folder, 'home');
  mkdirSync(home);
  const probe = join(import.meta.dirname, 'neovim-probe.lua');
  const child = spawn(neovim, ['--headless', '-n', '-u', 'NONE', '-i', 'NONE', '-S', probe, '-c', 'qall!'], {
    cwd: folder,
    env: {
      ...process.env,
      PATH: `${programs}:${process.env['PATH'] ?? ''}`,
      HOME: home,
      // Else it would look into the folders of the one who runs this, and leave its log there.
      ...Object.fromEntries(['CONFIG', 'DATA', 'STATE', 'CACHE'].map((kind) => [`XDG_${kind}_HOME`, home])),
      UNGULA_TASK: JSON.stringify({ ...task, answer }),
    },
    detached: true,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const group = child.pid;
  if (group !== undefined) ownGroup(group);
  let said = '';
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (data: Buffer) => (said += data.toString()));
  const limit = setTimeout(() => {
    said += `\nstopped after ${LIMIT_SECONDS} s`;
    if (group !== undefined) signalGroup(group, 'SIGKILL');
  }, LIMIT_SECONDS * 1000);
  try {
    await new Promise((resolve, reject) => {
      child.once('error', reject);
      child.once('close', resolve);
    });
  } finally {
    clearTimeout(limit);
    if (group !== undefined) disownGroup(group);
  }
  if (!existsSync(answer)) throw new Error(`Neovim wrote no answer; it said: ${said}`);
  return JSON.parse(readFileSync(answer, 'utf8')) as Answer;
}

function check(cli: string, file: string): Shown[] {
  const { stdout } = spawnSync(process.execPath, [cli, 'check', '--format', 'json', file], {
    encoding: 'utf8',
    timeout: 60_000,
  });
  return (JSON.parse(stdout) as { findings: Placed[] }).findings.map(shownOf);
}

function shownOf({ line, column, severity, code, message }: Shown): Shown {
  return { line, column, severity, code, message };
}

function same(actual: readonly Shown[], wanted: readonly Shown[]): void {
  expectThat(wanted.length > 10, `only ${wanted.length} findings to compare`);
  expectEqual(without(actual, wanted), [], 'findings that only Neovim has');
  expectEqual(without(wanted, actual), [], 'findings that Neovim lacks');
  expectEqual(actual.length, wanted.length, 'the number of findings');
}

function without(all: readonly Shown[], known: readonly Shown[]): string[] {
  const keys = new Set(known.map((one) => JSON.stringify(shownOf(one))));
  return all.map((one) => JSON.stringify(shownOf(one))).filter((key) => !keys.has(key));
}

/** Where something stands in a line before which there is nothing but ASCII, so that bytes and characters are one. */
function spot(text: string, words: string): { line: number; from: number; to: number } {
  const lines = text.split('\n');
  const line = lines.findIndex((one) => one.includes(words));
  const from = lines[line]?.indexOf(words) ?? -1;
  if (from < 0) throw new Error(`mistakes.hoof has no «${words}» any more`);
  return { line, from, to: from + words.length };
}
