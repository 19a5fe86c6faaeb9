import type { CodeAction, WorkspaceEdit } from 'vscode-languageserver';
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { LanguageClient } from './language-client.ts';

const uri = 'file:///plan.hoof';
const juniper = readFileSync(new URL('../../examples/juniper.hoof', import.meta.url), 'utf8');
/** The rotated foot as it was before anything was planned for it, and as it came: lame, with two bounding pulses, unseen by the vet. */
const asItCame = juniper.slice(0, juniper.indexOf('  tape LF'));
/** The same once the vet has been. */
const text = asItCame.replace('  obel       2', '  obel       2\n  vet seen   2026-03-04');
const filmLine = text.split('\n').findIndex((line) => line.includes('film LF'));

let client: LanguageClient;

beforeAll(async () => {
  client = await LanguageClient.start();
  client.open(uri, text);
});

afterAll(async () => {
  await client.stop();
});

async function actionsAt(of: string, line: number, character = 3): Promise<CodeAction[]> {
  const at = { line, character };
  return client.request('textDocument/codeAction', {
    textDocument: { uri: of },
    range: { start: at, end: at },
    context: { diagnostics: [] },
  });
}

function applied(before: string, edit: WorkspaceEdit | undefined): string {
  const changes =
    edit?.documentChanges?.flatMap((change) => ('edits' in change ? change.edits : [])) ??
    Object.values(edit?.changes ?? {}).flat();
  const lines = before.split('\n');
  const offset = ({ line, character }: { line: number; character: number }) =>
    lines.slice(0, line).join('\n').length + (line > 0 ? 1 : 0) + character;
  return changes
    .filter((change) => 'newText' in change)
    .toSorted((a, b) => offset(b.range.start) - offset(a.range.start))
    .reduce(
      (now, { range, newText }) => now.slice(0, offset(range.start)) + newText + now.slice(offset(range.end)),
      before,
    );
}

