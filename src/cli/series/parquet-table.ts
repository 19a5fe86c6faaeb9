import { ByteWriter, ParquetWriter } from 'hyparquet-writer';
import type { SeriesCell } from '../../../shared/series/broken-cells.ts';
import type { ColumnType, SeriesColumn } from '../../../shared/series/columns.ts';

/** A table as Parquet, by groups of rows. What writes it is a bundle of its own, loaded where `--parquet` asks for it. */
export class ParquetTable {
  readonly #columns: readonly SeriesColumn[];
  readonly #sink: (bytes: Uint8Array) => void;
  readonly #bytes: ByteWriter;
  readonly #writer: ParquetWriter;
  #waiting: Readonly<Record<string, SeriesCell>>[] = [];

  /** @param sink takes each piece of the file in turn */
  constructor(columns: readonly SeriesColumn[], createdBy: string, sink: (bytes: Uint8Array) => void) {
    this.#columns = columns;
    this.#sink = sink;
    this.#bytes = new ByteWriter(2 ** 16);
    this.#writer = new ParquetWriter({
      writer: this.#bytes,
      createdBy,
      schema: [{ name: 'root', num_children: columns.length }, ...columns.map(elementOf)],
      // Of so few words a statistic would hold whole ones; nothing is gained by it.
      statistics: false,
    });
  }

  add(rows: readonly Readonly<Record<string, SeriesCell>>[]): void {
    for (const row of rows) {
      this.#waiting.push(row);
      if (this.#waiting.length >= rowsOfGroup) this.#group();
    }
  }

  finish(): void {
    if (this.#waiting.length > 0) this.#group();
    void this.#writer.finish();
    this.#pass();
  }

  #group(): void {
    const rows = this.#waiting;
    this.#waiting = [];
    void this.#writer.write({
      columnData: this.#columns.map(({ name, type }) => ({
        name,
        data: rows.map((row) => stored(row[name] ?? null, type)),
      })),
      rowGroupSize: rows.length,
    });
    this.#pass();
  }

  /** What is written goes on, so that one group is in memory and no more. */
  #pass(): void {
    this.#sink(this.#bytes.getBytes());
    (this.#bytes as unknown as { index: number }).index = 0;
  }
}

/** Of which the widest table is some megabytes. */
const rowsOfGroup = 16_384;

type ParquetElement = ConstructorParameters<typeof ParquetWriter>[0]['schema'][number];

const elements: Readonly<Record<ColumnType, Omit<ParquetElement, 'name' | 'repetition_type'>>> = {
  string: { type: 'BYTE_ARRAY', converted_type: 'UTF8' },
  integer: { type: 'INT32' },
  number: { type: 'DOUBLE' },
  boolean: { type: 'BOOLEAN' },
  date: { type: 'INT32', converted_type: 'DATE' },
};

const elementOf = ({ name, type, required }: SeriesColumn): ParquetElement => ({
  name,
  ...elements[type],
  repetition_type: required ? 'REQUIRED' : 'OPTIONAL',
});

const stored = (value: SeriesCell, type: ColumnType): SeriesCell | Date =>
  type === 'date' && typeof value === 'string' ? new Date(`${value}T00:00:00Z`) : value;
