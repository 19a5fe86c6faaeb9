import { bundledNow, type Output } from '../bundled-now.ts';
// @ts-expect-error -- plain JavaScript
import { outputs } from '../../esbuild.mjs';

let bundle: Promise<string> | undefined;

/** The server as it ships, with what lies beside it. */
export function serverBundle(): Promise<string> {
  bundle ??= bundled();
  return bundle;
}

async function bundled(): Promise<string> {
  const { server: main, headerThread, headers } = outputs as Record<string, Output>;
  const [server] = await Promise.all(
    [main, headerThread, headers].map((output) => output && bundledNow('protocol', output)),
  );
  return server ?? '';
}
