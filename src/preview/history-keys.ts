/** Which way through its changes a key asks the editor to go; null where it asks for none. */
export function historyKey({ key, ctrlKey, metaKey, altKey, shiftKey }: KeyboardEvent): 'undo' | 'redo' | null {
  if (!(ctrlKey || metaKey) || altKey) return null;
  const letter = key.toLowerCase();
  return letter === 'z' ? (shiftKey ? 'redo' : 'undo') : letter === 'y' ? 'redo' : null;
}
