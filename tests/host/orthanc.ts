import { spawn } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { eventually, expectThat } from './checks.ts';
import { disownGroup, ownGroup, signalGroup } from './leftovers.ts';

/** An archive of its own for the time of a test, with an empty store. Whoever is not on this machine is refused. */
export interface Archive {
  /** Of its REST interface, such as `http://127.0.0.1:4711`. */
  readonly url: string;
  /** Where it takes films and reports by DICOM's own protocol. */
  readonly dicomPort: number;
  end(): void;
}

const LIMIT_SECONDS = 30;

/** The name under which a sender is known to it. */
export const SENDER = 'SENDER';

export async function startArchive(program: string, folder: string): Promise<Archive> {
  mkdirSync(folder, { recursive: true });
  const [httpPort, dicomPort] = [await freePort(), await freePort()];
  const settings = join(folder, 'orthanc.json');
  writeFileSync(
    settings,
    JSON.stringify({
      Name: 'test',
      StorageDirectory: join(folder, 'store'),
      IndexDirectory: join(folder, 'store'),
      HttpPort: httpPort,
      DicomPort: dicomPort,
      DicomAet: 'ARCHIVE',
      RemoteAccessAllowed: false,
      AuthenticationEnabled: false,
      // By DICOM's own protocol too it takes from this machine alone.
      DicomAlwaysAllowStore: false,
      DicomCheckModalityHost: true,
      DicomModalities: { sender: [SENDER, '127.0.0.1', 104] },
      Plugins: [],
    }),
  );
  const child = spawn(program, [settings], { cwd: folder, detached: true, stdio: ['ignore', 'pipe', 'pipe'] });
  const group = child.pid;
  if (group !== undefined) ownGroup(group);
  let said = '';
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (data: Buffer) => (said += data.toString()));
  const end = (): void => {
    if (group === undefined) return;
    signalGroup(group, 'SIGKILL');
    disownGroup(group);
  };
  const url = `http://127.0.0.1:${httpPort}`;
  try {
    await eventually(LIMIT_SECONDS, async () => {
      const answer = await fetch(`${url}/system`);
      expectThat(answer.ok, `the archive answers ${answer.status}`);
    });
  } catch (cause) {
    end();
    throw new Error(`Orthanc did not begin; it said: ${said.slice(-2000)}`, { cause });
  }
  return { url, dicomPort, end };
}

async function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.once('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => resolve(typeof address === 'object' && address ? address.port : 0));
    });
  });
}
