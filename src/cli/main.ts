import { parentPort, workerData } from 'node:worker_threads';
import { useWords } from '../../shared/language/words.ts';
import { pageThread } from '../../shared/protocol/page-thread.ts';
import { makePages } from './page-thread.ts';
import { Unusable } from './command.ts';
import { commandLine } from './command-line.ts';
import { spokenLanguage } from './language.ts';
import { reason } from './problem.ts';
import { StandardOutput } from './standard-output.ts';

const output = new StandardOutput();

async function run(): Promise<0 | 1 | 2> {
  let argv: readonly string[];
  try {
    const spoken = await spokenLanguage(process.argv.slice(2), process.env);
    useWords(spoken.words, spoken.language);
    argv = spoken.argv;
  } catch (error) {
    output.err(error instanceof Unusable ? error.message : reason(error));
    return 2;
  }
  return commandLine(argv, {
    out: (text) => output.out(text),
    err: (line) => output.err(line),
    terminal: process.stdout.isTTY === true,
    ...(process.stderr.isTTY && { progress: (words) => output.progress(words) }),
  });
}

if (workerData === pageThread && parentPort) makePages(parentPort);
else {
  const status = await run();
  process.exitCode = output.failed ? 2 : status;
}
