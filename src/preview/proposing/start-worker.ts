import type { ProposingWorker } from './proposing-messages.ts';

/** An editor lets its page load a worker by no address of its own, only from what the page has read itself. */
export async function startProposing(): Promise<ProposingWorker> {
  const script = await fetched(new URL('./proposals.worker.js', import.meta.url).href);
  const address = URL.createObjectURL(new Blob([await script.arrayBuffer()], { type: 'text/javascript' }));
  try {
    return new Worker(address);
  } finally {
    // The worker reads it later, but within this moment of the page.
    setTimeout(() => URL.revokeObjectURL(address), 10_000);
  }
}

/** A file of the page's own places. Rejects where it cannot be had. */
export async function fetched(href: string): Promise<Blob> {
  const answer = await fetch(href);
  if (!answer.ok) throw new Error(`${answer.status}`);
  return answer.blob();
}
