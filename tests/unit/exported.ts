import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parquetReadObjects } from 'hyparquet';
import { parse as parseCsv } from 'csv-parse/sync';
import { commandLine } from '../../src/cli/command-line.ts';

export interface ExportEnded {
  readonly status: number;
  readonly out: string;
  readonly err: readonly string[];
}

/** Runs `ungula export` in this process. */
export async function runExport(...args: readonly string[]): Promise<ExportEnded> {
  let out = '';
  const err: string[] = [];
  const status = await commandLine(['export', ...args], {
    out: (text) => (out += text),
    err: (line) => err.push(line),
  });
  return { status, out, err };
}

/** Every file below a folder, with `/`, in order. */
export const filesBelow = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) =>
      join(entry.parentPath, entry.name)
        .slice(folder.length + 1)
        .replaceAll('\\', '/'),
    )
    .sort();

export const csvRows = (path: string): Record<string, string>[] =>
  parseCsv(readFileSync(path), { columns: true }) as Record<string, string>[];

export async function parquetRows(path: string): Promise<Record<string, unknown>[]> {
  const { buffer, byteOffset, byteLength } = readFileSync(path);
  return parquetReadObjects({ file: buffer.slice(byteOffset, byteOffset + byteLength) as ArrayBuffer });
}

/** All that a package says, in letters: its bytes as they are, the names of its files, and its Parquet decoded. */
export async function allSaidIn(folder: string): Promise<string> {
  const said: string[] = [];
  for (const name of filesBelow(folder)) {
    said.push(name, readFileSync(join(folder, name), 'utf8'), readFileSync(join(folder, name), 'latin1'));
    if (name.endsWith('.parquet'))
      for (const row of await parquetRows(join(folder, name)))
        said.push(JSON.stringify(row, (_, value: unknown) => (typeof value === 'bigint' ? String(value) : value)));
  }
  return said.join('\n');
}

export interface Descriptor {
  readonly profile: string;
  readonly resources: readonly {
    readonly name: string;
    readonly path: string;
    readonly format: string;
    readonly bytes: number;
    readonly hash: string;
    readonly schema: {
      readonly fields: readonly { readonly name: string; readonly type: string }[];
      readonly primaryKey: readonly string[];
      readonly foreignKeys?: readonly {
        readonly fields: readonly string[];
        readonly reference: { readonly resource: string; readonly fields: readonly string[] };
      }[];
    };
  }[];
  readonly ungula: Readonly<Record<string, unknown>>;
}

export const descriptorIn = (folder: string): Descriptor =>
  JSON.parse(readFileSync(join(folder, 'datapackage.json'), 'utf8')) as Descriptor;
