import type { ListFolder } from '../serving/files.ts';
import { childOf } from './file-key.ts';

/** How much is looked at, so that a home folder opened by mistake does not keep the machine busy for long. */
export const bounds = { files: 20_000, folders: 20_000, depth: 24 } as const;

export interface WalkedFile {
  readonly uri: string;
  /** Bytes; null where the listing does not say. */
  readonly size: number | null;
}

interface Walk {
  readonly list: ListFolder;
  readonly stopped: () => boolean;
  /** Takes a file; false where no more are wanted. */
  readonly found: (file: WalkedFile) => boolean;
}

/** How a walk ended: everything seen, more there than is looked at, or the folder itself not readable. */
export type WalkEnd = 'whole' | 'too much' | 'unreadable';

/** Finds the case files below a folder, those nearest first. What is hidden or installed is passed over, links not followed. */
export async function walk(root: string, { list, stopped, found }: Walk): Promise<WalkEnd> {
  let level = [root];
  let folders = 0;
  for (let depth = 0; level.length > 0; depth++) {
    if (depth > bounds.depth) return 'too much';
    const below: string[] = [];
    for (const folder of level) {
      if (stopped()) return 'whole';
      if ((folders += 1) > bounds.folders) return 'too much';
      const entries = await list(folder).catch(() => null);
      if (!entries && folder === root) return 'unreadable';
      for (const { name, kind, size } of entries ?? []) {
        if (isPassedOver(name)) continue;
        if (kind === 'folder') below.push(childOf(folder, name));
        else if (name.endsWith('.hoof') && !found({ uri: childOf(folder, name), size })) return 'too much';
      }
    }
    level = below;
  }
  return 'whole';
}

/** Whether a folder or file of this name is not looked into; `._` and the name of a file is what macOS lays beside it. */
export function isPassedOver(name: string): boolean {
  return name.startsWith('.') || name === 'node_modules';
}
