import { t } from '../../shared/language/words.ts';
import { readLevels, type SeverityLevels } from '../../shared/findings/engine/severity-levels.ts';
import { Unusable, type Io, type OptionValue } from './command.ts';

export const severityOption = { type: 'string', multiple: true } as const;

/** The levels that `--severity CODE=LEVEL` asks for. What cannot be had in full is said, once. */
export function levelsFrom(given: OptionValue, io: Io): SeverityLevels {
  const pairs = (Array.isArray(given) ? (given as readonly string[]) : []).map((written) => {
    const at = written.lastIndexOf('=');
    if (at <= 0) throw new Unusable(t('--severity takes CODE=LEVEL, such as trim/film-age=off; not {0}', written));
    return [written.slice(0, at), written.slice(at + 1)] as const;
  });
  const { levels, unknown, kept } = readLevels(pairs);
  if (unknown.length > 0) throw new Unusable(t('--severity: {0}', unknown.join(' ')));
  for (const sentence of kept) io.err(sentence);
  return levels;
}
