import { t } from '../../shared/language/words.ts';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { WordTable } from '../../shared/language/words.ts';
import { Unusable } from './command.ts';
import { here } from './here.ts';

/** What the command line is told before its command. */
interface SpokenLanguage {
  /** The arguments without the option. */
  readonly argv: readonly string[];
  /** Absent where it speaks English. */
  readonly words: WordTable | undefined;
  /** As HTML names it. */
  readonly language: string;
}

/** Beside the bundle, and beside the sources. */
const tables = [join(here, '..', 'l10n'), join(here, '..', '..', 'l10n')];

/**
 * The language of `--language`, else of the environment as POSIX orders it: LC_ALL, LC_MESSAGES, LANG. English where no table of
 * it is there, but for a language that was asked for by the option.
 *
 * @throws {Unusable} where the option names no language, or one without a table
 */
export async function spokenLanguage(
  argv: readonly string[],
  environment: Readonly<Record<string, string | undefined>>,
  folders: readonly string[] = tables,
): Promise<SpokenLanguage> {
  const { rest, asked } = takenOut(argv);
  if (asked !== null) {
    if (isEnglish(asked)) return { argv: rest, ...english };
    const found = await tableOf(asked, folders);
    if (found === null)
      throw new Unusable(t('--language takes en or a language that is in the folder l10n; not {0}', asked));
    return { argv: rest, ...found };
  }
  const { LC_ALL, LC_MESSAGES, LANG } = environment;
  const named = [LC_ALL, LC_MESSAGES, LANG].find((one) => one !== undefined && one !== '') ?? 'C';
  return { argv: rest, ...((isEnglish(named) ? null : await tableOf(named, folders)) ?? english) };
}

const english = { words: undefined, language: 'en' } as const;

const isEnglish = (name: string): boolean => /^(?:C|POSIX|en)(?:[._@-]|$)/i.test(name);

function takenOut(argv: readonly string[]): { rest: string[]; asked: string | null } {
  const end = argv.indexOf('--');
  const at = argv.findIndex(
    (arg, index) => (arg === '--language' || arg.startsWith('--language=')) && (end < 0 || index < end),
  );
  const option = argv[at];
  if (option === undefined) return { rest: [...argv], asked: null };
  const apart = option === '--language';
  return {
    rest: argv.toSpliced(at, apart ? 2 : 1),
    asked: (apart ? argv[at + 1] : option.slice('--language='.length)) ?? '',
  };
}

/** `pt_BR.UTF-8` is looked for as pt-br, then as pt, as the editor names its languages. */
async function tableOf(name: string, folders: readonly string[]): Promise<Omit<SpokenLanguage, 'argv'> | null> {
  const full = /^[a-z]{2,3}(?:[_-][a-z0-9]{2,8})*/i.exec(name)?.[0].toLowerCase().replaceAll('_', '-');
  if (full === undefined) return null;
  const [short = full] = full.split('-');
  for (const language of new Set([full, short]))
    for (const folder of folders) {
      const text = await readFile(join(folder, `bundle.l10n.${language}.json`), 'utf8').catch(() => null);
      if (text !== null) return { words: JSON.parse(text) as WordTable, language };
    }
  return null;
}
