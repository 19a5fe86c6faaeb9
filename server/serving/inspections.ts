import type { TextDocument } from 'vscode-languageserver-textdocument';
import { largestFile, mostLines, tooLarge, type TooMuch } from '../../shared/findings/engine/file-problems.ts';
import { inspect, type InspectSettings, type Inspection } from '../../shared/findings/inspect.ts';
import { atLevels, noLevels } from '../../shared/findings/engine/severity-levels.ts';
import { BlockMemory } from '../../shared/notation/parse.ts';
import { usualStudy } from '../../shared/trim/study.ts';
import { readSettings } from './settings.ts';
import type { LessonKeys } from './lesson-keys.ts';
import type { MissingPictures } from './missing-pictures.ts';
import type { StoredScaleBook } from './stored-scales.ts';

interface CachedInspection {
  readonly memory: BlockMemory;
  settings: InspectSettings;
  edition: number;
  inspection: Inspection | null;
}

/** A cache: the inspection of each open document, made once for each text. Its block memory makes the next one cheap. */
export class Inspections {
  /** As where nothing is set, so that settings which say nothing change nothing when they come. */
  private settings: InspectSettings = readSettings(undefined, usualStudy);
  private readonly kept = new WeakMap<TextDocument, CachedInspection>();
  private readonly scales: StoredScaleBook;
  private readonly missing: MissingPictures;
  private readonly keys: LessonKeys;

  constructor(scales: StoredScaleBook, missing: MissingPictures, keys: LessonKeys) {
    this.scales = scales;
    this.missing = missing;
    this.keys = keys;
  }

  /** Takes the section of the client's settings; true where it changes anything. */
  use(section: unknown): boolean {
    const before = this.settings;
    this.settings = readSettings(section, before);
    return this.settings !== before;
  }

  useReference(reference: InspectSettings['reference']): void {
    this.settings = { ...this.settings, reference };
  }

  /** Settings; a new object whenever one changes. */
  get by(): InspectSettings {
    return this.settings;
  }

  /** Each only goes up, so that their sum changes with any. */
  private get edition(): number {
    return this.scales.edition + this.missing.edition + this.keys.edition;
  }

  of(document: TextDocument): Inspection {
    const kept = this.kept.get(document) ?? {
      memory: new BlockMemory(),
      settings: this.settings,
      edition: this.edition,
      inspection: null,
    };
    this.kept.set(document, kept);
    const { settings, edition } = this;
    // Compared by text, not by version: some clients send two texts with the same version.
    const text = document.getText();
    if (kept.inspection?.tree.text === text && kept.settings === settings && kept.edition === edition)
      return kept.inspection;
    const tooMuch = tooMuchIn(document);
    kept.inspection =
      tooMuch === null
        ? inspect(
            text,
            settings,
            kept.memory,
            this.scales.of(document),
            this.missing.of(document),
            this.keys.of(document),
          )
        : { ...inspect(''), findings: atLevels([tooLarge(text, tooMuch)], settings.levels ?? noLevels) };
    kept.edition = edition;
    kept.settings = settings;
    return kept.inspection;
  }
}

/** Whether a document is small enough to be inspected at every change. */
export function isCase(document: TextDocument): boolean {
  return tooMuchIn(document) === null;
}

/** A document counts its lines once, and then those that change. */
function tooMuchIn(document: TextDocument): TooMuch | null {
  if (document.getText().length > largestFile) return 'bytes';
  return document.lineCount > mostLines ? 'lines' : null;
}
