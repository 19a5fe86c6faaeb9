import type { CodeLens, InlayHint } from 'vscode-languageserver';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { filmText } from '../unit/plain-foot.ts';
import { LanguageClient } from './language-client.ts';
import { linesOf } from './text-positions.ts';

let client: LanguageClient;
beforeAll(async () => {
  client = await LanguageClient.start();
});
afterAll(() => client.stop());

const everything = (text: string) => ({
  range: { start: { line: 0, character: 0 }, end: { line: linesOf(text).length, character: 0 } },
});

/** The tip stands 16 mm over the ground and the wing 80 mm behind it. */
const film = (wing: number, header: string, spread = 'scale 0.1 mm/px'): string =>
  filmText({ 'p3.wing': [-80, wing], 'sole.tip': [0, 1] }, { header, scale: spread });

const first = film(23, 'film LF lateral "🐴.png" # the first');
const text = `hoof 1
case "A"
visit 2026-03-04 "first"
${first}
  plan LF
    heel down 2 mm
  plan RF
    heel down 2 mm
  trim LF
    leave toe
visit 2026-04-01
${film(30, 'film LF lateral "b.png"')}
    taken 2026-03-31
  film LH lateral "c.png"
  photo LF solar "d.png"
  plan LF
  trim LF
  trim RF
visit 2026-04-29
  | Nothing was done.
`;

function behind(of: string, { position, label }: InlayHint): string {
  const line = of.split(/\r\n|\n/)[position.line] ?? '';
  return `${line.slice(0, position.character).trim()} → ${String(label)}`;
}

async function hints(of: LanguageClient, uri: string, written: string, more: object = everything(written)) {
  return (await of.about<InlayHint[]>('inlayHint', uri, more)).map((hint) => behind(written, hint));
}

/** Angle and deviation on paper: small against 80 mm, so each end counts with its own half millimetre. */
const degrees = (mm: number): string => ((Math.atan2(mm, 80) * 180) / Math.PI).toFixed(1);

describe('inlay hints', () => {
  it.each([
    ['LF', text],
    ['CR LF', text.replace(/\n/g, '\r\n')],
  ])('stand behind the headers of films and of what is cut (%s)', async (ending, written) => {
    const uri = `file:///hints ${ending}.hoof`;
    client.open(uri, written);
    const found = await hints(client, uri, written);
    const { study } = inspect(written);
    const angle = study.films[0]?.readings[0]?.taking.values.get('palmar-angle');
    const planned = study.cuts[0]?.prediction;
    const after = planned?.values.get('palmar-angle');
    expect(angle?.value.toFixed(1)).toBe(degrees(7));
    // 2 mm over the bearing length: toe at 28, heel at -110 mm.
    const turn = (Math.atan2(2, 138) * 180) / Math.PI;
    expect(planned?.delta).toBeCloseTo(turn, 1);
    expect(after?.value).toBeCloseTo(Number(angle?.value) - turn, 1);
    expect(found).toEqual([
      `film LF lateral "🐴.png" → palmar angle ${degrees(7)}° ± ${angle?.sd.toFixed(1)}, sole 15.0 mm`,
      `plan LF → turns ${turn.toFixed(1)}°, palmar angle ${after?.value.toFixed(1)}°`,
      expect.stringMatching(/^film LF lateral "b\.png" → palmar angle 9\.9° ± 0\.\d, sole 15\.0 mm$/),
    ]);
  });

  it('speak of a plantar angle on a hind foot, and of no length without a scale', async () => {
    const uri = 'file:///hints-hind.hoof';
    const written = `hoof 1\nvisit 2026-03-04\n${filmText({}, { header: 'film LH lateral "a.png"', scale: null })}\n`;
    client.open(uri, written);
    const [hint, ...more] = await hints(client, uri, written);
    expect(more).toEqual([]);
    expect(hint).toMatch(/→ plantar angle 5\.0° ± \d\.\d$/);
  });

  it('are those of the range that is asked about', async () => {
    const uri = 'file:///hints-range.hoof';
    client.open(uri, text);
    const line = text.split('\n').findIndex((one) => one.includes('plan LF'));
    const range = { start: { line, character: 0 }, end: { line: line + 1, character: 0 } };
    expect(await hints(client, uri, text, { range })).toEqual([expect.stringMatching(/^plan LF → turns/)]);
  });

  it('are told or not as the setting says, and the client is told when it changes', async () => {
    const told: string[] = [];
    const configuration = { ungula: { inlayHints: false } };
    const other = await LanguageClient.start({
      capabilities: {
        workspace: { configuration: true, inlayHint: { refreshSupport: true }, codeLens: { refreshSupport: true } },
      },
      configuration,
      onRefresh: (method) => told.push(method),
    });
    const uri = 'file:///hints-setting.hoof';
    other.open(uri, text);
    while ((await hints(other, uri, text)).length > 0) await other.diagnostics(uri);
    while (told.length < 2) await hints(other, uri, text);
    expect(told.slice(0, 2)).toEqual(['workspace/inlayHint/refresh', 'workspace/codeLens/refresh']);
    configuration.ungula.inlayHints = true;
    other.notify('workspace/didChangeConfiguration', { settings: null });
    while ((await hints(other, uri, text)).length === 0) await other.diagnostics(uri);
    expect(await hints(other, uri, text)).toHaveLength(3);
    expect(await other.stop()).toBe(0);
  });
});

