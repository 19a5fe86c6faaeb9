import { spawn } from 'node:child_process';
import { closeSync, openSync, readFileSync } from 'node:fs';
import { Failure } from './failure.ts';
import { disownGroup, ownGroup, signalGroup } from './leftovers.ts';

export interface Command {
  title: string;
  argv: readonly [string, ...string[]];
  cwd?: string;
  env?: NodeJS.ProcessEnv;
  log: string;
  limitSeconds: number;
  remedy: string;
}

/** Runs one command of the set-up: its output into a log, a dot now and then, its time at the end. */
export async function runCommand(command: Command): Promise<void> {
  const began = Date.now();
  process.stdout.write(`  ${command.title} `);
  const dots = setInterval(() => process.stdout.write('.'), 2000);
  try {
    await finished(command);
    console.log(` ${seconds(began)} s`);
  } catch (error) {
    console.log(` failed after ${seconds(began)} s`);
    throw error;
  } finally {
    clearInterval(dots);
  }
}

async function finished(command: Command): Promise<void> {
  const [program, ...args] = command.argv;
  const output = openSync(command.log, 'w');
  // Detached: its own process group, so that a time-out also ends what npm or apt-get started.
  const child = spawn(program, args, {
    cwd: command.cwd,
    env: command.env,
    detached: true,
    stdio: ['ignore', output, output],
  });
  closeSync(output);
  const group = child.pid;
  if (group !== undefined) ownGroup(group);
  let late = false;
  const limit = setTimeout(() => {
    late = true;
    if (group !== undefined) signalGroup(group, 'SIGKILL');
  }, command.limitSeconds * 1000);
  try {
    const ending = await new Promise<string>((resolve) => {
      child.once('error', (error) => resolve(error.message));
      child.once('exit', (code, signal) => resolve(code === 0 ? '' : `it ended with ${signal ?? `status ${code}`}`));
    });
    if (ending === '') return;
    const why = late ? `it was stopped after ${command.limitSeconds} s` : ending;
    throw new Failure(
      `${command.title}: ${why}${lastLines(command.log)}`,
      `${command.remedy} (whole output: ${command.log})`,
    );
  } finally {
    clearTimeout(limit);
    if (group !== undefined) disownGroup(group);
  }
}

function lastLines(log: string): string {
  const text = readFileSync(log, 'utf8').trimEnd();
  if (text === '') return '';
  return `\n${text
    .split('\n')
    .slice(-20)
    .map((line) => `    | ${line}`)
    .join('\n')}`;
}

function seconds(since: number): string {
  return ((Date.now() - since) / 1000).toFixed(1);
}
