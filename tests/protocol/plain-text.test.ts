import { readFileSync } from 'node:fs';
import type { ClientCapabilities, MarkupContent, SignatureHelp } from 'vscode-languageserver';
import { expect, it } from 'vitest';
import { LanguageClient } from './language-client.ts';
import { cursorIn } from './text-positions.ts';

const juniper = readFileSync(new URL('../../examples/juniper.hoof', import.meta.url), 'utf8');
const marks = /\*\*|```|\n\| ---|\\[*_]/;

/** What a client is shown on a film's header, and beside the first word that is offered in a limit. */
async function shown(capabilities: ClientCapabilities): Promise<Record<string, MarkupContent | undefined>> {
  const client = await LanguageClient.start({ capabilities });
  client.open('file:///a.hoof', juniper);
  const line = juniper.split('\n').findIndex((one) => one.includes('film LF'));
  const hover = await client.hover('file:///a.hoof', { line, character: 3 });
  const marked = cursorIn('hoof 1\n\nlimi¦');
  client.open('file:///b.hoof', marked.text);
  const offered = await client.completion('file:///b.hoof', marked.position);
  const limits = offered.find(({ label }) => label === 'limits');
  const help = cursorIn('hoof 1\n\ncase "X"\n\nlimits\n  heel-height ¦');
  client.open('file:///c.hoof', help.text);
  const signature = await client.about<SignatureHelp>('signatureHelp', 'file:///c.hoof', { position: help.position });
  expect(typeof signature.signatures[0]?.documentation).toBe('string');
  expect(signature.signatures[0]?.documentation).not.toMatch(/[`*]/);
  await client.stop();
  return {
    hover: hover?.contents as MarkupContent | undefined,
    completion: limits?.documentation as MarkupContent | undefined,
  };
}

it('a client that says nothing of it is shown plain text', async () => {
  const { hover, completion } = await shown({});
  expect(hover?.kind).toBe('plaintext');
  expect(hover?.value).toMatch(/\nmeasure +value +usual\n/);
  expect(hover?.value).not.toMatch(marks);
  expect(completion).toMatchObject({ kind: 'plaintext', value: expect.stringContaining('looser ones with because.') });
});

it('of the forms that a client names it is shown the first that there is', async () => {
  const named = (hover: string[], completion: string[]): ClientCapabilities =>
    ({
      textDocument: {
        hover: { contentFormat: hover },
        completion: { completionItem: { documentationFormat: completion } },
      },
    }) as ClientCapabilities;
  const plain = await shown(named(['plaintext', 'markdown'], ['x', 'markdown']));
  expect([plain['hover']?.kind, plain['completion']?.kind]).toEqual(['plaintext', 'markdown']);
  expect(plain['completion']?.value).toContain('```hoof');
  const rich = await shown(named(['markdown', 'plaintext'], ['plaintext']));
  expect([rich['hover']?.kind, rich['completion']?.kind]).toEqual(['markdown', 'plaintext']);
  expect(rich['hover']?.value).toMatch(/\| --- \|/);
});
