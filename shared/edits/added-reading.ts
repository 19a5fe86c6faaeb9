import type { Film, Placing } from '../record/schema.ts';
import { landmarkColumn, padded } from '../notation/format.ts';
import type { Edit } from '../notation/problems.ts';
import type { PlacedBlock } from '../notation/tree.ts';
import { lastLineOf } from './film-notation.ts';
import { quoted } from './quoted.ts';

/** A reading put behind all that stands in a film, as the formatter would lay it out. `visit` is the block that the film stands in. */
export function addedReading(
  { start, block }: PlacedBlock,
  film: Film,
  reader: string,
  placings: readonly Pick<Placing, 'name' | 'x' | 'y' | 'spread' | 'followed'>[],
  lineEnd: string,
): Edit {
  const lines = [
    `    read ${quoted(reader)}`,
    ...placings.map(({ name, x, y, spread, followed }) => {
      const place = `${padded(String(x))}, ${padded(String(y))}`;
      const behind = `${spread === null ? '' : ` +- ${spread}`}${followed ? ' followed' : ''}`;
      return `      ${`${name} `.padEnd(landmarkColumn)}@ ${place}${behind}`;
    }),
  ];
  const at = start + (lastLineOf(block, film.at.end)?.end ?? film.at.end);
  const text = lines.join(lineEnd);
  // The last line of a file may have no end of its own.
  const isOpen = !/[\r\n]$/.test(block.text.slice(0, at - start));
  return { start: at, end: at, text: isOpen ? `${lineEnd}${text}` : `${text}${lineEnd}` };
}
