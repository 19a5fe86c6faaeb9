import { TextDocument } from 'vscode-languageserver-textdocument';
import { tooMuchIn, tooLarge, type TooMuch } from '../../shared/findings/engine/file-problems.ts';
import type { Finding } from '../../shared/findings/finding.ts';
import { inspect, type Inspection, type InspectSettings } from '../../shared/findings/inspect.ts';
import { atLevels, noLevels } from '../../shared/findings/engine/severity-levels.ts';
import { looksIntoPicture } from '../../shared/measures/film-input.ts';
import { toldInText } from '../../shared/findings/withheld.ts';
import { BlockMemory } from '../../shared/notation/parse.ts';
import type { ClientAbilities } from '../serving/client-abilities.ts';
import { diagnosticsOf } from '../features/diagnostics.ts';
import type { LessonKeys } from '../serving/lesson-keys.ts';
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
  /** Keys of its pictures, and of the file that it is held against as a lesson: where one changes, the case is read again. */
  readonly reads: readonly string[];
}

interface By {
  readonly scales: StoredScaleBook;
  readonly missing: MissingPictures;
  readonly keys: Pick<LessonKeys, 'of' | 'learn' | 'fileOf'>;
  readonly settings: () => InspectSettings;
  readonly client: () => ClientAbilities;
  /** As `dayNumber` counts. */
  readonly today: () => number;
}

/** A case with what it names: its pictures, and of a lesson the file of its key, as written. */
interface InspectedDocument {
  readonly inspection: Inspection;
  readonly pictures: readonly string[];
  readonly key: string | undefined;
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
    const { inspection, pictures, key } = await this.inspected(document);
    const findings = problem ? [...this.atLevels(problem), ...inspection.findings] : inspection.findings;
    return {
      uri,
      entry: detached(indexEntry(inspection, this.by.today())),
      told: new PackedDiagnostics(
        diagnosticsOf(document, toldInText(inspection.study, findings, false), this.by.client()),
      ),
      reads: [
        ...this.by.scales.places(document, pictures).map(keyOf),
        ...(key === undefined ? [] : [this.by.keys.fileOf(document, key)].filter((file) => file !== null)),
      ],
    };
  }

  /** What the index does not keep; null for a file that is too large to be a case. */
  async inspection(uri: string, bytes: Uint8Array): Promise<Inspection | null> {
    const { text } = decode(bytes);
    if (tooMuchIn(text)) return null;
    return (await this.inspected(TextDocument.create(uri, 'hoof', 0, text))).inspection;
  }

  private async inspected(document: TextDocument): Promise<InspectedDocument> {
    const memory = new BlockMemory();
    const { scales, missing, keys, settings } = this.by;
    const once = () =>
      inspect(
        document.getText(),
        settings(),
        memory,
        scales.of(document, { look: false }),
        missing.of(document, { look: false }),
        keys.of(document, { look: false }),
      );
    const inspection = once();
    const { films, record } = inspection.study;
    const looked = films.filter(({ film }) => looksIntoPicture(film)).map(({ film }) => film.path.text);
    const pictures = record.visits.flatMap(({ is }) => [...is.films, ...is.pictures].map(({ path }) => path.text));
    const key = record.animal?.is.key?.file?.text;
    if (pictures.length === 0 && key === undefined) return { inspection, pictures, key };
    await Promise.all([
      ...(key === undefined ? [] : [keys.learn(document, key)]),
      ...looked.map((path) => scales.learn(document, path)),
      ...pictures.map((path) => missing.learn(document, path)),
    ]);
    return { inspection: once(), pictures, key };
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
    return { uri, entry: emptyEntry, told: new PackedDiagnostics([]), reads: [] };
  }
}
