import { DidChangeConfigurationNotification, type Connection } from 'vscode-languageserver';
import { usualSpread } from '../shared/measures/take.ts';
import type { StudySettings } from '../shared/trim/study.ts';
import type { ClientAbilities } from './client-abilities.ts';
import { described } from './guard.ts';

const section = 'ungula';

/** The same object where nothing changes: what is measured is remembered by it. */
export function readSettings(value: unknown, before: StudySettings): StudySettings {
  const mm = spread(value, 'spreadMm') ?? usualSpread.mm;
  const px = spread(value, 'spreadPx') ?? usualSpread.px;
  if (mm === before.spread.mm && px === before.spread.px) return before;
  return { ...before, spread: { mm, px } };
}

/** A setting that is no sensible number counts as not set. */
function spread(value: unknown, name: 'spreadMm' | 'spreadPx'): number | null {
  const found = property(property(value, 'placing'), name);
  return typeof found === 'number' && Number.isFinite(found) && found >= 0 ? found : null;
}

function property(value: unknown, name: string): unknown {
  return typeof value === 'object' && value !== null ? (value as Record<string, unknown>)[name] : undefined;
}

/**
 * Hands each state of the section on: as the client pushes it, else asked for where the client answers such questions.
 * What is pushed counts at once, so that a request sent right after it is answered by the new settings.
 */
export function followSettings(connection: Connection, client: ClientAbilities, use: (section: unknown) => void): void {
  const report = (error: unknown) => connection.console.error(`settings: ${described(error)}`);
  const ask = (): void => {
    connection.workspace.getConfiguration(section).then(use).catch(report);
  };
  connection.onDidChangeConfiguration((change) => {
    const pushed = property(change?.settings, section);
    if (pushed === undefined && client.configuration) ask();
    else use(pushed);
  });
  if (client.configurationRegistration)
    connection.client.register(DidChangeConfigurationNotification.type, { section }).catch(report);
  if (client.configuration) ask();
}
