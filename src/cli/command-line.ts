import { t } from '../../shared/language/words.ts';
import { spokenRows } from '../../shared/language/rows.ts';
import { parseArgs } from 'node:util';
import { shownJson, shownLine } from '../../shared/export/shown-characters.ts';
import { agree } from './agree.ts';
import { blind } from './blind.ts';
import { check } from './check.ts';
import { Unusable, type Command, type Io, type OptionValue, type Status } from './command.ts';
import { course } from './course.ts';
import { draw } from './draw.ts';
import { due } from './due.ts';
import { exportSeries } from './export.ts';
import { formatFiles } from './format-files.ts';
import { mark } from './mark.ts';
import { measure } from './measure.ts';
import { merge } from './merge.ts';
import { methods } from './methods.ts';
import { optionSlip } from './option-slip.ts';
import { plan } from './plan.ts';
import { reason } from './problem.ts';
import { report } from './report.ts';
import { serve } from './serve.ts';
import { summary } from './summary.ts';
import { textconv } from './textconv.ts';

const commands: readonly Command[] = spokenRows(
  [
    check,
    measure,
    plan,
    course,
    due,
    agree,
    blind,
    exportSeries,
    summary,
    methods,
    mark,
    draw,
    report,
    formatFiles,
    textconv,
    merge,
    serve,
  ],
  'doc',
);

/** Runs one command; whatever goes wrong is said in a line, and nothing is thrown. */
export async function commandLine(argv: readonly string[], io: Io): Promise<Status> {
  const [word, ...rest] = argv;
  if (word === undefined || word === '--help' || word === '-h' || word === 'help') {
    io.out(help());
    return word === undefined ? 2 : 0;
  }
  const err = (line: string): void => io.err(shownLine(line));
  const command = commands.find(({ name }) => name === word);
  if (!command) {
    err(t('there is no command «{0}»; there are: {1}', word, commands.map(({ name }) => name).join(', ')));
    return 2;
  }
  let answered = false;
  const out = (text: string): void => {
    answered = true;
    io.out(text);
  };
  try {
    const { values, positionals } = readArguments(command, rest);
    if (values['help']) {
      out(`${command.usage}\n  ${command.doc}\n`);
      return 0;
    }
    if (positionals.length === 0 && command.takesFiles !== false)
      throw new Unusable(t('{0} wants a file, a folder, or - for standard input: {1}', command.name, command.usage));
    return await command.run(positionals, values, { ...io, out, err });
  } catch (error) {
    const problem = error instanceof Unusable ? error.message : reason(error);
    err(problem);
    const { format, files } = looseArguments(command, rest);
    const empty =
      format === 'json' ? command.emptyJson?.(files, problem) : format === 'sarif' && command.emptySarif?.(problem);
    if (empty && !answered) out(shownJson(empty));
    return 2;
  }
}

const optionsOf = (command: Command): Command['options'] => ({
  ...command.options,
  help: { type: 'boolean', short: 'h' },
});

function readArguments(command: Command, given: readonly string[]) {
  const options = optionsOf(command);
  const args = joined(given, options);
  try {
    const { values, positionals, tokens } = parseArgs({
      args,
      options,
      allowPositionals: true,
      strict: true,
      tokens: true,
    });
    const once = new Set<string>();
    for (const token of tokens) {
      if (token.kind !== 'option' || options[token.name]?.multiple) continue;
      if (once.has(token.name)) throw new Unusable(t('{0} is given twice ({1})', token.rawName, command.usage));
      once.add(token.name);
    }
    return { values: values as Record<string, OptionValue>, positionals };
  } catch (error) {
    throw error instanceof Unusable ? error : new Unusable(`${optionSlip(error)} (${command.usage})`);
  }
}

/** `--heel -5` as `--heel=-5`, so that what is wrong with the number can be said and not what is wrong with the dash. */
function joined(args: readonly string[], options: ReturnType<typeof optionsOf>): string[] {
  const done: string[] = [];
  for (const arg of args) {
    const before = done.at(-1);
    if (/^-[\d.]/.test(arg) && before?.startsWith('--') && options[before.slice(2)]?.type === 'string')
      done[done.length - 1] = `${before}=${arg}`;
    else done.push(arg);
  }
  return done;
}

/** What can be made out of arguments that are unusable: whether a document was asked for, and of which files. */
function looseArguments(
  command: Command,
  given: readonly string[],
): { format: 'json' | 'sarif' | null; files: readonly string[] } {
  const options = optionsOf(command);
  const args = joined(given, options);
  for (const format of ['json', 'sarif'] as const) {
    const at = args.findIndex(
      (arg, i) => arg === `--format=${format}` || (arg === '--format' && args[i + 1] === format),
    );
    if (at < 0) continue;
    args.splice(at, args[at] === '--format' ? 2 : 1);
    return { format, files: parseArgs({ args, options, allowPositionals: true, strict: false }).positionals };
  }
  return { format: null, files: [] };
}

/** For lists of what there is. */
export { commands };

function help(): string {
  const lines = commands.map(({ usage, doc }) => `  ${usage}\n      ${doc}`);
  return t(
    'Ungula reads hoof-case files (.hoof).\n\n{0}\n\nFILE may be a folder (every .hoof file below it) or - for standard input.\nEnds with 0 where all is done; 1 where check tells an error, plan a cut that breaks a limit, mark something off its\nkey, or format --check a file to lay out; 2 where the arguments are unusable, a file cannot be read or what was asked for\ncannot be written.\n\nDecision support only: diagnosis, radiographs and pain belong to the vet; local law decides who may trim or shoe.\n',
    lines.join('\n'),
  );
}
