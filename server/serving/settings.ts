import { DidChangeConfigurationNotification, type Connection } from 'vscode-languageserver';
import { spreadRanges, usualSpread } from '../../shared/measures/film-input.ts';
import type { WordTable } from '../../shared/language/words.ts';
import { outside } from '../../shared/notation/in-range.ts';
import type { Range } from '../../shared/notation/signature.ts';
import type { InspectSettings } from '../../shared/findings/inspect.ts';
import { readPast, usualPast } from '../../shared/findings/engine/past.ts';
import { noLevels, type SeverityLevels } from '../../shared/findings/engine/severity-levels.ts';
import { changeRanges, usualChange, type ChangeSettings } from '../../shared/trim/change-settings.ts';
import { trimRanges, usualTrim, type TrimSettings } from '../../shared/trim/trim-settings.ts';
import type { ClientAbilities } from './client-abilities.ts';
import { described } from './guard.ts';
import { readSeverity } from './severity-setting.ts';

const section = 'ungula';

/** The same object where nothing changes, as measured visits are remembered by it. */
export function readSettings(value: unknown, before: InspectSettings): InspectSettings {
  const mm = spread(value, 'mm') ?? usualSpread.mm;
  const px = spread(value, 'px') ?? usualSpread.px;
  const trim = readNumbers<keyof TrimSettings>(property(value, 'trim'), before.trim, usualTrim, trimRanges);
  const change = readNumbers<keyof ChangeSettings>(property(value, 'change'), before.change, usualChange, changeRanges);
  const placing = mm === before.spread.mm && px === before.spread.px ? before.spread : { mm, px };
  const levels = readLevelsOf(value, before.levels);
  const past = readPast(property(value, 'pastFilms')) ?? usualPast;
  const same =
    trim === before.trim && change === before.change && levels === before.levels && past === (before.past ?? usualPast);
  return placing === before.spread && same ? before : { ...before, spread: placing, trim, change, levels, past };
}

function readLevelsOf(value: unknown, before: SeverityLevels = noLevels): SeverityLevels {
  const { levels } = readSeverity(value);
  const same = levels.size === before.size && [...levels].every(([code, level]) => before.get(code) === level);
  return same ? before : levels;
}

/** Numbers by name, each above 0; one that is out of its range counts as not set. `before` where none differs. */
function readNumbers<Name extends string>(
  value: unknown,
  before: Readonly<Record<Name, number>>,
  usual: Readonly<Record<Name, number>>,
  ranges: Readonly<Record<Name, Range>>,
): Readonly<Record<Name, number>> {
  const names = Object.keys(usual) as Name[];
  const read = (name: Name): number => {
    const found = property(value, name);
    return typeof found === 'number' && found > 0 && outside(found, ranges[name]) === null ? found : usual[name];
  };
  if (names.every((name) => read(name) === before[name])) return before;
  return Object.fromEntries(names.map((name) => [name, read(name)])) as Record<Name, number>;
}

/** A setting that is out of its range counts as not set. */
function spread(value: unknown, unit: keyof typeof spreadRanges): number | null {
  const found = property(property(value, 'placing'), unit === 'mm' ? 'spreadMm' : 'spreadPx');
  return typeof found === 'number' && outside(found, spreadRanges[unit]) === null ? found : null;
}

/** The files with reference values of one's own that the section names. */
export function referenceFiles(value: unknown): readonly string[] {
  const files = property(property(value, 'reference'), 'files');
  return Array.isArray(files) ? files.filter((name) => typeof name === 'string' && name !== '') : [];
}

/** The table of the client's language; absent where that is English, and where what is given is no table of words. */
export function wordsIn(options: unknown): WordTable | undefined {
  const words = property(options, 'words');
  if (typeof words !== 'object' || words === null) return undefined;
  return Object.fromEntries(Object.entries(words).filter(([, said]) => typeof said === 'string'));
}

/** Whether inlay hints are shown; on by default. */
export function wantsInlayHints(value: unknown): boolean {
  return property(value, 'inlayHints') !== false;
}

function property(value: unknown, name: string): unknown {
  return typeof value === 'object' && value !== null ? (value as Record<string, unknown>)[name] : undefined;
}

/**
 * Hands on each new state of the settings: as the client pushes it, else asked for where it answers such requests.
 * Pushed settings count at once, so that the next request is answered with them.
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
