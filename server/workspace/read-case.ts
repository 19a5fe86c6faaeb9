import { TextDocument } from 'vscode-languageserver-textdocument';
import { tooLarge } from '../../shared/findings/file-problems.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import type { BlockMemory } from '../../shared/notation/parse.ts';
import type { StudySettings } from '../../shared/trim/study.ts';
import type { ClientAbilities } from '../client-abilities.ts';
import { diagnosticsOf } from '../diagnostics.ts';
import type { StoredScaleBook } from '../stored-scales.ts';
import { decode } from './decode.ts';
import { keyOf } from './file-key.ts';
import { detached, emptyEntry, indexEntry, type IndexEntry } from './index-entry.ts';
import { PackedDiagnostics } from './packed-diagnostics.ts';

/** A case file as it stands on the disk. */
export interface IndexedFile {
  readonly uri: string;
  readonly entry: IndexEntry;
  /** The same object as before where a file has changed and is told the same. */
  readonly told: PackedDiagnostics;
  /** Keys of the pictures that were asked for their scale. */
  readonly pictures: readonly string[];
}

interface By {
  readonly scales: StoredScaleBook;
  readonly settings: () => StudySettings;
  readonly client: () => ClientAbilities;
}

/** Bytes to what the index keeps: the whole pipeline, as for an open document, and then nothing of it but the entry. */
export class CaseReader {
  private readonly by: By;
  /** Told of every such file alike. */
  private large: PackedDiagnostics | null = null;

  constructor(by: By) {
    this.by = by;
  }

  async read(uri: string, bytes: Uint8Array): Promise<IndexedFile> {
    const { text, problem } = decode(bytes);
    const document = TextDocument.create(uri, 'hoof', 0, text);
    const memory: BlockMemory = new Map();
    const once = () => inspect(text, this.by.settings(), memory, this.by.scales.of(document, { look: false }));
    let inspection = once();
    const pictures = inspection.study.films
      .filter(({ film }) => film.scale?.kind === 'dicom')
      .map(({ film }) => film.path.text);
    if (pictures.length > 0) {
      await Promise.all(pictures.map((path) => this.by.scales.learn(document, path)));
      inspection = once();
    }
    const findings = problem ? [problem, ...inspection.findings] : inspection.findings;
    return {
      uri,
      entry: detached(indexEntry(inspection)),
      told: new PackedDiagnostics(diagnosticsOf(document, findings, this.by.client())),
      pictures: this.by.scales.places(document, pictures).map(keyOf),
    };
  }

  tooLarge(uri: string): IndexedFile {
    const document = TextDocument.create(uri, 'hoof', 0, '');
    this.large ??= new PackedDiagnostics(diagnosticsOf(document, [tooLarge('')], this.by.client()));
    return { ...this.unread(uri), told: this.large };
  }

  unread(uri: string): IndexedFile {
    return { uri, entry: emptyEntry, told: new PackedDiagnostics([]), pictures: [] };
  }
}
