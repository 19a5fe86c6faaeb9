import type { Inspection } from '../findings/inspect.ts';
import { alarmsOf, type AlarmNote } from '../views/alarms.ts';
import type { AlarmsJson } from './json-shapes.ts';

/** The open alarms of a case for other programs; lines count from 1. */
export function alarmsJson(inspection: Pick<Inspection, 'study' | 'tree'>): AlarmsJson {
  return alarmsOf(inspection).map(({ date, line, severity, code, message }) => ({
    date,
    line: line + 1,
    severity,
    code,
    message,
  }));
}

/** The same as lines of text, to stand first: `case.hoof:22: Call the vet today: …`. */
export function alarmLines(file: string, alarms: readonly AlarmNote[]): string[] {
  return alarms.map(({ line, message }) => `${file}:${line + 1}: ${message}`);
}
