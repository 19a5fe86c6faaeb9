import { inspect, type InspectSettings, type Inspection } from '../../shared/findings/inspect.ts';
import { BlockMemory } from '../../shared/notation/parse.ts';
import type { CaseFile } from './case-files.ts';
import { keysFor } from './key-files.ts';
import { picturesFor } from './picture-files.ts';

/** A case file inspected, with what the pictures that it names say of their scale, and which of them are not there. `root` as from `rootFrom`. */
export async function inspected(
  file: CaseFile,
  settings: InspectSettings,
  root: readonly string[],
): Promise<Inspection> {
  const memory = new BlockMemory();
  const [{ scales, isMissing }, keys] = await Promise.all([
    picturesFor(file, root, memory),
    keysFor(file, root, memory),
  ]);
  return inspect(file.text, settings, memory, scales, isMissing, keys);
}
