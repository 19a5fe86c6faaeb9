import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { runInThisContext } from 'node:vm';
import { parentPort } from 'node:worker_threads';
import type { DecoderAnswer, DecoderQuestion } from './worker-decoder.ts';

// What runs in the thread that the desktop's decoder and the command line start: the browser's own worker, so that a package holds
// the decoders once. What a worker has and a thread lacks, it is given here.
Object.assign(globalThis, {
  // The decoders ask for Node's modules where they see that they run under Node.
  require,
  __dirname,
  self: {
    addEventListener: (_kind: 'message', hear: (event: { readonly data: DecoderQuestion }) => void) =>
      parentPort?.on('message', (data: DecoderQuestion) => hear({ data })),
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread, not a window
    postMessage: (answer: DecoderAnswer) => parentPort?.postMessage(answer),
  },
});

const worker = join(__dirname, 'picture-decoder.worker.js');
runInThisContext(readFileSync(worker, 'utf8'), { filename: worker });
