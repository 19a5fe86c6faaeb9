import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { SemanticTokens, SemanticTokensDelta } from 'vscode-languageserver';
import { sheetsRequest, type SheetsResult } from '../../shared/protocol/sheets.ts';
import { LanguageClient } from '../protocol/language-client.ts';
import { linesOf } from '../protocol/text-positions.ts';
import { randomFrom } from '../property/random-edits.ts';
import { pictureFile, syntaxes } from '../unit/picture-dicom-writer.ts';
import { filmText } from '../unit/plain-foot.ts';
import { changeOf, editBetween } from './one-edit.ts';
import type { Failure } from './sequence.ts';
import { pictures, type Random } from './starts.ts';
import { usualSettings, type State } from './state.ts';
import { difference } from './told.ts';

/** How long the news of a picture may take to come round. */
const patience = 10_000;

const uriOf = (folder: string, name: string): string => pathToFileURL(join(folder, name)).href;

/** A server with a case open that names every picture, so that it is known when one has been looked at. */
class Served {
  readonly client: LanguageClient;
  private readonly warm: string;
  private settings = JSON.stringify([usualSettings.spread, usualSettings.trim]);

  private constructor(client: LanguageClient, folder: string) {
    this.client = client;
    this.warm = uriOf(folder, 'warm.hoof');
  }

  static async start(folder: string): Promise<Served> {
    const served = new Served(await LanguageClient.start(), folder);
    const films = pictures.map((path) => filmText({}, { header: `film LF lateral "${path}"`, scale: 'scale dicom' }));
    served.client.open(served.warm, `hoof 1\nvisit 2026-01-01\n${films.join('\n')}\n`);
    return served;
  }

  /** Whether they are others than before. */
  use({ spread, trim }: State['settings']): boolean {
    const now = JSON.stringify([spread, trim]);
    if (now === this.settings) return false;
    this.settings = now;
    const ungula = { placing: { spreadMm: spread.mm, spreadPx: spread.px }, trim };
    this.client.notify('workspace/didChangeConfiguration', { settings: { ungula } });
    return true;
  }

  /** Waits until the pictures are known as they are now. */
  async knows(scales: State['scales']): Promise<void> {
    const wanted = pictures.map((path) => scaleIn(scales, path));
    const until = Date.now() + patience;
    for (;;) {
      const { sheets } = await this.client.request<SheetsResult>(sheetsRequest, { textDocument: { uri: this.warm } });
      const now = sheets.map(({ scale }) => scale);
      // A picture that is not there has been looked for once the sentence about it says so.
      const looked = sheets.every(({ notes }) => !notes.some(({ message }) => message.includes('cannot be looked at')));
      if (looked && wanted.every((mm, index) => now[index] === mm || (now[index] === null && isAbsurd(mm)))) return;
      if (Date.now() > until)
        throw new Error(`the pictures are ${JSON.stringify(now)} to the server, not ${JSON.stringify(wanted)}`);
      await new Promise((resolve) => setTimeout(resolve, 5));
    }
  }
}

/** What no picture has: a server may take it for no scale at all. */
const isAbsurd = (mm: number | null): boolean => mm !== null && !(mm >= 0.001 && mm <= 5);

function scaleIn(scales: State['scales'], path: string): number | null {
  const told = scales[path];
  return told && 'mmPerPx' in told ? told.mmPerPx : null;
}

/**
 * Two servers over stdio. The one follows a document through all its edits; the other is only ever given whole texts, and
 * is begun anew every few sequences. What they say of a text has to be the same.
 */
export class TwoServers {
  private readonly folder = mkdtempSync(join(tmpdir(), 'ungula-sequences-'));
  private one: Served | undefined;
  private other: Served | undefined;
  private done = 0;
  private opened = 0;
  private readonly renewed: number;
  /** How many states were compared. */
  compared = 0;

  constructor({ renewed = 20 }: { readonly renewed?: number } = {}) {
    this.renewed = renewed;
  }

