import type { OwnSpread } from '../agreement/own-spread.ts';
import { decimal } from '../notation/decimal.ts';
import type { Edit } from '../notation/problems.ts';
import { isGroup, type Statement, type Tree } from '../notation/tree.ts';
import type { Study } from '../trim/study.ts';
import { writtenSpread } from './tenth.ts';

/** A `read` line that is to have a spread. */
export interface SpreadLine {
  readonly reader: string;
  /** In the file, from 0. */
  readonly line: number;
  /** What stands there, px; null for nothing. */
  readonly was: number | null;
  /** What is to stand there, px: the spread in mm by the film's scale, to a tenth. */
  readonly px: number;
  /** Offsets in the file; null where it stands there already. */
  readonly edit: Edit | null;
}

/**
 * The `read` lines of these readers with the spread that was found, in the order of the text. Films without a scale are passed over,
 * as are landmarks outside any `read`, which have no line for it.
 */
export function spreadLines(
  { tree, study }: { readonly tree: Tree; readonly study: Pick<Study, 'films'> },
  spreads: readonly Pick<OwnSpread, 'reader' | 'mm'>[],
): readonly SpreadLine[] {
  const mmOf = new Map(spreads.map(({ reader, mm }) => [reader, mm]));
  const headers = new Map(
    tree.blocks.flatMap(({ start, line, block }) =>
      block.entries
        .filter(isGroup)
        .flatMap(({ entries }) => entries.filter(isGroup))
        .map(({ header }) => [start + header.start, { header, start, line }] as const),
    ),
  );
  return study.films
    .flatMap(({ visit, readings }) =>
      readings.flatMap(({ reading: { reader, at }, taking: { scale } }): SpreadLine[] => {
        const mm = reader === null ? undefined : mmOf.get(reader);
        const there = headers.get(visit.start + at.start);
        if (reader === null || mm === undefined || scale === null || !there) return [];
        const { header, start, line } = there;
        const px = writtenSpread(mm / scale);
        const was = spreadIn(header);
        return [
          { reader, line: line + header.line, was, px, edit: was === px ? null : editOf(header, start, `+- ${px}`) },
        ];
      }),
    )
    .sort((one, other) => one.line - other.line);
}

function spreadIn({ args }: Statement): number | null {
  const number = args.item('spread', 1);
  return number?.kind === 'number' ? decimal(number.number.image) : null;
}

function editOf({ args }: Statement, from: number, text: string): Edit | null {
  const [sign, number] = [args.item('spread'), args.item('spread', 1)];
  if (sign && number) return { start: from + sign.start, end: from + number.end, text };
  const name = args.item('reader');
  return name ? { start: from + name.end, end: from + name.end, text: ` ${text}` } : null;
}
