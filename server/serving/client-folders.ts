import { isObject } from './params.ts';

/** The open folders, whatever the client sends: entries without a `uri` of type string are left out. */

/** The URIs of a list of folders; malformed entries are logged. */
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

/** The URIs of the folders open at the start; for an older client that of its one root. */
export function foldersOf(params: unknown, log: (line: string) => void): string[] {
  if (!isObject(params)) return [];
  const uris = urisOf(params['workspaceFolders'], log);
  const root = params['rootUri'];
  if (uris.length > 0 || root === undefined || root === null) return uris;
  return urisOf([{ uri: root }], log);
}
