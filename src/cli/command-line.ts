import { parseArgs } from 'node:util';
import { check } from './check.ts';
import { Unusable, type Command, type Io, type OptionValue, type Status } from './command.ts';
import { course } from './course.ts';
import { formatFiles } from './format-files.ts';
import { measure } from './measure.ts';
import { plan } from './plan.ts';
import { report } from './report.ts';
import { serve } from './serve.ts';

const commands: readonly Command[] = [check, measure, plan, course, report, formatFiles, serve];

export async function commandLine(argv: readonly string[], io: Io): Promise<Status> {
  const [word, ...rest] = argv;
  if (word === undefined || word === '--help' || word === '-h' || word === 'help') {
    io.out(help());
    return word === undefined ? 2 : 0;
  }
  const command = commands.find(({ name }) => name === word);
  if (!command) {
    io.err(`there is no command «${word}»; there are: ${commands.map(({ name }) => name).join(', ')}`);
    return 2;
  }
  try {
    const { values, positionals } = readArguments(command, rest);
    if (values['help']) {
      io.out(`${command.usage}\n  ${command.doc}\n`);
      return 0;
    }
    if (positionals.length === 0 && command.takesFiles !== false)
      throw new Unusable(`${command.name} wants a file, a folder, or - for standard input: ${command.usage}`);
    return await command.run(positionals, values, io);
  } catch (error) {
    if (!(error instanceof Unusable)) throw error;
    io.err(error.message);
    return 2;
  }
}

function readArguments(command: Command, args: readonly string[]) {
  const options = { ...command.options, help: { type: 'boolean', short: 'h' } as const };
  try {
    const { values, positionals } = parseArgs({ args: [...args], options, allowPositionals: true, strict: true });
    return { values: values as Record<string, OptionValue>, positionals };
  } catch (error) {
    throw new Unusable(`${(error as Error).message.split('\n')[0]} (${command.usage})`);
  }
}

function help(): string {
  const lines = commands.map(({ usage, doc }) => `  ${usage}\n      ${doc}`);
  return `Ungula reads hoof-case files (.hoof).\n\n${lines.join('\n')}\n
FILE may be a folder (every .hoof file below it) or - for standard input.
Ends with 0 where there is no error-level finding, 1 where there is one (check), 2 where the
arguments are unusable or a file cannot be read.

Decision support only: diagnosis, radiographs and pain belong to the vet; local law decides who may trim or shoe.\n`;
}
