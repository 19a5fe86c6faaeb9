import { commandLine } from './command-line.ts';

try {
  process.exitCode = await commandLine(process.argv.slice(2), {
    out: (text) => process.stdout.write(text),
    err: (line) => process.stderr.write(`ungula: ${line}\n`),
  });
} catch (error) {
  // 1 means a finding: a mistake of the program must not look like one.
  process.stderr.write(
    `ungula: a mistake of the program itself, not of your file; please report it.\n${error instanceof Error ? error.stack : String(error)}\n`,
  );
  process.exitCode = 70;
}