describe('code lenses', () => {
  const lenses = async (uri: string, written: string): Promise<string[]> =>
    (await client.about<CodeLens[]>('codeLens', uri)).map(({ range, command }) => {
      expect(command?.command).toBe('');
      return `${written.split(/\r\n|\n/)[range.start.line]?.slice(range.start.character, range.end.character)} → ${command?.title}`;
    });

  it.each([
    ['LF', text],
    ['CR LF', text.replace(/\n/g, '\r\n')],
  ])('count what there is, and tell what has changed since the film before (%s)', async (ending, written) => {
    const uri = `file:///lenses ${ending}.hoof`;
    client.open(uri, written);
    expect(await lenses(uri, written)).toEqual([
      'case "A" → 3 visits, 2026-03-04 to 2026-04-29',
      'visit 2026-03-04 "first" → 1 film, plan LF and RF, trim LF',
      'visit 2026-04-01 → 2 films, 1 photo, plan LF, trim LF and RF',
      // 5.0 to 9.9 degrees at half a degree each, and 15 mm as before.
      'film LF lateral "b.png" → since 2026-03-04: palmar angle +4.9° (clear), sole 0.0 mm (within the error)',
    ]);
  });

  it.each([
    ['further apart than 1.96 deviations', 1.97, 'clear'],
    ['closer', 1.95, 'within the error'],
  ])('call a change %s what it is', async (_, times, words) => {
    // Two depths with a deviation of sqrt(2) mm each differ by sqrt(2) times that: 2 mm.
    const depth = (mm: number, header: string): string =>
      filmText({ 'sole.tip': [0, 16 - mm], 'p3.wing': undefined }, { header, more: [] }).replace(
        /( {4}(?:p3|sole)\.tip @ .*)/g,
        '$1 +- 10',
      );
    const written = `hoof 1\nvisit 2026-03-04\n${depth(12, 'film LF lateral "a.png"')}\nvisit 2026-04-04\n${depth(12 - times * 2, 'film LF lateral "b.png"')}\n`;
    const { study } = inspect(written);
    const deviations = study.films.map((one) => one.readings[0]?.taking.values.get('sole-depth.tip')?.sd ?? 0);
    expect(Math.hypot(...deviations)).toBeCloseTo(2, 2);
    const uri = `file:///lens ${words}.hoof`;
    client.open(uri, written);
    expect((await lenses(uri, written)).at(-1)).toBe(
      `film LF lateral "b.png" → since 2026-03-04: sole −${(times * 2).toFixed(1)} mm (${words})`,
    );
  });

  it('compare neither another foot nor another view, nor films of one day', async () => {
    const written = `hoof 1\nvisit 2026-03-04\n${film(23, 'film LF lateral "a.png"')}\n${film(30, 'film LF lateral "b.png"')}\nvisit 2026-04-04\n${film(30, 'film RF lateral "c.png"')}\n${film(30, 'photo LF lateral "d.jpg"')}\n`;
    client.open('file:///lens-apart.hoof', written);
    expect((await lenses('file:///lens-apart.hoof', written)).filter((lens) => lens.includes('since'))).toEqual([]);
  });
});
