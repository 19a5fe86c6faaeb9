import { inspect, type InspectSettings, type Inspection } from '../../shared/findings/inspect.ts';
import { usualStudy } from '../../shared/trim/study.ts';
import type { CaseFile } from './case-files.ts';
import { scalesBeside } from './picture-files.ts';

/** A case file inspected, with what the pictures beside it say of their scale. */
export function inspected({ name, text }: CaseFile, settings: InspectSettings = usualStudy): Inspection {
  return inspect(text, settings, undefined, scalesBeside(name));
}
