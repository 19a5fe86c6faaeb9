import { inspect, type InspectSettings, type Inspection } from '../../shared/findings/inspect.ts';
import type { CaseFile } from './case-files.ts';
import { scalesFor } from './picture-files.ts';

/** A case file inspected, with what the pictures that it names say of their scale. `root` as from `rootFrom`. */
export async function inspected(
  file: CaseFile,
  settings: InspectSettings,
  root: readonly string[],
): Promise<Inspection> {
  return inspect(file.text, settings, undefined, await scalesFor(file, root));
}
