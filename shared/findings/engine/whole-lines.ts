import type { Edit, Fix } from '../../notation/problems.ts';
import { endOfLine, indentOf, startOfLine, startWithRemarks } from '../../notation/line-bounds.ts';
import type { Finding } from '../finding.ts';

/** The fixes with every edit of whole lines turned into plain offsets. */
export function widened(fixes: readonly Fix[], text: string): readonly Fix[] {
  if (!fixes.some(hasLines)) return fixes;
  return fixes.map((fix) => ({ ...fix, edits: fix.edits.map((edit) => settled(edit, text)) }));
}

/** The same for the fixes of all findings; the same array where no fix edits whole lines. */
export function withLines(findings: readonly Finding[], text: string): readonly Finding[] {
  if (!findings.some(({ fixes }) => fixes.some(hasLines))) return findings;
  return findings.map((finding) => {
    const fixes = widened(finding.fixes, text);
    return fixes === finding.fixes ? finding : { ...finding, fixes };
  });
}

function hasLines({ edits }: Fix): boolean {
  return edits.some(({ wholeLine, newLine }) => wholeLine !== undefined || newLine !== undefined);
}

function settled(edit: Edit, text: string): Edit {
  if (edit.wholeLine) return wholeLine(edit, text);
  switch (edit.newLine) {
    case 'above':
      return lineAbove(edit, text);
    case 'below':
      return lineBelow(edit, text);
    case undefined:
      return edit;
  }
}

function wholeLine({ start, end, text: instead }: Edit, text: string): Edit {
  const after = /\r\n|\n|\r/g;
  after.lastIndex = end;
  const ending = after.exec(text);
  return {
    start: startOfLine(text, start),
    end: ending ? ending.index + ending[0].length : text.length,
    text: instead,
  };
}

/** Goes in after a remark at the end of the line, as the remark belongs to the line. */
function lineBelow({ end, text: said }: Edit, text: string): Edit {
  const at = endOfLine(text, end);
  return { start: at, end: at, text: `\n${indentOf(text, end)}${said}` };
}

function lineAbove({ start, text: said }: Edit, text: string): Edit {
  const remarks = startWithRemarks(text, start);
  // A byte order mark stays the first character of the file.
  const at = remarks === 0 && text.startsWith('\ufeff') ? 1 : remarks;
  return { start: at, end: at, text: `${indentOf(text, start)}${said}\n` };
}
