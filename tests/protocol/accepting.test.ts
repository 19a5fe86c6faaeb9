import type { CodeAction, CompletionItem, MarkupContent, TextDocumentEdit, TextEdit } from 'vscode-languageserver';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { format } from '../../shared/notation/format.ts';
import { caseText, filmText } from '../unit/plain-foot.ts';
import { LanguageClient } from './language-client.ts';
import { applied, cursorIn, positionAt, textIn } from './text-positions.ts';

let client: LanguageClient;
let count = 0;
beforeAll(async () => {
  client = await LanguageClient.start({ options: { docs: 'file:///docs/' } });
});
afterAll(() => client.stop());

const thin = { 'sole.tip': [0, 10] } as const;
const fresh = (): string => `file:///accepting-${(count += 1)}.hoof`;

async function acceptActions(text: string, code: string, of = client): Promise<CodeAction[]> {
  const uri = fresh();
  of.open(uri, text);
  const at = inspect(text).findings.find((finding) => finding.code === code)?.at;
  if (!at) throw new Error(`${code} is not told`);
  const range = { start: positionAt(text, at.start), end: positionAt(text, at.start) };
  const actions = await of.codeActions(uri, range);
  of.close(uri);
  return actions.filter(({ title }) => title.startsWith(`Accept ${code}`));
}

function after(text: string, action: CodeAction | undefined): string {
  const [change] = (action?.edit?.documentChanges ?? []) as TextDocumentEdit[];
  return applied(text, (change?.edits ?? []) as TextEdit[]);
}

describe('an accepted finding', () => {
  it('is told quietly, with its reason and the way to its line, and is not faded', async () => {
    const uri = fresh();
    const text = caseText(filmText(thin, { more: ['accept range/sole-depth.tip because "thin all her life"'] }));
    client.open(uri, text);
    const [told, ...more] = await client.diagnostics(uri);
    expect(more).toEqual([]);
    expect(told).toMatchObject({
      severity: 3,
      code: 'range/sole-depth.tip',
      message: expect.stringMatching(/Accepted: "thin all her life"$/),
    });
    expect(told?.tags).toBeUndefined();
    expect(told?.relatedInformation?.map(({ location }) => textIn(text, location.range))).toEqual([
      'accept range/sole-depth.tip because "thin all her life"',
    ]);
  });
});

