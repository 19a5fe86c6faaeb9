import type { TextDocument } from 'vscode-languageserver-textdocument';
import { inspect, type InspectSettings, type Inspection } from '../shared/findings/inspect.ts';
import type { BlockMemory } from '../shared/notation/parse.ts';
import { usualStudy } from '../shared/trim/study.ts';
import { readSettings } from './settings.ts';
import type { StoredScaleBook } from './stored-scales.ts';

interface Kept {
  readonly memory: BlockMemory;
  version: number | null;
  settings: InspectSettings;
  edition: number;
  inspection: Inspection | null;
}

/** The inspection of each document, made once a version. Its block memory makes the next version cheap. */
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

  of(document: TextDocument): Inspection {
    const kept = this.kept.get(document) ?? {
      memory: new Map(),
      version: null,
      settings: this.settings,
      edition: this.scales.edition,
      inspection: null,
    };
    this.kept.set(document, kept);
    const { settings } = this;
    const { edition } = this.scales;
    if (kept.inspection && kept.version === document.version && kept.settings === settings && kept.edition === edition)
      return kept.inspection;
    kept.inspection = inspect(document.getText(), settings, kept.memory, this.scales.of(document));
    kept.edition = edition;
    kept.version = document.version;
    kept.settings = this.settings;
    return kept.inspection;
  }
}
