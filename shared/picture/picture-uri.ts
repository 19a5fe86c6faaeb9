import { casePlace, picturePlace, pictureRoots, type FilePlace, type PathRefusal } from './picture-place.ts';

/** A picture of a case by its URI, with the URIs of the folders that it must lie in once links are followed. */
export type PictureUri =
  { readonly uri: string; readonly roots: readonly string[] } | { readonly refused: PathRefusal };

interface UriParts {
  /** Scheme and authority, the same for two URIs on one file system. */
  readonly home: string;
  /** What stands before the path. */
  readonly before: string;
  /** The steps of the path as they are written, and decoded. */
  readonly written: readonly string[];
  readonly steps: readonly string[];
}

/** The policy for who knows files by URIs: `open` are the URIs of the open folders. */
export function pictureUri(written: string, caseFile: string, open: readonly string[]): PictureUri {
  return uriBy(picturePlace, written, caseFile, open);
}

/** The same of another case file that a case names. */
export function caseUri(written: string, caseFile: string, open: readonly string[]): PictureUri {
  return uriBy(casePlace, written, caseFile, open);
}

type PathPolicy = (written: string, folder: string, roots: readonly string[]) => FilePlace;

function uriBy(policy: PathPolicy, written: string, caseFile: string, open: readonly string[]): PictureUri {
  const own = partsOf(caseFile);
  if (!own || own.steps.length === 0) return { refused: 'unsaved case' };
  const folder = own.steps.slice(0, -1);
  const alike = open.flatMap((uri) => {
    const parts = partsOf(uri);
    return parts?.home === own.home ? [{ uri, path: pathOf(parts.steps) }] : [];
  });
  const roots = pictureRoots(
    pathOf(folder),
    alike.map(({ path }) => path),
  );
  const place = policy(written, pathOf(folder), roots);
  if ('refused' in place) return place;
  const steps = place.path.split('/').slice(1);
  let kept = 0;
  while (kept < folder.length && folder[kept] === steps[kept]) kept += 1;
  const uriOf = (path: readonly string[]): string => `${own.before}/${path.join('/')}`;
  const beside = own.written.slice(0, folder.length);
  return {
    // The client's own writing of its folder, as far as it goes.
    uri: uriOf([...beside.slice(0, kept), ...steps.slice(kept).map(encodeURIComponent)]),
    roots: roots.map((root) => alike.find(({ path }) => path === root)?.uri ?? uriOf(beside)),
  };
}

/** Null for what is no place of a file, as a text that was never saved. */
function partsOf(uri: string): UriParts | null {
  const found = /^(([a-z][a-z0-9+.-]*):(?:\/\/([^/?#]*))?)(\/[^?#]*)/i.exec(uri);
  if (!found || found[2]?.toLowerCase() === 'untitled') return null;
  const [, before = '', scheme = '', authority = '', path = ''] = found;
  const written = path.split('/').filter((step) => step !== '');
  const steps = written.map(decoded);
  if (steps.some((step) => step === null || step === '..' || step === '.' || step.includes('/'))) return null;
  return { home: `${scheme.toLowerCase()}://${authority.toLowerCase()}`, before, written, steps: steps.map(oneDrive) };
}

const pathOf = (steps: readonly string[]): string => `/${steps.join('/')}`;

/** Clients write the letter of a drive either way. */
function oneDrive(step: string | null, index: number): string {
  const plain = step ?? '';
  return index === 0 && /^[A-Z]:$/.test(plain) ? plain.toLowerCase() : plain;
}

function decoded(step: string): string | null {
  try {
    return decodeURIComponent(step);
  } catch {
    return null;
  }
}
