import { sheets } from '../server/features/sheets.ts';
import { inspect, type Inspection } from '../shared/findings/inspect.ts';
import type { FoundKey } from '../shared/views/lesson-sheet.ts';
import type { FilmLook } from '../shared/views/film-choice.ts';
import type { Wants } from '../src/messages/course-messages.ts';
import type { SheetsMessage } from '../src/messages/messages.ts';

/** What the page is told of a case, made as the server makes it. */

/** Nothing was chosen, and no cursor leads anywhere. */
export const noLook: FilmLook = { film: null, line: null, moved: false, over: null };

/** The look of a page that has said what it wants. */
export const lookOf = ({ film, over, shown }: Pick<Wants, 'film' | 'over' | 'shown'>): FilmLook => ({
  ...noLook,
  film,
  over,
  ...(shown && { shown }),
});

type Rest = Partial<Omit<SheetsMessage, 'type' | 'sheet' | 'over' | 'films'>>;

/** `rest`: what the extension adds. With a cursor the film is the one there. */
export function sheetsMessage(
  of: string | Inspection,
  rest: Rest = {},
  look: FilmLook = rest.cursor === undefined ? noLook : { ...noLook, line: rest.cursor, moved: true },
  key: FoundKey = null,
): SheetsMessage {
  const inspection = typeof of === 'string' ? inspect(of) : of;
  const { sheets: _all, ...told } = sheets({ version: 1 }, inspection, look, key);
  return {
    ...told,
    type: 'sheets',
    uri: 'file:///case.hoof',
    fileName: 'case.hoof',
    pictures: {},
    cursor: null,
    ...rest,
  };
}
