import { inspect, type InspectSettings, type Inspection } from '../../shared/findings/inspect.ts';
import { usualStudy } from '../../shared/trim/study.ts';
import type { CaseFile } from './case-files.ts';

/** A case file inspected, with what the pictures that it names say of their scale, where they were read (`withScales`). */
export function inspected({ text, scales }: CaseFile, settings: InspectSettings = usualStudy): Inspection {
  return inspect(text, settings, undefined, scales);
}
