import type { ByteSource } from './byte-source.ts';
import type { PathRefusal } from './picture-place.ts';

/** Bytes. A film of 60 million pixels, two bytes each, has 120 MB; nothing larger is opened. */
export const largestPicture = 200_000_000;

/** How many pictures are held open at a time: a case may name hundreds, and no machine has to hold them all at once. */
export const mostOpen = 3;

const fileRefusals = [
  'not there',
  'a folder',
  'not plain',
  'leads out',
  'too large',
  'unreadable',
  'never ready',
] as const;

/** Why a file that the policy allows is not opened after all. */
export type FileRefusal = (typeof fileRefusals)[number];

export const isFileRefusal = (value: unknown): value is FileRefusal =>
  (fileRefusals as readonly unknown[]).includes(value);

export type Refusal = PathRefusal | FileRefusal;

/** What is no fault of the path that is written, or only of the moment: a film is not told of it. */
const passing: ReadonlySet<Refusal> = new Set(['no name', 'unsaved case', 'too large', 'unreadable', 'never ready']);

/** Whether a film is told why its picture is not read: the path leads to none, whoever looks. */
export const isOfPath = (why: Refusal): boolean => !passing.has(why);

/** A picture that is open. `stamp` is another one as soon as the file is. */
export interface OpenPicture extends ByteSource {
  readonly stamp: string;
}

export type Looked<T> = { readonly found: T } | { readonly refused: FileRefusal };

/**
 * Opens a picture for as long as `use` runs. Each machine has one such reader. It opens a plain file only, no device, pipe or
 * folder, whose place with all links followed lies in one of the roots, and which is not larger than `largestPicture`; and
 * `mostOpen` at a time. `place` and `roots` are as the machine names files: URIs or paths.
 */
export type UsePicture<Place = string> = <T>(
  place: Place,
  roots: readonly Place[],
  use: (picture: OpenPicture) => Promise<T>,
) => Promise<Looked<T>>;
