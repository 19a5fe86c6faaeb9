import { changesTo } from '../drawing/course/changes-to.ts';
import type { FootCourseSheet } from '../views/course-sheet.ts';
import { csv } from './csv.ts';

const columns = [
  'file',
  'case',
  'foot',
  'view',
  'measure',
  'unit',
  'date',
  'line',
  'value',
  'sd',
  'since',
  'difference',
  'difference_sd',
  'real',
  'n',
  'slope_per_28_days',
  'slope_low',
  'slope_high',
  'slope_level',
  'slope_films',
  'p',
  'scale_from',
  'scale_doubted',
  'difference_doubted',
  'source',
  'difference_by_shoe',
] as const;

type CsvRow = Readonly<Record<(typeof columns)[number], string | number | boolean | null>>;

/** A row a measure and film, photo or value by hand (`source`); what holds of the whole course stands in each of its rows. */
export function courseCsv(
  cases: readonly { readonly file: string; readonly name: string | null; readonly feet: readonly FootCourseSheet[] }[],
): string {
  return csv(
    columns,
    cases.flatMap(({ file, name, feet }) =>
      feet.flatMap(({ foot, films, rows }) => {
        const filmAt = new Map(films.map((film) => [film.line, film]));
        return rows.flatMap(({ source, view, measure, unit, points, changes, trend }) => {
          const since = changesTo(changes);
          return points.map(({ date, line, value, sd }, index): CsvRow => {
            const change = since.get(index);
            return {
              file,
              case: name,
              foot,
              view,
              measure,
              unit,
              date,
              line: line + 1,
              value,
              sd,
              since: change ? (points[change.from]?.date ?? null) : null,
              difference: change?.difference ?? null,
              difference_sd: change?.sd ?? null,
              real: change?.clear ?? null,
              n: points.length,
              slope_per_28_days: trend?.slope ?? null,
              slope_low: trend?.low ?? null,
              slope_high: trend?.high ?? null,
              slope_level: trend?.level ?? null,
              slope_films: trend?.n ?? null,
              p: trend?.p ?? null,
              scale_from: filmAt.get(line)?.scaleFrom ?? null,
              scale_doubted: filmAt.get(line)?.doubted ?? null,
              difference_doubted: change?.doubted ?? null,
              source,
              difference_by_shoe: change?.byShoe ?? null,
            };
          });
        });
      }),
    ),
  );
}
