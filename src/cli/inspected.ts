import { inspect, type Inspection } from '../../shared/findings/inspect.ts';
import { usualStudy, type StudySettings } from '../../shared/trim/study.ts';
import type { CaseFile } from './case-files.ts';
import { scalesBeside } from './picture-files.ts';

/** A case file inspected, with what the pictures beside it say of their scale. */
export function inspected({ name, text }: CaseFile, settings: StudySettings = usualStudy): Inspection {
  return inspect(text, settings, undefined, scalesBeside(name));
}
