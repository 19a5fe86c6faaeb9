import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { ClientCapabilities } from 'vscode-languageserver';
import { LanguageClient } from '../protocol/language-client.ts';
import { serverBundle } from '../protocol/server-bundle.ts';
import { positionAt } from '../protocol/text-positions.ts';
import { factsInYaml, factsSchema } from './facts.ts';
import { summed, type Result } from './result.ts';

/** No server is waited for longer than this for all its keystrokes; how many there were is told. */
const longest = 40_000;

/** Seconds in which an answer has to come at all. */
const patience = 180;

const capabilities: ClientCapabilities = {
  textDocument: { publishDiagnostics: { relatedInformation: true, versionSupport: true } },
  workspace: { configuration: true },
};

interface Served {
  readonly command: readonly string[];
  readonly language: string;
  readonly file: string;
  readonly text: string;
  /** Behind what somebody types, in the middle of the file: the same number in both languages. */
  readonly place: number;
  /** A change that makes the file wrong, to see that it is really checked. */
  readonly wrong: readonly [right: string, wrong: string];
  readonly settings: Record<string, unknown>;
}

/**
 * A language server over stdio with one file open: the time from a keystroke (a digit that comes or goes in the place of a
 * landmark in the middle of the file) to the diagnostics that follow it, as its client sees it, and the memory of its process.
 */
export async function served(which: 'ungula' | 'yaml', text: string, keystrokes: number): Promise<Result> {
  const folder = mkdtempSync(join(tmpdir(), 'ungula-bench-'));
  try {
    return await measured(which, which === 'yaml' ? yaml(text, folder) : await ungula(text), folder, keystrokes);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

async function ungula(text: string): Promise<Served> {
  return {
    command: [await serverBundle(), '--stdio'],
    language: 'hoof',
    file: 'case.hoof',
    text,
    place: middle(text, /^ +p3\.tip +@ +\d+/gm),
    wrong: ['pulse      LF', 'pulse      lf'],
    settings: {},
  };
}

/** The same facts in YAML, held against a JSON schema that is made from the schema of the record; nothing is fetched. */
function yaml(text: string, folder: string): Served {
  const facts = factsInYaml(text);
  const schema = join(folder, 'case.schema.json');
  writeFileSync(schema, JSON.stringify(factsSchema()));
  return {
    command: [
      join(
        dirname(createRequire(import.meta.url).resolve('yaml-language-server/package.json')),
        'bin',
        'yaml-language-server',
      ),
      '--stdio',
    ],
    language: 'yaml',
    file: 'case.yaml',
    text: facts,
    place: middle(facts, /name: p3\.tip, x: \d+/gm),
    wrong: ['foot: LF', 'foot: lf'],
    settings: {
      yaml: {
        schemas: { [pathToFileURL(schema).href]: ['case.yaml'] },
        schemaStore: { enable: false },
        kubernetesCRDStore: { enable: false },
        maxItemsComputed: 5000,
      },
    },
  };
}

function middle(text: string, pattern: RegExp): number {
  const all = [...text.matchAll(pattern)];
  const found = all[all.length >> 1];
  if (!found) throw new Error(`the file has no ${pattern.source}`);
  return found.index + found[0].length;
}

async function measured(which: string, one: Served, folder: string, keystrokes: number): Promise<Result> {
  const client = await LanguageClient.start({ command: one.command, capabilities, configuration: one.settings });
  client.notify('workspace/didChangeConfiguration', { settings: one.settings });
  const uri = pathToFileURL(join(folder, one.file)).href;
  let version = 0;
  /** From what is sent until the diagnostics that follow it. */
  const told = async (send: () => void): Promise<{ ms: number; all: string; count: number }> => {
    const before = client.timesTold(uri);
    const began = performance.now();
    send();
    const all = await client.toldAgain(uri, before, patience);
    return { ms: performance.now() - began, all: JSON.stringify(all), count: all.length };
  };
  const opening = await told(() =>
    client.notify('textDocument/didOpen', {
      textDocument: { uri, languageId: one.language, version: ++version, text: one.text },
    }),
  );
  // What else the server still does of itself after opening is not part of a keystroke.
  await new Promise((resolve) => setTimeout(resolve, 500));
  const opened = memoryOf(client.pid);

  const [right, wrong] = one.wrong;
  const at = positionAt(one.text, one.text.indexOf(right));
  const range = (length: number) => ({ start: at, end: { line: at.line, character: at.character + length } });
  const faulty = await told(() => client.change(uri, ++version, [{ range: range(right.length), text: wrong }]));
  const mended = await told(() => client.change(uri, ++version, [{ range: range(wrong.length), text: right }]));
  // Not by their number: a server may send only the first so many.
  if (faulty.all === opening.all || mended.all !== opening.all)
    throw new Error(`${which} does not check: a wrong foot makes no difference, or stays when it is mended`);

  const start = positionAt(one.text, one.place);
  const end = { line: start.line, character: start.character + 1 };
  const times: number[] = [];
  const until = Date.now() + longest;
  while (times.length < keystrokes && (times.length < 4 || Date.now() < until)) {
    const there = times.length % 2 === 1;
    const change = { range: { start, end: there ? end : start }, text: there ? '' : '5' };
    times.push((await told(() => client.change(uri, ++version, [change]))).ms);
  }
  const edited = memoryOf(client.pid);
  const status = await client.stop();
  if (status !== 0 && status !== null) throw new Error(`${which} ended with ${status}`);
  return {
    ...summed(`server-${which}`, one.text.length, times),
    memory: { opened, edited },
    note: `${opening.count} diagnostics after ${opening.ms.toFixed(0)} ms`,
  };
}

/** Resident memory of a process in bytes, as Linux tells it; null elsewhere. */
function memoryOf(pid: number | undefined): number | null {
  try {
    const [, kilobytes] = /^VmRSS:\s+(\d+) kB/m.exec(readFileSync(`/proc/${pid}/status`, 'utf8')) ?? [];
    return kilobytes === undefined ? null : Number(kilobytes) * 1024;
  } catch {
    return null;
  }
}
