import type { CodeLens, Diagnostic } from 'vscode-languageserver';
import { expect, it } from 'vitest';
import type { DueResult } from '../../shared/protocol/due.ts';
import { footStateRequest, type FootStateResult } from '../../shared/protocol/foot-state.ts';
import { readingsRequest, type ReadingsResult } from '../../shared/protocol/readings.ts';
import { sheetsRequest, type SheetsResult } from '../../shared/protocol/sheets.ts';
import { filmKey } from '../../shared/views/film-choice.ts';
import { filmText } from '../unit/plain-foot.ts';
import type { LanguageClient } from './language-client.ts';
import { clientIn, folderOf } from './workspace-client.ts';

// All of the foot but the hairline lies 12 mm lower on the second film, and stands no flatter: the bone has sunk.
const sunk = Object.fromEntries(Object.entries({ 'coronet.dorsal': [-25, 80], 'coronet.heel': [-131, 36] } as const));
const lesson = (key: string, more = ''): string =>
  [
    `hoof 1\n\ncase "Lesson"\n  ${key}\n\nvisit 2026-01-04\n${filmText()}`,
    `\nvisit 2026-02-04\n${more}${filmText(sunk, { header: 'film LF lateral "y.png"' })}`,
    '\n  plan LF\n    heel down 2 mm\n',
  ].join('\n');
const plain = lesson('breed "cob"');
const kept = lesson('key "teacher.hoof"');
const teacher = `hoof 1\n\nvisit 2026-01-04\n${filmText()}\n`;

const lineOf = (text: string, words: string): number => text.split('\n').findIndex((line) => line.includes(words));

async function said(client: LanguageClient, uri: string, text: string) {
  const position = { line: lineOf(text, 'plan LF'), character: 3 };
  const { items } = await client.request<{ items: Diagnostic[] }>('textDocument/diagnostic', { textDocument: { uri } });
  const { cases } = await client.request<DueResult>('ungula/due', null);
  return {
    text: items.map(({ code }) => String(code)),
    lenses: (await client.about<CodeLens[]>('codeLens', uri)).map(({ command }) => command?.title ?? ''),
    plan: JSON.stringify(await client.hover(uri, position)),
    foot: await client.request<FootStateResult>(footStateRequest, { textDocument: { uri }, position }),
    due: cases.flatMap((one) => one.alarms.map(({ code }) => code)),
  };
}

it('that a bone sinks is told nowhere before the key is shown: no lens, hover, status or list of what waits', async () => {
  const folder = folderOf({ 'teacher.hoof': teacher, 'ash.hoof': kept, 'x.png': 'x', 'y.png': 'y' });
  const client = await clientIn([folder]);
  const uri = folder.uriOf('ash.hoof');
  // Closed, it waits for nobody.
  const closed = await client.request<DueResult>('ungula/due', null);
  expect(closed.cases.flatMap(({ alarms }) => alarms)).toEqual([]);
  client.open(uri, plain);
  const open = await said(client, uri, plain);
  expect(open.text).toContain('course/sinking');
  expect(open.lenses.join()).toContain('first: an alarm is open');
  expect(open.plan).toContain('lower in the capsule');
  expect(open.foot?.isAlarm).toBe(true);
  expect(open.due).toContain('course/sinking');
  client.change(uri, 2, [{ text: kept }]);
  const hidden = await said(client, uri, kept);
  expect(hidden.text).not.toContain('course/sinking');
  expect(hidden.lenses.join()).not.toContain('alarm');
  expect(hidden.plan).not.toContain('capsule');
  expect(hidden.foot).toBeNull();
  expect(hidden.due).toEqual([]);
});

it('what all films say of sinking is not told where a level is named', async () => {
  const named = (text: string): string =>
    `${text.trimEnd()}\n\nvisit 2026-03-04\n  film LF lateral "x.png"\n    expect founder-distance.level 1 mm\n`;
  const folder = folderOf({ 'teacher.hoof': teacher, 'x.png': 'x', 'y.png': 'y' });
  const client = await clientIn([folder]);
  const uri = folder.uriOf('ash.hoof');
  const hovered = async (text: string): Promise<string> =>
    JSON.stringify(await client.hover(uri, { line: lineOf(text, 'expect'), character: 14 }));
  client.open(uri, named(plain));
  expect(await hovered(named(plain))).toContain('Sinking, over all films');
  client.change(uri, 2, [{ text: named(kept) }]);
  expect(await hovered(named(kept))).not.toContain('Sinking, over all films');
});

it('a sign for the vet stays told in a lesson: in the text, over the plan, in the status bar, in what waits', async () => {
  const text = lesson('key "teacher.hoof"', '  sign fever\n  obel 3\n');
  const folder = folderOf({ 'teacher.hoof': teacher, 'ash.hoof': text, 'x.png': 'x', 'y.png': 'y' });
  const client = await clientIn([folder]);
  const uri = folder.uriOf('ash.hoof');
  client.open(uri, text);
  const told = await said(client, uri, text);
  // What rests on the animal's day and not on places is told, of the plan too.
  expect(told.text).toEqual(expect.arrayContaining(['visit/call-the-vet', 'trim/no-vet']));
  expect(told.lenses.join()).toContain('first: ');
  expect(told.plan).toContain('Call the vet');
  expect(told.foot).toMatchObject({ foot: 'LF', isAlarm: true });
  expect(JSON.stringify(told.foot)).not.toContain('°');
  expect(JSON.stringify(told.foot)).not.toContain('sole');
  expect(new Set(told.due)).toEqual(new Set(['visit/call-the-vet']));
});

it('what others have read stays with them until the key is shown', async () => {
  const student = `hoof 1\n\ncase "Lesson"\n  key by "Rowan"\n\nvisit 2026-01-04\n${filmText()}\n    read "Rowan"\n      p3.tip @ 2000, 845\n`;
  const folder = folderOf({ 'ash.hoof': student, 'teacher.hoof': teacher, 'x.png': 'x' });
  const client = await clientIn([folder]);
  const uri = folder.uriOf('ash.hoof');
  client.open(uri, student);
  const look = { film: null, line: null, moved: false, over: null };
  const sheets = (more = {}): Promise<SheetsResult> =>
    client.request(sheetsRequest, { textDocument: { uri }, look: { ...look, ...more } });
  const ask = (of: string): Promise<ReadingsResult> => client.request(readingsRequest, { textDocument: { uri }, of });
  const hidden = await sheets();
  expect(hidden.keepsBack).toBe(true);
  for (const of of ['case', 'folder']) {
    const { films, lack } = await ask(of);
    expect(films).toEqual([]);
    expect(lack).toBe('This is a lesson: what others have read is told once the key of each film is shown.');
  }
  await sheets({ shown: hidden.films.map((film) => filmKey(film)) });
  expect((await ask('case')).films[0]?.readings).toHaveLength(2);
});
