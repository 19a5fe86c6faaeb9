import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { usePlainFile } from '../../disk/plain-file.ts';
import { largestFile } from '../../shared/findings/engine/file-problems.ts';
import { filmsSeen, type KeyFiles } from '../../shared/lessons/key-seen.ts';
import { parse, type BlockMemory } from '../../shared/notation/parse.ts';
import type { Refusal } from '../../shared/picture/picture-files.ts';
import { caseUri } from '../../shared/picture/picture-uri.ts';
import { assemble } from '../../shared/record/assemble.ts';
import { decodedCase, type CaseFile } from './case-files.ts';
import { uriOfCase, uriOfFolder } from './picture-files.ts';

/** The file that a lesson names as its key, by the policy of all files that a case names; or why it is not read. */
export async function keyFileOf(
  { name }: Pick<CaseFile, 'name'>,
  path: string,
  root: readonly string[],
): Promise<CaseFile | { readonly refused: Refusal }> {
  const place = caseUri(path, uriOfCase(name), root.map(uriOfFolder));
  if ('refused' in place) return place;
  const real = fileURLToPath(place.uri);
  try {
    const roots = place.roots.map((uri) => fileURLToPath(uri));
    const looked = await usePlainFile(real, roots, largestFile, (file) => file.read(0, file.size));
    if ('refused' in looked) return looked;
    return { name: join(dirname(name), path), text: decodedCase(looked.found), real };
  } catch {
    return { refused: 'unreadable' };
  }
}

/** What is known of the key of a lesson before the lesson is inspected: inspecting waits for nothing. */
export async function keysFor(
  file: Pick<CaseFile, 'name' | 'text'>,
  root: readonly string[],
  memory: BlockMemory,
): Promise<KeyFiles> {
  const path = assemble(parse(file.text, memory)).record.animal?.is.key?.file?.text;
  if (path === undefined) return () => null;
  const found = await keyFileOf(file, path, root);
  const seen = 'refused' in found ? found : { films: filmsSeen(assemble(parse(found.text)).record) };
  return () => seen;
}
