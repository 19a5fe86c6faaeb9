import { marked } from '../../../shared/language/figures.ts';
import { t } from '../../../shared/language/words.ts';
import { spoken } from '../../../shared/language/rows.ts';
import type { Inspection } from '../../../shared/findings/inspect.ts';
import { filmSheets, type FilmSheet, type MeasureRow } from '../../../shared/views/film-sheet.ts';
import type { StudiedFilm } from '../../../shared/trim/study.ts';
import { paragraphs, plain, table } from './markdown.ts';

const states: Readonly<Record<MeasureRow['state'], string>> = spoken({
  within: '',
  low: 'low',
  high: 'high',
  act: 'act',
  unsure: 'near the limit',
  none: '',
});

/** Every reading of a film with the values that have a usual range. */
export function describeFilm(film: StudiedFilm, inspection: Inspection): string {
  return paragraphs(...filmSheets(inspection, (one) => one === film).map(reading));
}

function reading(sheet: FilmSheet): string {
  const ranged = sheet.rows.filter((row) => row.usual);
  const rows = ranged.length > 0 ? ranged : sheet.rows.slice(0, 8);
  const more = sheet.rows.length - rows.length;
  return paragraphs(
    `**${plain(sheet.title)}**`,
    sheet.scale === null
      ? t('No scale: angles and ratios only.')
      : t('Scale {0} mm/px', marked(sheet.scale.toPrecision(3))),
    rows.length > 0
      ? table(
          [t('measure'), t('value'), t('usual'), ''],
          rows.map(({ words, text, usualText, state }) => [words, text, usualText, states[state]]),
        )
      : t('Nothing is measured yet.'),
    more > 0 && t('and {0} more', more),
  );
}
