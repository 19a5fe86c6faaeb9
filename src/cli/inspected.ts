import { inspect, type InspectSettings, type Inspection } from '../../shared/findings/inspect.ts';
import { BlockMemory, parse } from '../../shared/notation/parse.ts';
import type { Tree } from '../../shared/notation/tree.ts';
import { assemble } from '../../shared/record/assemble.ts';
import { studyCase, type Study, type StudySettings } from '../../shared/trim/study.ts';
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

/** The same without its findings, for a command that tells none of them: they take most of the time. */
export async function studied(
  file: CaseFile,
  settings: StudySettings,
  root: readonly string[],
): Promise<{ readonly tree: Tree; readonly study: Study }> {
  const memory = new BlockMemory();
  const { scales, isMissing } = await picturesFor(file, root, memory);
  const tree = parse(file.text, memory);
  return { tree, study: studyCase(assemble(tree).record, settings, scales, isMissing) };
}
