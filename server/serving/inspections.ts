import type { TextDocument } from 'vscode-languageserver-textdocument';
import { largestFile, tooLarge } from '../../shared/findings/engine/file-problems.ts';
import { inspect, type InspectSettings, type Inspection } from '../../shared/findings/inspect.ts';
import { atLevels, noLevels } from '../../shared/findings/engine/severity-levels.ts';
import { BlockMemory } from '../../shared/notation/parse.ts';
import { usualStudy } from '../../shared/trim/study.ts';
import { readSettings } from './settings.ts';
import type { StoredScaleBook } from './stored-scales.ts';

interface Kept {
  readonly memory: BlockMemory;
  settings: InspectSettings;
  edition: number;
  inspection: Inspection | null;
}

/** The inspection of each document, made once a text. Its block memory makes the next version cheap. */
export class Inspections {
  private settings: InspectSettings = usualStudy;
  private readonly kept = new WeakMap<TextDocument, Kept>();
  private readonly scales: StoredScaleBook;

  constructor(scales: StoredScaleBook) {
    this.scales = scales;
  }

  /** Whether the section changes anything. */
  use(section: unknown): boolean {
    const before = this.settings;
    this.settings = readSettings(section, before);
    return this.settings !== before;
  }

  useReference(reference: InspectSettings['reference']): void {
    this.settings = { ...this.settings, reference };
  }

  /** By which a case is read now: another object as soon as anything in it changes. */
  get by(): InspectSettings {
    return this.settings;
  }

  of(document: TextDocument): Inspection {
    const kept = this.kept.get(document) ?? {
      memory: new BlockMemory(),
      settings: this.settings,
      edition: this.scales.edition,
      inspection: null,
    };
    this.kept.set(document, kept);
    const { settings } = this;
    const { edition } = this.scales;
    // By the text, not by the version: some clients send two texts under one number.
    const text = document.getText();
    if (kept.inspection?.tree.text === text && kept.settings === settings && kept.edition === edition)
      return kept.inspection;
    kept.inspection = isCase(document)
      ? inspect(text, settings, kept.memory, this.scales.of(document))
      : { ...inspect(''), findings: atLevels([tooLarge(text)], settings.levels ?? noLevels) };
    kept.edition = edition;
    kept.settings = settings;
    return kept.inspection;
  }
}

/** Whether a document is small enough to be looked into at every change. */
export function isCase(document: TextDocument): boolean {
  return document.getText().length <= largestFile;
}
