/**
 * A path as it is compared: `films/../films/a.png`, `./films/a.png` and `Films/A.PNG` are one. Letters of both cases are the
 * same to most computers, and two pictures that differ by them alone are hardly ever meant. `folder` before it is the case
 * file's, where pictures of several files are compared; a path that climbs above the top keeps its `..`.
 */
export function samePath(written: string, folder = ''): string {
  const parts: string[] = [];
  for (const part of `${folder}/${written.trim()}`.replaceAll('\\', '/').split('/')) {
    if (part === '' || part === '.') continue;
    if (part === '..' && parts.length > 0 && parts.at(-1) !== '..') parts.pop();
    else parts.push(part);
  }
  return parts.join('/').normalize().toLowerCase();
}
