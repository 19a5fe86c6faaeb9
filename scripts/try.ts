import { parseArgs } from 'node:util';
import { startCodeServer } from '../tests/host/code-server.ts';
import { describe } from '../tests/host/failure.ts';
import { installExtension } from '../tests/host/install-extension.ts';
import { onInterrupt } from '../tests/host/leftovers.ts';
import { setUpHost } from '../tests/host/setup.ts';
import { SUBJECT_OPTIONS, copyOfExamples, scratchFolder, underTest } from '../tests/host/under-test.ts';

const { values } = parseArgs({ options: { ...SUBJECT_OPTIONS, port: { type: 'string' } } });

try {
  const subject = underTest(values);
  const host = await setUpHost();
  const workspace = copyOfExamples(subject.examples, scratchFolder('try'));
  const interrupted = new Promise<void>((resolve) => onInterrupt(() => resolve()));
  const server = await startCodeServer(host, {
    fillExtensions: (folder) => installExtension(subject, folder),
    settings: { 'ungula.preview.opensWithCase': true },
    ...(values.port === undefined ? {} : { port: Number(values.port) }),
  });
  const address = exampleAt(server, workspace);
  console.log(`
An editor (code-server, VS Code ${host.vscodeVersion}) with Ungula and a copy of the examples:

    ${address}

  1. Open that address in a browser on this machine: a worked example, Juniper, with its preview beside the text.
  2. Rest the mouse on a word to read what it means; move the cursor to a plan, and it is laid over the foot.
  3. Move a landmark, in the text or by "Place landmarks" above the film: the numbers follow.
  4. Ctrl+Shift+M lists what was found. The other examples are on the left.

The copy is thrown away at the end; nothing you type changes the examples. It can be reached from this machine only.
Ctrl+C here stops it.`);
  const how = await Promise.race([interrupted.then(() => 'asked'), server.ended.then(() => 'by itself')]);
  const log = server.log();
  await server.stop();
  if (how !== 'asked') {
    console.error(`The editor ended by itself. The end of its log:\n${log.split('\n').slice(-15).join('\n')}`);
    process.exit(1);
  }
  console.log('\nStopped; the copy of the examples is gone.');
  process.exit(0);
} catch (error) {
  console.error(describe(error));
  process.exit(1);
}

/** The workbench with the folder, and one case of it opened. */
function exampleAt({ url, port }: { readonly url: string; readonly port: number }, workspace: string): string {
  const file = `vscode-remote://127.0.0.1:${port}${workspace}/juniper.hoof`;
  const opened = JSON.stringify([['openFile', file]]);
  return `${url}/?folder=${encodeURIComponent(workspace)}&payload=${encodeURIComponent(opened)}`;
}
