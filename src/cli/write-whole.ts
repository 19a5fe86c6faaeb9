import { mkdir, rename, rm, writeFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';

/** Writes beside the file and renames, so that no reader and no crash ever sees half of it. */
export async function writeWhole(path: string, text: string): Promise<void> {
  const folder = dirname(path);
  await mkdir(folder, { recursive: true });
  const beside = join(folder, `.${basename(path)}.${process.pid}.part`);
  try {
    await writeFile(beside, text);
    await rename(beside, path);
  } catch (error) {
    await rm(beside, { force: true });
    throw error;
  }
}
