import { expect, it } from 'vitest';
import type { DueResult } from '../../shared/protocol/due.ts';
import { dateOf } from '../../server/serving/today.ts';
import { clientIn, changed, folderOf } from './workspace-client.ts';

const day = (back: number): string => {
  const then = new Date();
  then.setDate(then.getDate() - back);
  return dateOf(then);
};
const seen = (name: string, lines: string, back = 40): string =>
  `hoof 1\n\ncase "${name}"\n  animal pony mare\n\nvisit ${day(back)}\n  ${lines}\n`;

const files = {
  'calm.hoof': seen('Calm', 'next 90 days'),
  'late.hoof': seen('Late', 'next 28 days'),
  'sub/later.hoof': seen('Later', 'next 20 days'),
  'ill.hoof': seen('Ill', 'sign fever'),
};

it('what waits today in every case of the folders is told, alarms first, then by how late', async () => {
  const folder = folderOf(files);
  const client = await clientIn([folder]);
  const { looked, cases } = await client.request<DueResult>('ungula/due', null);
  expect(looked).toBe(4);
  expect(
    cases.map(({ file, name, alarms, items }) => [file, name, alarms.length, items.map(({ days }) => days)]),
  ).toEqual([
    ['ill.hoof', 'Ill', 1, []],
    ['sub/later.hoof', 'Later', 0, [20]],
    ['late.hoof', 'Late', 0, [12]],
  ]);
  expect(cases[1]?.items[0]).toMatchObject({
    kind: 'visit',
    line: 6,
    says: expect.stringMatching(/20 days overdue/) as string,
  });
  expect(cases[1]?.uri).toBe(folder.uriOf('sub/later.hoof'));
});

it('an open text counts in place of its file, and a file that changes is read again, which the client is told', async () => {
  const folder = folderOf(files);
  const client = await clientIn([folder]);
  const names = async (): Promise<string[]> =>
    (await client.request<DueResult>('ungula/due', null)).cases.map(({ name }) => name ?? '');
  expect(await names()).toEqual(['Ill', 'Later', 'Late']);
  client.open(folder.uriOf('late.hoof'), seen('Late', 'next 60 days'));
  expect(await names()).toEqual(['Ill', 'Later']);
  folder.write('ill.hoof', `${seen('Ill', 'sign fever')}  vet seen ${day(39)}\n`);
  const before = client.caseNews;
  changed(client, [folder.uriOf('ill.hoof'), 2]);
  expect(await names()).toEqual(['Later']);
  expect(client.caseNews).toBeGreaterThan(before);
});

it('without a folder nothing is due', async () => {
  const client = await clientIn([]);
  expect(await client.request<DueResult>('ungula/due', null)).toEqual({
    looked: 0,
    unread: 0,
    isWhole: true,
    cases: [],
  });
});

it('a file that cannot be read as a case is counted, as nobody knows what waits in it', async () => {
  const folder = folderOf({ ...files, 'huge.hoof': new Uint8Array(10_500_000).fill(35) });
  const client = await clientIn([folder]);
  const { looked, unread, isWhole } = await client.request<DueResult>('ungula/due', null);
  expect({ looked, unread, isWhole }).toEqual({ looked: 5, unread: 1, isWhole: true });
});
