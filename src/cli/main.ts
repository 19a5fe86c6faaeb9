import { commandLine } from './command-line.ts';

process.exitCode = await commandLine(process.argv.slice(2), {
  out: (text) => process.stdout.write(text),
  err: (line) => process.stderr.write(`ungula: ${line}\n`),
});
