import type { InspectSettings } from '../../shared/findings/inspect.ts';
import { t } from '../../shared/language/words.ts';
import { keyRefusalWords } from '../../shared/lessons/key-refusal.ts';
import { keyFilms, type KeyFilm } from '../../shared/lessons/marked-case.ts';
import type { Study } from '../../shared/trim/study.ts';
import type { CaseFile } from './case-files.ts';
import { inspected } from './inspected.ts';
import { keyFileOf } from './key-files.ts';
import { CommandProblem } from './problem.ts';

interface NamedKey {
  /** Path of the file. */
  readonly name: string;
  readonly films: readonly KeyFilm[];
}

/** The keys that lessons name themselves. A class names one, so only the last is kept. */
export class OwnKeys {
  private readonly settings: InspectSettings;
  private readonly root: readonly string[];
  private last: { readonly real: string | null; readonly text: string; readonly study: Study } | null = null;

  constructor(settings: InspectSettings, root: readonly string[]) {
    this.settings = settings;
    this.root = root;
  }

  /** @throws CommandProblem where it names none, or none that can be used; null where it has no line `key`. */
  async of(file: CaseFile, study: Study): Promise<NamedKey | null> {
    const key = study.record.animal?.is.key;
    if (!key) return null;
    const by = key.by?.text ?? null;
    if (!key.file) return named(file.name, keyFilms(study, by), by);
    const found = await keyFileOf(file, key.file.text, this.root);
    if ('refused' in found) throw new CommandProblem(keyRefusalWords(found.refused, key.file.text));
    if (this.last?.real !== found.real || this.last.text !== found.text) {
      const whole = await inspected(found, this.settings, this.root);
      this.last = { real: found.real, text: found.text, study: whole.study };
    }
    return named(found.name, keyFilms(this.last.study, by), by);
  }
}

function named(name: string, films: readonly KeyFilm[], by: string | null): NamedKey {
  if (films.length > 0) return { name, films };
  throw new CommandProblem(
    by === null
      ? t('{0}: no film has a landmark, so there is nothing to hold others against', name)
      : t('{0}: no film has a reading by “{1}”, so there is nothing to hold others against', name, by),
  );
}