describe('accepting from the menu', () => {
  it.each([
    [
      'in a film, after its landmarks',
      caseText(filmText(thin)),
      'range/sole-depth.tip',
      /sole\.heel @[^\n]*\n {4}accept {2}range\/sole-depth\.tip because ""\n$/,
    ],
    [
      'in a film before its readers',
      caseText(`${filmText(thin)}\n    read "B"\n      p3.tip @ 2000, 840`),
      'range/sole-depth.tip',
      /\n {4}accept {2}range\/sole-depth\.tip because ""\n {4}read "B"/,
    ],
    [
      'in a plan',
      caseText(`${filmText({}, { more: ['taken 2026-01-05'] })}\n\n  plan LF\n    heel down 1 mm`),
      'trim/film-age',
      /heel down 1 mm\n {4}accept trim\/film-age because ""\n$/,
    ],
    [
      'in a tape',
      caseText(`${filmText()}\n\n  tape LF\n    toe-length 95 mm\n`),
      'tape/disagrees',
      /toe-length 95 mm\n {4}accept {14}tape\/disagrees because ""\n\n$/,
    ],
    [
      'in a visit, behind the line that it is told of',
      caseText(`${filmText(thin)}\n\n  next 8 weeks # soon`),
      'visit/interval',
      /next 8 weeks # soon\n {2}accept {5}visit\/interval because ""\n$/,
    ],
    [
      'in a case',
      'hoof 1\n\ncase "X"\n  microchip 985999999999999\n',
      'record/microchip',
      /985999999999999\n {2}accept {4}record\/microchip because ""\n$/,
    ],
    [
      'in a block of one line',
      'hoof 1\n\nvisit 2026-03-04\n  film LF lateral "x.png"',
      'frame/no-landmark',
      /"x\.png"\n {4}accept {2}frame\/no-landmark because ""$/,
    ],
  ])('%s', async (_, text, code, expected) => {
    const [action, ...more] = await acceptActions(text, code);
    expect(more).toEqual([]);
    expect(action).toMatchObject({ title: `Accept ${code} here, because…`, kind: 'quickfix' });
    expect(action?.isPreferred).toBeUndefined();
    const written = after(text, action);
    expect(written).toMatch(expected);
    // Laid out as the formatter wants it: what was inserted it leaves alone.
    const line = /^.*accept .*$/m.exec(written)?.[0] ?? '?';
    expect(format(written)).toContain(line);
    // The file itself says that the reason is wanting; with one it holds.
    const codes = (of: string): string[] => inspect(of).findings.map((one) => `${one.accepted ?? '-'} ${one.code}`);
    expect(codes(written)).toContain('- accept/no-reason');
    const reasoned = codes(written.replace('because ""', 'because "so"'));
    expect(reasoned).toContain(`so ${code}`);
    expect(reasoned.filter((one) => one.includes('accept/'))).toEqual([]);
  });

  it('keeps the line ends of the file', async () => {
    const text = caseText(filmText(thin)).replaceAll('\n', '\r\n');
    const [action] = await acceptActions(text, 'range/sole-depth.tip');
    expect(after(text, action)).toContain('\r\n    accept  range/sole-depth.tip because ""\r\n');
    expect(after(text, action).replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
  });

  it('names the measure where the block tells the code of several', async () => {
    const limits = '\nlimits\n  heel-height <= 20 mm\n  breakover-reach <= 1 mm\n';
    const text = caseText(filmText(), { limits });
    const [action] = await acceptActions(text, 'range/agreed');
    expect(action?.title).toMatch(/^Accept range\/agreed (?:heel-height|breakover-reach) here, because…$/);
  });

  it('is not offered for what nobody may accept, nor for what is accepted', async () => {
    const fever = caseText('  sign fever');
    expect(await acceptActions(fever, 'visit/call-the-vet')).toEqual([]);
    const accepted = caseText(filmText(thin, { more: ['accept range/sole-depth.tip because "x"'] }));
    expect(await acceptActions(accepted, 'range/sole-depth.tip')).toEqual([]);
    const words = 'hoof 1\n\nvisit 2026-03-04\n  weight 512\n';
    expect(await acceptActions(words, 'notation/missing-unit')).toEqual([]);
  });

  it('puts the cursor between the quotes of a client that can be told so', async () => {
    const able = await LanguageClient.start({
      capabilities: { workspace: { workspaceEdit: { documentChanges: true, snippetEditSupport: true } } },
    });
    const [action] = await acceptActions(caseText(filmText(thin)), 'range/sole-depth.tip', able);
    const [change] = (action?.edit?.documentChanges ?? []) as TextDocumentEdit[];
    expect(change?.edits).toEqual([
      expect.objectContaining({
        snippet: { kind: 'snippet', value: '    accept  range/sole-depth.tip because "$0"\n' },
      }),
    ]);
    await able.stop();
  });

  it('is never undone or done by mending everything', async () => {
    const text = caseText(
      filmText(thin, {
        more: ['accept range/palmar-angle because "was so"', 'accept range/sole-deth.tip because "x"'],
      }),
    );
    const uri = fresh();
    client.open(uri, text);
    const range = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };
    expect(await client.codeActions(uri, range, { diagnostics: [], only: ['source.fixAll'] })).toEqual([]);
  });
});

describe('writing an acceptance', () => {
  async function offers(marked: string): Promise<CompletionItem[]> {
    const { text, position } = cursorIn(marked);
    const uri = fresh();
    client.open(uri, text);
    const items = await client.completion(uri, position);
    client.close(uri);
    return items.toSorted((a, b) => ((a.sortText ?? '') < (b.sortText ?? '') ? -1 : 1));
  }
  const withLine = (line: string): string => caseText(filmText(thin, { more: [line] }));

  it('offers the codes told in the block first, with what they tell', async () => {
    const items = await offers(withLine('accept ¦'));
    expect(items[0]?.label).toBe('range/sole-depth.tip');
    expect((items[0]?.documentation as MarkupContent | undefined)?.value).toMatch(
      /^Told here:[^]*Sole depth at the tip/,
    );
    expect((items[0]?.textEdit as TextEdit | undefined)?.newText).toBe('range/sole-depth.tip because "${1}"');
    const labels = items.map(({ label }) => label);
    expect(labels).toContain('trim/film-age');
    for (const never of ['visit/call-the-vet', 'trim/live-sole', 'notation/missing-unit', 'accept/nothing'])
      expect(labels).not.toContain(never);
  });

  it('goes on in a code, and after it offers because', async () => {
    const { text, position } = cursorIn(withLine('accept range/so¦le # remark'));
    const uri = fresh();
    client.open(uri, text);
    const item = (await client.completion(uri, position)).find(({ label }) => label === 'range/sole-depth.tip');
    expect(applied(text, [item?.textEdit as TextEdit])).toContain(
      'accept range/sole-depth.tip because "${1}" # remark',
    );
    expect((await offers(withLine('accept range/sole-depth.tip ¦'))).map(({ label }) => label)).toEqual(['because']);
  });

  it('offers the measures where the code is told of several', async () => {
    const limits = '\nlimits\n  heel-height <= 20 mm\n  breakover-reach <= 1 mm\n';
    const items = await offers(caseText(filmText({}, { more: ['accept range/agreed ¦'] }), { limits }));
    expect(items.map(({ label }) => label).toSorted()).toEqual(['because', 'breakover-reach', 'heel-height']);
  });

  it('is offered at the start of a line, and explained on hover', async () => {
    const item = (await offers(withLine('acc¦'))).find(({ label }) => label === 'accept');
    expect((item?.textEdit as TextEdit | undefined)?.newText).toBe('accept ${1} because "${2}"');
    const { text, position } = cursorIn(withLine('accept trim/live-¦sole because "x"'));
    const uri = fresh();
    client.open(uri, text);
    const hover = await client.hover(uri, position);
    const says = (hover?.contents as MarkupContent | undefined)?.value;
    expect(says).toContain('**Cut into live sole** · error');
    expect(says).toContain('This cannot be accepted. Take less');
    expect(says).toContain('(file:///docs/trim-live-sole.md)');
    expect(hover?.range && textIn(text, hover.range)).toBe('trim/live-sole');
  });

  it('shows what is expected, and colours the code only where there is one', async () => {
    const { text, position } = cursorIn(withLine('accept range/sole-depth.tip ¦'));
    const uri = fresh();
    client.open(uri, text);
    const help = await client.about<{ signatures: { label: string }[]; activeParameter: number }>(
      'signatureHelp',
      uri,
      { position },
    );
    expect(help.signatures.map(({ label }) => label)).toEqual(['accept FINDING [MEASURE] because TEXT']);
    const tokens = async (line: string): Promise<number> => {
      const other = fresh();
      client.open(other, `hoof 1\nvisit 2026-03-04\n  ${line}\n`);
      return (await client.about<{ data: number[] }>('semanticTokens/full', other)).data.length / 5;
    };
    expect(await tokens('accept range/palmar-angle because "x"')).toBe(
      (await tokens('accept range/palmar-angel because "x"')) + 4,
    );
  });
});

