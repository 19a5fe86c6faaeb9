import type { Element } from 'domhandler';
import type { Inline } from './lines.ts';

/** What a page is made of, from above: the document of a page read into what is laid on sheets. Lengths in points. */

/** What a part is to who has the sheet read aloud: an element of the tree of tags. */
export interface Tag {
  readonly role: string;
  readonly parent: Tag | null;
  readonly alt?: string;
  readonly scope?: 'Row' | 'Column';
}

export interface TypeLook {
  readonly size: number;
  /** Height of a line, in units of the size. */
  readonly leading: number;
  readonly style: 'regular' | 'bold' | 'italic';
  readonly colour: string;
}

interface Spaced {
  readonly before: number;
  readonly after: number;
}

export interface TextBlock extends Spaced {
  readonly kind: 'text';
  readonly tag: Tag;
  readonly inlines: readonly Inline[];
  readonly look: TypeLook;
  readonly indent: number;
  /** A heading stays with what it stands over. */
  readonly isHeading: boolean;
  readonly ruled: 'above' | 'below' | null;
}

export interface ListBlock extends Spaced {
  readonly kind: 'list';
  readonly items: readonly ListItem[];
  readonly columns: 1 | 2;
}

export interface ListItem {
  /** `•` or `1.` */
  readonly mark: string;
  readonly markTag: Tag;
  readonly text: TextBlock;
}

export interface Cell {
  readonly tag: Tag;
  readonly inlines: readonly Inline[];
}

export interface TableBlock extends Spaced {
  readonly kind: 'table';
  readonly look: TypeLook;
  /** Above and below a row, in units of the size. */
  readonly rowMargin: number;
  readonly head: readonly (readonly Cell[])[];
  readonly rows: readonly (readonly Cell[])[];
}

export interface FigureBlock extends Spaced {
  readonly kind: 'figure';
  readonly tag: Tag;
  readonly svg: Element;
  readonly caption: TextBlock | null;
  /** As large as it is; null where it fills what holds it. */
  readonly trueSize: { readonly width: number; readonly height: number } | null;
  readonly mostHeight: number;
}

/** Next to each other, all equally wide. */
export interface ColumnsBlock extends Spaced {
  readonly kind: 'columns';
  readonly columns: readonly (readonly PageBlock[])[];
  readonly gap: number;
}

export interface BoxBlock extends Spaced {
  readonly kind: 'box';
  readonly look: 'double' | 'bar' | 'room';
  readonly blocks: readonly PageBlock[];
  readonly leastHeight: number;
}

/** Stays on one sheet where one can hold it. */
export interface KeptBlock extends Spaced {
  readonly kind: 'kept';
  readonly blocks: readonly PageBlock[];
}

export interface BreakBlock {
  readonly kind: 'break';
}

export type PageBlock =
  TextBlock | ListBlock | TableBlock | FigureBlock | ColumnsBlock | BoxBlock | KeptBlock | BreakBlock;
