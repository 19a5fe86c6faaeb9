/**
 * One name for a file, however its URI is written: clients differ in what they encode and in the case of a drive letter.
 * Only for telling files apart; what is said to a client is a URI.
 */
export function keyOf(uri: string): string {
  const found = /^([a-z][a-z0-9+.-]*):(?:\/\/([^/?#]*))?([^?#]*)/i.exec(uri);
  if (!found) return uri;
  const [, scheme = '', authority = '', path = ''] = found;
  const plain = path.split('/').map(decoded).join('/').replace(/\/+$/, '');
  return `${scheme.toLowerCase()}://${authority.toLowerCase()}${plain.replace(/^\/[A-Z]:/, (drive) => drive.toLowerCase())}`;
}

/** Whether a file or folder is the other or lies in it; both keys. */
export function isWithin(key: string, folder: string): boolean {
  return key === folder || key.startsWith(`${folder}/`);
}

export function childOf(folder: string, name: string): string {
  const written = encodeURIComponent(name).replace(
    /[!'()*]/g,
    (sign) => `%${sign.charCodeAt(0).toString(16).toUpperCase()}`,
  );
  return `${folder.replace(/\/+$/, '')}/${written}`;
}

/** The folder that a file lies in, and the file's name in it. */
export function parentOf(uri: string): { folder: string; name: string } {
  const at = uri.replace(/\/+$/, '').lastIndexOf('/');
  return { folder: uri.slice(0, at), name: decoded(uri.slice(at + 1).replace(/\/+$/, '')) };
}

function decoded(step: string): string {
  try {
    return decodeURIComponent(step);
  } catch {
    return step;
  }
}
