import { isKnown } from './figures.ts';
import { languageInUse } from './words.ts';

let formatter: { readonly language: string; readonly format: Intl.DateTimeFormat } | null = null;

/**
 * A date as it is written beside a drawing or in a table: `04.03.2026` in German, as the notation has it in English. What is no
 * whole date stays as it stands.
 */
export function shownDate(date: string): string {
  const language = languageInUse();
  if (language === 'en' || !/^\d{4}-\d{2}-\d{2}$/.test(date) || !isKnown(language)) return date;
  const day = Date.parse(`${date}T00:00:00Z`);
  if (Number.isNaN(day)) return date;
  formatter =
    formatter?.language === language
      ? formatter
      : {
          language,
          format: new Intl.DateTimeFormat(language, {
            year: 'numeric',
            month: '2-digit',
            day: '2-digit',
            timeZone: 'UTC',
          }),
        };
  return formatter.format.format(day);
}
