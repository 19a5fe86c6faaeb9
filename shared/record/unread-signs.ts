import type { Line, Statement } from '../notation/tree.ts';
import { signs } from '../notation/vocabulary.ts';
import type { Visit } from './schema.ts';

/**
 * The signs in a line of signs that is otherwise not understood: `sign fever, recumbent`, `sign: fever`, `signs fever`. Somebody
 * has seen them, and a slip must not silence a call to the vet.
 */
export function unreadSigns({ head }: Statement, line: Line | undefined): Visit['signs'] {
  if (!/^signs?:?$/i.test(head.image) || !line) return [];
  const known: ReadonlySet<string> = new Set(signs);
  return line.items.flatMap((item) =>
    'image' in item
      ? item.image
          .toLowerCase()
          .split(/[^a-z-]+/)
          .filter((word) => known.has(word))
          .map((word) => ({ word, at: { start: item.start, end: item.end } }))
      : [],
  );
}
