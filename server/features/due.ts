import type { CancellationToken } from 'vscode-languageserver';
import type { DueOfCase, DueResult } from '../../shared/protocol/due.ts';
import { isDue, urgency } from '../../shared/views/due.ts';
import { isWithheld } from '../../shared/findings/withheld.ts';
import type { ShownLessons } from '../serving/shown-lessons.ts';
import type { Workspace } from '../workspace/workspace.ts';

/**
 * What waits today in all case files of the open folders: an open one as its text is, the others as they are on the disk. Of a lesson
 * whose key is not shown, no alarm that rests on places.
 */
export async function due(
  workspace: Workspace,
  lessons: Pick<ShownLessons, 'isShown'>,
  token: CancellationToken,
): Promise<DueResult> {
  await workspace.index.settled(token);
  const { today } = workspace;
  // What was worked out on another day says how many days a visit is late on that day.
  if ([...workspace.cases()].some(({ entry }) => entry.due.today !== null && entry.due.today !== today)) {
    workspace.index.again();
    await workspace.index.settled(token);
  }
  let looked = 0;
  let unread = 0;
  const cases: DueOfCase[] = [];
  for (const { key, uri, entry } of workspace.cases()) {
    looked++;
    if (entry.due.today === null) unread++;
    const { name, items } = entry.due;
    const keepsBack = entry.isLesson && !lessons.isShown(uri);
    const alarms = entry.due.alarms.filter((alarm) => !keepsBack || !isWithheld(alarm));
    if (isDue({ name, alarms, items })) cases.push({ uri, file: workspace.index.called(key), name, alarms, items });
  }
  const isWhole = workspace.index.lack === null;
  return { looked, unread, isWhole, cases: cases.toSorted((a, b) => urgency(b) - urgency(a)) };
}
