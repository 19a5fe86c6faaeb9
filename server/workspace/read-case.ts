import { TextDocument } from 'vscode-languageserver-textdocument';
import { tooMuchIn, tooLarge, type TooMuch } from '../../shared/findings/engine/file-problems.ts';
import type { Finding } from '../../shared/findings/finding.ts';
import { inspect, type Inspection, type InspectSettings } from '../../shared/findings/inspect.ts';
import { atLevels, noLevels } from '../../shared/findings/engine/severity-levels.ts';
import { looksIntoPicture } from '../../shared/measures/film-input.ts';
import { BlockMemory } from '../../shared/notation/parse.ts';
import type { ClientAbilities } from '../serving/client-abilities.ts';
import { diagnosticsOf } from '../features/diagnostics.ts';
import type { MissingPictures } from '../serving/missing-pictures.ts';
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
  /** Keys of its pictures: where one changes, the case is read again. */
  readonly pictures: readonly string[];
}

interface By {
  readonly scales: StoredScaleBook;
  readonly missing: MissingPictures;
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
    const { inspection, pictures } = await this.inspected(document);
    const findings = problem ? [...this.atLevels(problem), ...inspection.findings] : inspection.findings;
    return {
      uri,
      entry: detached(indexEntry(inspection)),
      told: new PackedDiagnostics(diagnosticsOf(document, findings, this.by.client())),
      pictures: this.by.scales.places(document, pictures).map(keyOf),
    };
  }

  /** What the index does not keep; null for a file that is too large to be a case. */
  async inspection(uri: string, bytes: Uint8Array): Promise<Inspection | null> {
    const { text } = decode(bytes);
    if (tooMuchIn(text)) return null;
    return (await this.inspected(TextDocument.create(uri, 'hoof', 0, text))).inspection;
  }

  private async inspected(document: TextDocument): Promise<{ inspection: Inspection; pictures: readonly string[] }> {
    const memory = new BlockMemory();
    const { scales, missing, settings } = this.by;
    const once = () =>
      inspect(
        document.getText(),
        settings(),
        memory,
        scales.of(document, { look: false }),
        missing.of(document, { look: false }),
      );
    const inspection = once();
    const { films, record } = inspection.study;
    const looked = films.filter(({ film }) => looksIntoPicture(film)).map(({ film }) => film.path.text);
    const pictures = record.visits.flatMap(({ is }) => [...is.films, ...is.pictures].map(({ path }) => path.text));
    if (pictures.length === 0) return { inspection, pictures };
    await Promise.all([
      ...looked.map((path) => scales.learn(document, path)),
      ...pictures.map((path) => missing.learn(document, path)),
    ]);
    return { inspection: once(), pictures };
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
