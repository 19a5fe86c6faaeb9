import type { DocumentLink } from 'vscode-languageserver';
import { expect, it } from 'vitest';
import { LanguageClient } from './language-client.ts';
import { textIn } from './text-positions.ts';

const film = (path: string): string => `  film LF lateral "${path}"\r\n`;

it('a picture beside the case file is a link, and nothing else is', async () => {
  const client = await LanguageClient.start({ folder: 'file:///cases' });
  const uri = 'file:///cases/a%20horse/case.hoof';
  const text = [
    'hoof 1\r\nvisit 2026-03-04 "🐴"\r\n',
    film('films/a b.png'),
    '  photo RF solar "../photos/50%#?.jpg"\r\n',
    film('https://example.org/a.png'),
    film('file:///etc/a.png'),
    film('//example.org/a.png'),
    film('/etc/a.png'),
    film('c:/films/a.png'),
    film('films\\\\a.png'),
    film(''),
    '  film LF "no view.png"\r\n',
    '  vet "films/a.png"\r\n',
  ].join('');
  client.open(uri, text);
  const links = await client.about<DocumentLink[]>('documentLink', uri);
  expect(links.map(({ range, target }) => [textIn(text, range), target])).toEqual([
    ['films/a b.png', 'file:///cases/a%20horse/films/a%20b.png'],
    ['../photos/50%#?.jpg', 'file:///cases/photos/50%25%23%3F.jpg'],
  ]);
  // Without a folder that is open, what lies in the case's own.
  const alone = await LanguageClient.start();
  alone.open(uri, text);
  const own = await alone.about<DocumentLink[]>('documentLink', uri);
  expect(own.map(({ target }) => target)).toEqual(['file:///cases/a%20horse/films/a%20b.png']);
  await alone.stop();
  // A text that has no place on the disk yet has nothing beside it.
  client.open('untitled:Untitled-1', text);
  expect(await client.about('documentLink', 'untitled:Untitled-1')).toEqual([]);
  await client.stop();
});
