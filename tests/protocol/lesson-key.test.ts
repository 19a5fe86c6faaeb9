import type {
  CompletionList,
  Diagnostic,
  DocumentLink,
  InlayHint,
  TextDocumentEdit,
  TextEdit,
  WorkspaceEdit,
} from 'vscode-languageserver';
import { expect, it } from 'vitest';
import { courseRequest, type CourseResult } from '../../shared/protocol/course.ts';
import { sheetsRequest, type SheetsResult } from '../../shared/protocol/sheets.ts';
import { filmKey, type ListedFilm } from '../../shared/views/film-choice.ts';
import { filmText } from '../unit/plain-foot.ts';
import type { LanguageClient } from './language-client.ts';
import { applied, positionAt, textIn } from './text-positions.ts';
import { changed, clientIn, folderOf } from './workspace-client.ts';

const lesson = (line: string, places = {}): string =>
  `hoof 1\n\ncase "Lesson"\n  ${line}\n\nvisit 2026-03-04\n${filmText(places)}\n`;
const reader = (name: string): string => `    read "${name}"\n      p3.tip @ 2000, 840\n`;
const teacher = `hoof 1\n\nvisit 2026-03-04\n${filmText()}\n${reader('Rowan')}`;

const told = async (client: LanguageClient, uri: string): Promise<Diagnostic[]> => {
  const { items } = await client.request<{ items: Diagnostic[] }>('textDocument/diagnostic', { textDocument: { uri } });
  return items;
};
const keyWords = async (client: LanguageClient, uri: string): Promise<string[]> =>
  (await told(client, uri)).filter(({ code }) => code === 'lesson/key').map(({ message }) => String(message));

/** Files are read after the first answer. */
async function until(look: () => Promise<boolean>): Promise<void> {
  for (let tries = 0; tries < 100; tries++) {
    if (await look()) return;
    await new Promise((resolve) => setTimeout(resolve, 30));
  }
  throw new Error('it did not come within 3 s');
}

it('a key that is not there, or lacks the reader, is told until it is there', async () => {
  const folder = folderOf({ 'ash.hoof': lesson('key "keys/teacher.hoof" by "Rowan"') });
  const client = await clientIn([folder]);
  const uri = folder.uriOf('ash.hoof');
  client.open(uri, lesson('key "keys/teacher.hoof" by "Rowan"'));
  await until(async () => (await keyWords(client, uri)).some((words) => words.includes('is not there')));
  folder.write('keys/teacher.hoof', `hoof 1\n\nvisit 2026-03-04\n${filmText()}\n`);
  changed(client, [folder.uriOf('keys/teacher.hoof'), 1]);
  await until(async () => (await keyWords(client, uri)).some((words) => words.includes('no reading by “Rowan”')));
  // An open text counts in place of its file.
  client.open(folder.uriOf('keys/teacher.hoof'), teacher);
  await until(async () => (await keyWords(client, uri)).length === 0);
  client.close(folder.uriOf('keys/teacher.hoof'));
  await until(async () => (await keyWords(client, uri)).length === 1);
});

it('of a closed lesson the key is told too, and looked at again when it changes', async () => {
  const folder = folderOf({ 'ash.hoof': lesson('key "teacher.hoof"') });
  const client = await clientIn([folder]);
  const uri = folder.uriOf('ash.hoof');
  await until(async () => (await keyWords(client, uri)).length === 1);
  folder.write('teacher.hoof', teacher);
  changed(client, [folder.uriOf('teacher.hoof'), 1]);
  await until(async () => (await keyWords(client, uri)).length === 0);
});

it('between the quotes the other case files are offered, a folder at a time, and the path is a link', async () => {
  const folder = folderOf({ 'teacher.hoof': teacher, 'keys/second.hoof': teacher, 'x.png': 'x', 'ash.hoof': '' });
  const client = await clientIn([folder]);
  const uri = folder.uriOf('ash.hoof');
  const offered = async (typed: string): Promise<string[]> => {
    const text = `hoof 1\n\ncase "Lesson"\n  key "${typed}`;
    client.open(uri, text);
    const position = positionAt(text, text.length);
    const list = await client.request<CompletionList>('textDocument/completion', { textDocument: { uri }, position });
    client.close(uri);
    return list.items.map(({ label }) => label).toSorted();
  };
  expect(await offered('')).toEqual(['keys/', 'teacher.hoof']);
  expect(await offered('keys/')).toEqual(['second.hoof']);
  expect(await offered('../')).toEqual([]);

  const text = lesson('key "keys/second.hoof" by "Rowan"');
  client.open(uri, text);
  const links = await client.about<DocumentLink[]>('documentLink', uri);
  expect(links.map(({ range, target }) => [textIn(text, range), target])).toContainEqual([
    'keys/second.hoof',
    folder.uriOf('keys/second.hoof'),
  ]);
  client.change(uri, 2, [{ text: lesson('key "../second.hoof"') }]);
  expect((await client.about<DocumentLink[]>('documentLink', uri)).map(({ target }) => target)).toEqual([
    folder.uriOf('x.png'),
  ]);
  const hovered = await client.hover(uri, { line: 3, character: 3 });
  expect(JSON.stringify(hovered)).toContain('makes the case a lesson');
});

