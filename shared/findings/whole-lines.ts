import type { Edit, Fix } from '../notation/problems.ts';

/** The fixes with each edit that means a whole line widened to it. */
export function widened(fixes: readonly Fix[], text: string): readonly Fix[] {
  if (!fixes.some(({ edits }) => edits.some((edit) => edit.wholeLine))) return fixes;
  return fixes.map((fix) => ({
    ...fix,
    edits: fix.edits.map((edit) => (edit.wholeLine ? wholeLine(edit, text) : edit)),
  }));
}

function wholeLine({ start, end, text: instead }: Edit, text: string): Edit {
  // Walked: to look for a CR is to look through all that stands before where there is none.
  let before = start;
  while (before > 0 && !/[\r\n]/.test(text.charAt(before - 1))) before--;
  const after = /\r\n|\n|\r/g;
  after.lastIndex = end;
  const ending = after.exec(text);
  return { start: before, end: ending ? ending.index + ending[0].length : text.length, text: instead };
}