describe('plans for a film', () => {
  it('are offered on it, and worked out when chosen', async () => {
    const offered = (await actionsAt(uri, filmLine)).filter(({ kind }) => kind === 'refactor.rewrite');
    // Both numbers: what 90 of 100 placings keep, and what even odds would.
    expect(offered.map(({ title }) => title)).toEqual([
      'Plan LF: heel to the live sole plane, 4 mm (7 mm at even odds)',
      // More than on one plane, and under 5°: 105 × tan 5° = 9.2 mm.
      'Plan LF: heel to the live sole plane, on two planes, 9 mm from 105 mm',
      'Plan LF: heel to a palmar angle of 5°, 4 mm (7 mm at even odds)',
      'Plan LF: heel to a palmar angle of 5°, on two planes, 9 mm from 105 mm',
      'Plan LF: heel as much as one visit may take, 4 mm (7 mm at even odds)',
      'Plan LF: heel as much as one visit may take, on two planes, 9 mm from 105 mm',
    ]);
    for (const action of offered) {
      expect(action.edit).toBeUndefined();
      const { edit } = await client.request<CodeAction>('codeAction/resolve', action);
      const planned = inspect(applied(text, edit));
      const [cut] = planned.study.cuts;
      const isBent = action.title.includes('on two planes');
      expect(cut?.size.heelDown, action.title).toBe(isBent ? 9 : 4);
      expect(cut?.size.heelFrom, action.title).toBe(isBent ? 105 : undefined);
      expect(planned.findings.filter(({ code }) => code.startsWith('trim/') || code.startsWith('notation/'))).toEqual(
        [],
      );
    }
  });

  it('one that is edited into an unsafe one is told at its number and mended by one fix', async () => {
    const [sole] = (await actionsAt(uri, filmLine)).filter(({ kind }) => kind === 'refactor.rewrite');
    const { edit } = await client.request<CodeAction>('codeAction/resolve', sole);
    const unsafe = applied(text, edit).replace(/heel {2}down [\d.]+ mm/, 'heel  down 18 mm');
    const line = unsafe.split('\n').findIndex((one) => one.includes('heel  down 18 mm'));
    const other = 'file:///unsafe.hoof';
    client.open(other, unsafe);
    const told = (await client.diagnostics(other)).filter(({ code }) => String(code).startsWith('trim/'));
    expect(told.map(({ code }) => code)).toContain('trim/below-sole-plane');
    expect(told.every(({ range }) => range.start.line === line)).toBe(true);
    const fix = (await actionsAt(other, line, 18)).find(({ title }) => title.includes('the most that breaks no limit'));
    const mended = inspect(applied(unsafe, fix?.edit));
    expect(mended.findings.filter(({ code }) => code.startsWith('trim/'))).toEqual([]);
    expect(mended.study.cuts[0]?.size.heelDown).toBe(4);
  });

  it('give their reason in their place while an alarm is open, and where a landmark is missing an action that opens placing', async () => {
    const capable = await LanguageClient.start({
      capabilities: { textDocument: { codeAction: { disabledSupport: true } } },
      options: { placeLandmark: 'placing.at' },
    });
    const offered = async (of: string): Promise<CodeAction[]> => {
      const at = { line: of.split('\n').findIndex((line) => line.includes('film LF')), character: 3 };
      const name = `file:///reason-${of.length}.hoof`;
      capable.open(name, of);
      const all = await capable.request<CodeAction[]>('textDocument/codeAction', {
        textDocument: { uri: name },
        range: { start: at, end: at },
        context: { diagnostics: [] },
      });
      return all.filter(({ kind }) => kind === 'refactor.rewrite');
    };
    for (const { disabled } of await offered(asItCame))
      expect(disabled?.reason).toContain('An alarm is open, so no cut is written down: ');
    const [place, ...plans] = await offered(text.replace(/ {4}(?:heel|toe)\.ground .*\n/g, ''));
    expect(place?.command).toEqual({
      title: 'Place the heel’s ground contact, which a plan needs',
      command: 'placing.at',
      arguments: [expect.stringMatching(/^file:/), filmLine, 'heel.ground'],
    });
    for (const { disabled } of plans)
      expect(disabled?.reason).toBe(
        'Place the heel’s ground contact and the toe’s ground contact on the film of 3 March 2026.',
      );
    await capable.stop();
  });

  it('leads to what it has written, where the client has a command for that', async () => {
    const leading = await LanguageClient.start({ options: { showLine: 'line.show' } });
    const name = 'file:///shown.hoof';
    leading.open(name, text);
    const at = { line: filmLine, character: 3 };
    const offered = await leading.request<CodeAction[]>('textDocument/codeAction', {
      textDocument: { uri: name },
      range: { start: at, end: at },
      context: { diagnostics: [] },
    });
    const plan = offered.find(({ kind }) => kind === 'refactor.rewrite');
    const { edit, command } = await leading.request<CodeAction>('codeAction/resolve', plan);
    expect(command).toMatchObject({ command: 'line.show', arguments: [name, expect.any(Number)] });
    expect(applied(text, edit).split('\n')[Number(command?.arguments?.[1])]).toBe('  plan LF');
    await leading.stop();
  });

  it('are not offered where there is no scale, and a strange choice is no crash', async () => {
    const bare = 'file:///bare.hoof';
    client.open(bare, text.replace(/ {4}scale.*\n/, ''));
    expect((await actionsAt(bare, filmLine)).filter(({ kind }) => kind === 'refactor.rewrite')).toEqual([]);
    const strange = { title: 'x', data: { plan: { uri, version: 1, film: 99, goal: { kind: 'sole-plane' } } } };
    expect(await client.request('codeAction/resolve', strange)).toEqual(strange);
    expect(await client.request('codeAction/resolve', { title: 'x', data: 7 })).toEqual({ title: 'x', data: 7 });
  });
});
