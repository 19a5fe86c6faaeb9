import { findingsWithin, type Inspection } from '../../findings/inspect.ts';
import { list } from '../../findings/wording/wording.ts';
import { counted } from '../../language/words.ts';
import type { StudiedFilm } from '../../trim/study.ts';
import { note } from '../../views/film-sheet.ts';
import { unreadLines } from '../../views/unread-lines.ts';
import { LineMap } from '../../notation/line-map.ts';

/** What whoever reads numbers of a film has to know of them: errors that are told of the film, and lines that could not be read. */
export function doubtsOf(inspection: Inspection, { film, visit }: StudiedFilm): string[] {
  const map = new LineMap(inspection.tree.text);
  const [start, end] = [visit.start + film.at.start, visit.start + film.at.end];
  const errors = findingsWithin(inspection.findings, start, end)
    .filter(({ severity }) => severity === 'error')
    .map((finding) => note(finding, map).message);
  const lines = unreadLines(inspection);
  const unread =
    lines.length === 0
      ? []
      : [
          counted(
            lines.length,
            'Line {1} of the case could not be read as it stands.',
            'Lines {1} of the case could not be read as they stand.',
            list(lines.map(String)),
          ),
        ];
  return [...errors, ...unread];
}
