import { commandLine } from './command-line.ts';
import { StandardOutput } from './standard-output.ts';

const output = new StandardOutput();
const status = await commandLine(process.argv.slice(2), {
  out: (text) => output.out(text),
  err: (line) => output.err(line),
  terminal: process.stdout.isTTY === true,
});
process.exitCode = output.failed ? 2 : status;