  async failureOf(states: readonly State[], seed: number): Promise<Failure | null> {
    if (this.done++ % this.renewed === 0) await this.stopServers();
    const [following, fresh] = await this.servers();
    const random = randomFrom(seed);
    const uri = uriOf(this.folder, `followed-${this.opened++}.hoof`);
    let scales: State['scales'] = {};
    this.write(scales, pictures);
    let before = '';
    let version = 0;
    let tokens: SemanticTokens | null = null;
    for (const [at, state] of states.entries()) {
      const moved = pictures.filter((path) => scaleIn(scales, path) !== scaleIn(state.scales, path));
      scales = state.scales;
      this.write(scales, moved);
      for (const served of [following, fresh]) await served.knows(scales);
      const told = following.client.timesTold(uri);
      const other = following.use(state.settings);
      fresh.use(state.settings);
      if (version === 0) following.client.open(uri, state.text, ++version);
      else if (state.text !== before) version = this.edit(following.client, uri, before, state.text, version, random);
      before = state.text;
      // Other settings are told of again, though the text is the same; not where they are out of their ranges and count as not
      // set. What is told is compared below, for as long as it takes.
      if (other) await soon(() => following.client.timesTold(uri) > told);

      const place = { uri, text: state.text, random: random(2 ** 31) };
      const whole = { ...place, uri: uriOf(this.folder, `whole-${this.opened++}.hoof`) };
      fresh.client.open(whole.uri, state.text);
      let found: string | null = null;
      const late = Date.now() + patience;
      for (;;) {
        const now = plain(await following.client.diagnostics(uri, version), uri);
        const wanted = plain(await fresh.client.diagnostics(whole.uri), whole.uri);
        found = difference(now, wanted, '/diagnostics');
        // News of a picture and of other settings comes when it comes; all else is there at once.
        const unknown = JSON.stringify([now, wanted]).includes('cannot be looked at from here');
        if ((found === null && !unknown) || !(unknown || moved.length > 0 || other) || Date.now() > late) break;
        await new Promise((resolve) => setTimeout(resolve, 5));
      }
      if (found === null) {
        const kept: SemanticTokens = await tokensAfter(following.client, uri, tokens);
        tokens = kept;
        const all = { ...(await answers(following.client, place)), tokens: kept.data };
        const full = await fresh.client.about<SemanticTokens>('semanticTokens/full', whole.uri);
        found = difference(
          plain(all, uri),
          plain({ ...(await answers(fresh.client, whole)), tokens: full.data }, whole.uri),
        );
      }
      fresh.client.close(whole.uri);
      this.compared++;
      const failed = [following, fresh].flatMap(({ client }) => client.log.splice(0));
      if (failed.length > 0) found ??= `the log says: ${failed.join('\n')}`;
      if (found !== null) {
        following.client.close(uri);
        return { at, difference: found };
      }
    }
    following.client.close(uri);
    return null;
  }

  async stop(): Promise<void> {
    await this.stopServers();
    rmSync(this.folder, { recursive: true, force: true });
  }

  private async stopServers(): Promise<void> {
    await Promise.all([this.one, this.other].map((served) => served?.client.stop()));
    this.one = this.other = undefined;
  }

  private async servers(): Promise<[Served, Served]> {
    if (!this.one || !this.other)
      [this.one, this.other] = await Promise.all([Served.start(this.folder), Served.start(this.folder)]);
    return [this.one, this.other];
  }

  /** The pictures as files, and word of them to both servers. */
  private write(scales: State['scales'], paths: readonly string[]): void {
    for (const path of paths) {
      const mm = scaleIn(scales, path);
      const file = join(this.folder, path);
      if (mm === null) rmSync(file, { force: true });
      else writeFileSync(file, dicom(mm));
    }
    const changes = paths.map((path) => ({ uri: uriOf(this.folder, path), type: 2 }));
    if (changes.length > 0)
      for (const served of [this.one, this.other])
        served?.client.notify('workspace/didChangeWatchedFiles', { changes });
  }

