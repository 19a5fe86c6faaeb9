import { readFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { dirname, isAbsolute, relative, resolve } from 'node:path';
import type { StoredScale } from '../../shared/measures/take.ts';
import { storedScaleInMemory } from '../../shared/picture/stored-scale.ts';
import type { ReportPicture } from '../../shared/report/page.ts';
import type { StoredScales } from '../../shared/trim/study.ts';

const absent = (path: string): string => `The picture ${path} is not there.`;

/** What the pictures beside a case file say of their scale; each is read once. */
export function scalesBeside(caseFile: string): StoredScales {
  const known = new Map<string, StoredScale>();
  return (path) => {
    const found = known.get(path) ?? readScale(caseFile, path);
    known.set(path, found);
    return found;
  };
}

function readScale(caseFile: string, path: string): StoredScale {
  const place = placeOf(caseFile, path);
  if (place === null) return { lack: outside(path) };
  try {
    return storedScaleInMemory(readFileSync(place), path);
  } catch {
    return { lack: absent(path) };
  }
}

/** The picture as data for a page. */
export async function pictureFor(caseFile: string, path: string): Promise<ReportPicture> {
  const place = placeOf(caseFile, path);
  if (place === null) return { lack: outside(path) };
  let bytes: Uint8Array;
  try {
    bytes = await readFile(place);
  } catch {
    return { lack: absent(path) };
  }
  const { showable } = await import('../../shared/picture/shown-picture.ts');
  const shown = await showable(bytes);
  if ('problem' in shown) return { lack: `The picture ${path} cannot be shown: ${shown.problem}` };
  const { mime, width, height } = shown;
  return { href: `data:${mime};base64,${Buffer.from(shown.bytes).toString('base64')}`, width, height };
}

const outside = (path: string): string =>
  `The picture ${path} lies outside the folder of the case file and was left out.`;

/** Only pictures below the case file's folder are read: a report is passed on, a disk is not. */
function placeOf(caseFile: string, path: string): string | null {
  const folder = caseFile === '-' ? process.cwd() : dirname(resolve(caseFile));
  const from = relative(folder, resolve(folder, path));
  return isAbsolute(path) || isAbsolute(from) || from.startsWith('..') ? null : resolve(folder, path);
}
