import { counted } from '../language/words.ts';
import type { Inspection } from '../findings/inspect.ts';
import { openAlarms } from '../findings/open-alarms.ts';
import { isWithheld } from '../findings/withheld.ts';
import { list } from '../findings/wording/wording.ts';
import { LineMap } from '../notation/line-map.ts';
import type { Note } from './film-sheet.ts';
import { withPlainNames } from './plain-names.ts';

/** An alarm that is open, as every face shows it before what it plans or hands over. */
export interface AlarmNote extends Pick<Note, 'code' | 'message' | 'line'> {
  readonly severity: 'error' | 'warning';
  /** Of its visit, as written. */
  readonly date: string | null;
}

/** The gravest first. `keepsBack`: of a lesson only those that rest on no place, such as signs for the vet. */
export function alarmsOf({ study, tree }: Pick<Inspection, 'study' | 'tree'>, keepsBack = false): AlarmNote[] {
  const alarms = openAlarms(study).filter((alarm) => !keepsBack || !isWithheld(alarm));
  if (alarms.length === 0) return [];
  const map = new LineMap(tree.text);
  return alarms.map(({ at, ...alarm }) => ({
    ...alarm,
    message: withPlainNames(alarm.message),
    line: map.at(at.start).line,
  }));
}

/** `an alarm is open, line 22`; empty where none is. */
export function alarmsOpen(alarms: readonly AlarmNote[]): string {
  const lines = [...new Set(alarms.map(({ line }) => line + 1))].sort((a, b) => a - b);
  if (lines.length === 0) return '';
  const where = counted(lines.length, 'line {1}', 'lines {1}', list(lines.map(String)));
  return counted(alarms.length, 'an alarm is open, {1}', '{0} alarms are open, {1}', where);
}
