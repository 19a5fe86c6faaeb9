import { isObject } from './params.ts';

/** The folders that a client says are open, whatever it sends: those whose `uri` is no string are passed over. */

/** URIs of a list of folders; `log` is told of those that are none. */
export function urisOf(folders: unknown, log: (line: string) => void): string[] {
  if (folders === undefined || folders === null) return [];
  if (!Array.isArray(folders)) {
    log('The folders that the client names are no list, and are passed over.');
    return [];
  }
  return (folders as unknown[]).flatMap((folder) => {
    const uri = isObject(folder) ? folder['uri'] : undefined;
    if (typeof uri === 'string' && uri !== '') return [uri];
    log('A folder that the client names has no URI, and is passed over.');
    return [];
  });
}

/** URIs of the folders that are open from the start; of an older client the one root. */
export function foldersOf(params: unknown, log: (line: string) => void): string[] {
  if (!isObject(params)) return [];
  const uris = urisOf(params['workspaceFolders'], log);
  const root = params['rootUri'];
  if (uris.length > 0 || root === undefined || root === null) return uris;
  return urisOf([{ uri: root }], log);
}
