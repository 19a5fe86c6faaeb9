import { create, type Font } from 'fontkit';
import { fontBytes } from './font-bytes.ts';
import { fontFiles, styles, type FaceStyle } from './font-files.ts';

/** One file of type: some letters in one style. */
export interface Face {
  /** By which the writer of PDF knows it. */
  readonly name: string;
  has(codePoint: number): boolean;
  /** Of a text, in units of the size of its type. `whole`: its letters are shaped together, blanks and all. */
  width(text: string, whole: boolean): number;
}

/** Each file is read once in a process, when it is first asked for. */
const faces = new Map<string, Face>();

/** Those of a style, in the order in which they are tried. */
export const facesOf: Readonly<Record<FaceStyle, readonly Face[]>> = Object.fromEntries(
  styles.map((style) => [style, fontFiles[style].map(faceOf)]),
) as unknown as Record<FaceStyle, readonly Face[]>;

function faceOf(name: string): Face {
  const known = faces.get(name);
  if (known) return known;
  let read: Font | null = null;
  const font = (): Font => (read ??= create(bytesOf(name) as Buffer) as Font);
  const widths = new Map<string, number>();
  const widthOf = (text: string): number => {
    const before = widths.get(text);
    if (before !== undefined) return before;
    const width = font().layout(text).advanceWidth / font().unitsPerEm;
    widths.set(text, width);
    return width;
  };
  const face: Face = {
    name,
    has: (codePoint) => font().hasGlyphForCodePoint(codePoint),
    width: (text, whole) =>
      // The writer shapes word by word too, each with the blank behind it.
      whole ? widthOf(text) : (text.match(/[^ ]* |[^ ]+$/g) ?? []).reduce((sum, word) => sum + widthOf(word), 0),
  };
  faces.set(name, face);
  return face;
}

export function bytesOf(name: string): Uint8Array {
  const bytes = fontBytes[name];
  if (!bytes) throw new Error(`no type ${name}`);
  return bytes;
}
