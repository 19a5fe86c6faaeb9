import type { StoredScale } from '../../shared/measures/take.ts';
import { readReference } from '../../shared/findings/limits/read-reference.ts';
import type { StoredScales, StudySettings } from '../../shared/trim/study.ts';
import { usualTrim, type TrimSettings } from '../../shared/trim/trim-settings.ts';
import { usualChange } from '../../shared/trim/change-settings.ts';
import { usualSpread } from '../../shared/measures/take.ts';

/** The settings of a state as plain data, so that a case can be written to a file and had again. */
export interface Settings {
  readonly spread: { readonly mm: number; readonly px: number };
  readonly trim: Partial<TrimSettings>;
  /** JSON of sets of reference values. */
  readonly reference: readonly string[];
}

/** All that an inspection rests on. What is told of a state must not depend on which states went before it. */
export interface State {
  readonly text: string;
  readonly settings: Settings;
  /** What is known of the pictures by their paths as written; a path that is not there has not been looked at. */
  readonly scales: Readonly<Record<string, StoredScale>>;
}

export const usualSettings: Settings = { spread: usualSpread, trim: {}, reference: [] };

/**
 * Settings and scales as the pipeline takes them. Equal ones are the same object, as they are in a server while nothing
 * changes: what is remembered is remembered by identity, and going back to an earlier object is part of the game.
 */
export class Given {
  private readonly made = new Map<string, unknown>();

  settings({ spread, trim, reference }: Settings): StudySettings {
    return this.once(['settings', spread, trim, reference], () => ({
      spread: this.once(['spread', spread], () => spread),
      trim: this.once(['trim', trim], () => ({ ...usualTrim, ...trim })),
      change: usualChange,
      reference: this.once(['reference', reference], () => reference.map(ownSet)),
    }));
  }

  scales(scales: State['scales']): StoredScales {
    return (path) => {
      const told = Object.hasOwn(scales, path) ? scales[path] : undefined;
      return told === undefined ? null : this.once(['scale', told], () => told);
    };
  }

  private once<T>(key: unknown, make: () => T): T {
    const name = JSON.stringify(key);
    if (!this.made.has(name)) this.made.set(name, make());
    return this.made.get(name) as T;
  }
}

function ownSet(json: string) {
  const { set, problem } = readReference(json);
  if (!set) throw new Error(`a set of reference values of the test is none: ${problem}`);
  return set;
}