it('a reader is renamed in the key too', async () => {
  const student = lesson('key "teacher.hoof" by "Rowan"');
  const folder = folderOf({ 'teacher.hoof': teacher, 'ash.hoof': student });
  const client = await clientIn([folder]);
  const uri = folder.uriOf('teacher.hoof');
  client.open(uri, teacher);
  const edit = await client.about<WorkspaceEdit>('rename', uri, {
    position: positionAt(teacher, teacher.indexOf('Rowan')),
    newName: 'Rowan B.',
  });
  const changes = (edit.documentChanges as TextDocumentEdit[] | undefined)?.find(
    ({ textDocument }) => textDocument.uri === folder.uriOf('ash.hoof'),
  );
  expect(applied(student, (changes?.edits ?? []) as TextEdit[])).toBe(student.replace('"Rowan"', '"Rowan B."'));
});

it('beside the text of a lesson nothing tells a value', async () => {
  const steep = { 'p3.wing': [-80, 55] };
  const folder = folderOf({ 'teacher.hoof': teacher, 'x.png': 'x', 'ash.hoof': lesson('breed "cob"', steep) });
  const client = await clientIn([folder]);
  const uri = folder.uriOf('ash.hoof');
  const range = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
  const ofText = async () => ({
    codes: (await told(client, uri)).map(({ code }) => String(code)).filter((code) => code.startsWith('range/')),
    hints: (await client.about<InlayHint[]>('inlayHint', uri, { range })).length,
    film: JSON.stringify(await client.hover(uri, { line: 6, character: 3 })),
    tip: JSON.stringify(await client.hover(uri, { line: 9, character: 6 })),
  });
  client.open(uri, lesson('breed "cob"', steep));
  const open = await ofText();
  expect(open.codes).toContain('range/palmar-angle');
  expect(open.hints).toBe(1);
  expect(open.film).toContain('°');
  expect(open.tip).toContain('°');
  client.change(uri, 2, [{ text: lesson('key "teacher.hoof"', steep) }]);
  const kept = await ofText();
  expect(kept.codes).toEqual([]);
  expect(kept.hints).toBe(0);
  expect(kept.film).not.toContain('°');
  expect(kept.tip).toContain('On it rest');
  expect(kept.tip).not.toContain('°');
});

it('the sheets of a lesson have values once the key is shown, and so has the text then', async () => {
  const steep = { 'p3.wing': [-80, 55] };
  const folder = folderOf({ 'teacher.hoof': teacher, 'x.png': 'x' });
  const client = await clientIn([folder]);
  const uri = folder.uriOf('ash.hoof');
  client.open(uri, lesson('key "teacher.hoof"', steep));
  const look = { film: null, line: null, moved: false, over: null };
  const ask = (more = {}): Promise<SheetsResult> =>
    client.request(sheetsRequest, { textDocument: { uri }, look: { ...look, ...more } });
  const course = async (): Promise<number> =>
    (await client.request<CourseResult>(courseRequest, { textDocument: { uri } })).feet.length;
  const ranges = async (): Promise<number> =>
    (await told(client, uri)).filter(({ code }) => String(code).startsWith('range/')).length;
  const hidden = await ask();
  expect([hidden.keepsBack, hidden.sheet?.rows, hidden.lesson?.marks]).toEqual([true, [], null]);
  expect([await ranges(), await course()]).toEqual([0, 0]);
  const shown = [filmKey(hidden.films[0] as ListedFilm)];
  await until(async () => (await ask({ shown })).lesson?.marks != null);
  const open = await ask({ shown });
  // 32 mm too high at 0.1 mm a pixel; on the key's foot, whose wing stands 23 mm above the ground.
  expect(open.lesson?.marks?.points[0]).toMatchObject({
    landmark: 'p3.wing',
    distance: '32.0 mm',
    way: '32.0 mm too high',
  });
  expect(open.sheet?.rows.length).toBeGreaterThan(20);
  expect([(await ranges()) > 0, await course()]).toEqual([true, 1]);
  expect((await ask()).sheet?.rows).toEqual([]);
  expect([await ranges(), await course()]).toEqual([0, 0]);
  await expect(ask({ shown: 'all' })).rejects.toThrow('look.shown');
});
