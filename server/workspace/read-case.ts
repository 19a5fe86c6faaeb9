import { TextDocument } from 'vscode-languageserver-textdocument';
import { tooMuchIn, tooLarge, type TooMuch } from '../../shared/findings/engine/file-problems.ts';
import type { Finding } from '../../shared/findings/finding.ts';
import { inspect, type InspectSettings } from '../../shared/findings/inspect.ts';
import { atLevels, noLevels } from '../../shared/findings/engine/severity-levels.ts';
import { looksIntoPicture } from '../../shared/measures/film-input.ts';
import { BlockMemory } from '../../shared/notation/parse.ts';
import type { ClientAbilities } from '../serving/client-abilities.ts';
import { diagnosticsOf } from '../features/diagnostics.ts';
import type { StoredScaleBook } from '../serving/stored-scales.ts';
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
  readonly settings: () => InspectSettings;
  readonly client: () => ClientAbilities;
}

/** Bytes to what the index keeps: the whole pipeline, as for an open document, and then nothing of it but the entry. */
export class CaseReader {
  private readonly by: By;
  /** Told of every such file alike. */

  constructor(by: By) {
    this.by = by;
  }

  async read(uri: string, bytes: Uint8Array): Promise<IndexedFile> {
    const { text, problem } = decode(bytes);
    const tooMuch = tooMuchIn(text);
    if (tooMuch) return this.tooLarge(uri, tooMuch);
    const document = TextDocument.create(uri, 'hoof', 0, text);
    const memory = new BlockMemory();
    const once = () => inspect(text, this.by.settings(), memory, this.by.scales.of(document, { look: false }));
    let inspection = once();
    const pictures = inspection.study.films
      .filter(({ film }) => looksIntoPicture(film))
      .map(({ film }) => film.path.text);
    if (pictures.length > 0) {
      await Promise.all(pictures.map((path) => this.by.scales.learn(document, path)));
      inspection = once();
    }
    const findings = problem ? [...this.atLevels(problem), ...inspection.findings] : inspection.findings;
    return {
      uri,
      entry: detached(indexEntry(inspection)),
      told: new PackedDiagnostics(diagnosticsOf(document, findings, this.by.client())),
      pictures: this.by.scales.places(document, pictures).map(keyOf),
    };
  }

  tooLarge(uri: string, tooMuch: TooMuch): IndexedFile {
    const document = TextDocument.create(uri, 'hoof', 0, '');
    const told = new PackedDiagnostics(diagnosticsOf(document, this.atLevels(tooLarge('', tooMuch)), this.by.client()));
    return { ...this.unread(uri), told };
  }

  private atLevels(finding: Finding): readonly Finding[] {
    return atLevels([finding], this.by.settings().levels ?? noLevels);
  }

  unread(uri: string): IndexedFile {
    return { uri, entry: emptyEntry, told: new PackedDiagnostics([]), pictures: [] };
  }
}
