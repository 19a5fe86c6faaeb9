import { afterEach, expect } from 'vitest';
import type { WorkspaceDiagnosticReport } from 'vscode-languageserver';
import { CaseFolder } from './case-folder.ts';
import { LanguageClient, wholeWorkspace, type ClientOptions } from './language-client.ts';

const left: (() => unknown)[] = [];
afterEach(async () => {
  for (const end of left.splice(0).reverse()) await end();
});

/** A folder for the length of the test. */
export function folderOf(files: Readonly<Record<string, string | Uint8Array>> = {}): CaseFolder {
  const folder = new CaseFolder(files);
  left.push(() => folder.remove());
  return folder;
}

/** A client with these folders open, for the length of the test; its server has to end well. */
export async function clientIn(folders: readonly CaseFolder[], more: ClientOptions = {}): Promise<LanguageClient> {
  const client = await LanguageClient.start({
    capabilities: wholeWorkspace,
    folders: folders.map(({ uri }) => uri),
    ...more,
  });
  left.push(async () => expect(await client.stop()).toBe(0));
  return client;
}

export async function pulled(client: LanguageClient, previousResultIds: { uri: string; value: string }[] = []) {
  return (await client.request<WorkspaceDiagnosticReport>('workspace/diagnostic', { previousResultIds })).items;
}

export function changed(client: LanguageClient, ...events: [uri: string, type: 1 | 2 | 3][]): void {
  client.notify('workspace/didChangeWatchedFiles', { changes: events.map(([uri, type]) => ({ uri, type })) });
}