describe('the setting ungula.severity', () => {
  const text = caseText(`${filmText(thin)}\n\n  sign fever`);
  const told = async (of: LanguageClient, uri: string, fits: (severities: string[]) => boolean): Promise<string[]> => {
    const say = (one: { severity?: number; code?: unknown }): string => `${one.severity} ${String(one.code)}`;
    return (await of.diagnosticsWith(uri, (all) => fits(all.map(say)))).map(say);
  };

  it('counts from the start, and anew when it changes', async () => {
    const of = await LanguageClient.start({ options: { severity: { 'range/*': 'hint' } } });
    of.open('file:///a.hoof', text);
    expect(await told(of, 'file:///a.hoof', (all) => all.length === 2)).toEqual([
      '4 range/sole-depth.tip',
      '1 visit/call-the-vet',
    ]);
    of.notify('workspace/didChangeConfiguration', {
      settings: { ungula: { severity: { 'range/sole-depth.tip': 'error' } } },
    });
    expect(await told(of, 'file:///a.hoof', (all) => all[0]?.startsWith('1') === true)).toHaveLength(2);
    of.notify('workspace/didChangeConfiguration', { settings: { ungula: { severity: { 'range/*': 'off' } } } });
    expect(await told(of, 'file:///a.hoof', (all) => all.length === 1)).toEqual(['1 visit/call-the-vet']);
    // Of the ranges one is an alarm, which no setting takes away.
    expect(of.shown.length).toBeGreaterThan(0);
    for (const one of of.shown)
      expect(JSON.stringify(one)).toContain('Of «range/*» range/very-low-in-capsule cannot be');
    await of.stop();
  });

  it('says once in words what it does not do, and takes no harm from nonsense', async () => {
    const of = await LanguageClient.start({ options: { severity: { 'visit/*': 'off', 'range/sole': 'off' } } });
    of.open('file:///a.hoof', text);
    expect(await told(of, 'file:///a.hoof', (all) => all.length === 2)).toEqual([
      '2 range/sole-depth.tip',
      '3 visit/call-the-vet',
    ]);
    const again = { settings: { ungula: { severity: { 'visit/*': 'off', 'range/sole': 'off' } } } };
    of.notify('workspace/didChangeConfiguration', again);
    of.notify('workspace/didChangeConfiguration', { settings: { ungula: { severity: ['off', 7] } } });
    of.notify('workspace/didChangeConfiguration', { settings: { ungula: { severity: 'off' } } });
    expect(await told(of, 'file:///a.hoof', (all) => all[1]?.startsWith('1') === true)).toHaveLength(2);
    expect(of.shown.slice(0, 2).toSorted()).toEqual(
      [
        expect.stringMatching(
          /ungula\.severity: Of «visit\/\*» visit\/call-the-vet and visit\/vet-seen-date cannot be switched off/,
        ),
        expect.stringMatching(/ungula\.severity: There is no finding «range\/sole»/),
      ].toSorted(),
    );
    expect(of.shown.filter((message) => message.includes('call-the-vet'))).toHaveLength(1);
    await of.stop();
  });
});
