import type { TextDocument } from 'vscode-languageserver-textdocument';
import { inspect, type Inspection } from '../shared/findings/inspect.ts';
import type { BlockMemory } from '../shared/notation/parse.ts';
import { usualStudy, type StudySettings } from '../shared/trim/study.ts';
import { readSettings } from './settings.ts';
import type { StoredScaleBook } from './stored-scales.ts';

interface Kept {
  readonly memory: BlockMemory;
  settings: StudySettings;
  edition: number;
  inspection: Inspection | null;
}

/** The inspection of each document, made once a text. Its block memory makes the next version cheap. */
export class Inspections {
  private settings: StudySettings = usualStudy;
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

  useReference(reference: StudySettings['reference']): void {
    this.settings = { ...this.settings, reference };
  }

  of(document: TextDocument): Inspection {
    const kept = this.kept.get(document) ?? {
      memory: new Map(),
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
    kept.inspection = inspect(text, settings, kept.memory, this.scales.of(document));
    kept.edition = edition;
    kept.settings = settings;
    return kept.inspection;
  }
}
