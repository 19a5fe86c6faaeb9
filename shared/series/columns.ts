/** What the columns of a table of the series are made of. A column that takes a text nobody can foresee is one that has to be asked for. */

/** What leaves only where it is asked for. */
export const extras = ['dates', 'texts', 'readers', 'names', 'numbers', 'pictures'] as const;
export type Extra = (typeof extras)[number];

/** As Frictionless Table Schema names them. */
export type ColumnType = 'string' | 'integer' | 'number' | 'boolean' | 'date';

export interface SeriesColumn {
  readonly name: string;
  readonly type: ColumnType;
  readonly title: string;
  readonly description: string;
  /** Of its numbers. */
  readonly unit?: string;
  /** Never empty. */
  readonly required?: true;
  /** The only words that may stand in it. */
  readonly enum?: readonly string[];
  /** A regular expression for the whole of what may stand in it. */
  readonly pattern?: string;
  readonly minimum?: number;
  readonly maximum?: number;
  /** It is there only where one of these was asked for. */
  readonly asked?: readonly Extra[];
}

/** Points from the rows of a table to the row of another that they belong to. */
export interface ForeignKey {
  readonly fields: readonly string[];
  readonly table: string;
  /** The fields there, where they have other names. */
  readonly there?: readonly string[];
}

export interface SeriesTable {
  readonly title: string;
  readonly description: string;
  readonly primaryKey: readonly string[];
  readonly foreignKeys: readonly ForeignKey[];
  readonly columns: readonly SeriesColumn[];
  /** The table is there only where one of these was asked for. */
  readonly asked?: readonly Extra[];
}

/** What may stand in a cell of a column. */
export type CellOf<C extends SeriesColumn> =
  | (C['type'] extends 'string' | 'date' ? string : C['type'] extends 'boolean' ? boolean : number)
  | (C extends { readonly required: true } ? never : null);