  /** From one text to the next: as one change, as two, as two messages, or as the whole text; the version after it. */
  private edit(
    client: LanguageClient,
    uri: string,
    before: string,
    after: string,
    version: number,
    random: Random,
  ): number {
    const edit = editBetween(before, after);
    const without = before.slice(0, edit.start) + before.slice(edit.end);
    const cut = changeOf(before, { ...edit, text: '' });
    const splits = without.slice(0, edit.start).endsWith('\r') && without[edit.start] === '\n';
    switch (splits ? 3 : random(4)) {
      case 0: {
        const put = changeOf(without, { start: edit.start, end: edit.start, text: edit.text });
        client.change(uri, version + 1, [cut, put]);
        return version + 1;
      }
      case 1: {
        const put = changeOf(without, { start: edit.start, end: edit.start, text: edit.text });
        client.change(uri, version + 1, [cut]);
        client.change(uri, version + 2, [put]);
        return version + 2;
      }
      case 2:
        client.change(uri, version + 1, [{ text: after }]);
        return version + 1;
      default:
        client.change(uri, version + 1, [changeOf(before, edit)]);
        return version + 1;
    }
  }
}

interface Place {
  readonly uri: string;
  readonly text: string;
  readonly random: number;
}

/** What a server says of a document beside its diagnostics, at one random place where a place is asked for. */
async function answers(client: LanguageClient, { uri, text, random }: Place): Promise<Record<string, unknown>> {
  const lines = linesOf(text);
  const draw = randomFrom(random);
  const line = draw(lines.length);
  const position = { line, character: draw((lines[line]?.length ?? 0) + 1) };
  const range = { start: { line: 0, character: 0 }, end: { line: lines.length, character: 0 } };
  const asked: readonly (readonly [string, object?])[] = [
    ['documentSymbol'],
    ['foldingRange'],
    ['documentLink'],
    ['codeLens'],
    ['inlayHint', { range }],
    ['codeAction', { range, context: { diagnostics: [] } }],
    ['formatting', { options: { tabSize: 2, insertSpaces: true } }],
    ['hover', { position }],
    ['completion', { position }],
    ['definition', { position }],
    ['selectionRange', { positions: [position] }],
    ['signatureHelp', { position }],
  ];
  const got = await Promise.all(asked.map(async ([method, more]) => [method, await client.about(method, uri, more)]));
  const { sheets, caseName } = await client.request<SheetsResult>(sheetsRequest, { textDocument: { uri } });
  return { ...(Object.fromEntries(got) as Record<string, unknown>), sheets, caseName };
}

/** The tokens as a client has them that asks for what has changed only. */
async function tokensAfter(
  client: LanguageClient,
  uri: string,
  before: SemanticTokens | null,
): Promise<SemanticTokens> {
  if (!before) return client.about<SemanticTokens>('semanticTokens/full', uri);
  const told = await client.about<SemanticTokens | SemanticTokensDelta>('semanticTokens/full/delta', uri, {
    previousResultId: before.resultId,
  });
  if (!('edits' in told)) return told;
  const data = [...before.data];
  for (const edit of [...told.edits].sort((a, b) => b.start - a.start))
    data.splice(edit.start, edit.deleteCount, ...(edit.data ?? []));
  return { ...(told.resultId !== undefined && { resultId: told.resultId }), data };
}

/** Without the name of the document and its version, which differ. */
function plain(value: unknown, uri: string): unknown {
  const same = JSON.stringify(value, (key, inner: unknown) => (key === 'version' ? undefined : inner));
  return JSON.parse(same.replaceAll(uri, 'here')) as unknown;
}

/** Waits for something that need not come. */
async function soon(holds: () => boolean): Promise<void> {
  const late = Date.now() + 30;
  while (!holds() && Date.now() < late) await new Promise((resolve) => setTimeout(resolve, 2));
}

/** A picture of 4 by 4 pixels whose spacing is calibrated in the plane of the foot. */
function dicom(mm: number): Uint8Array {
  return pictureFile(
    syntaxes.explicit,
    {
      width: 4,
      height: 4,
      more: [
        { tag: '00280030', vr: 'DS', value: `${mm}\\${mm}` },
        { tag: '00280a02', vr: 'CS', value: 'FIDUCIAL' },
      ],
    },
    new Uint8Array(32),
  );
}
