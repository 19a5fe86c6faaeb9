import { expect, it, vi } from 'vitest';
import { overList } from '../../src/extension/due-list.ts';

vi.mock('vscode', () => ({}));

const none = { looked: 3, unread: 0, isWhole: true, cases: [] };

it('that nothing waits is said only where every case file was looked at', () => {
  expect(overList(none)).toBe('Nothing waits today.');
  expect(overList({ ...none, unread: 1 })).toBe('One case file could not be read: what waits in it is not known.');
  expect(overList({ ...none, unread: 2 })).toMatch(/^2 case files could not be read/);
  expect(overList({ ...none, isWhole: false })).toMatch(/^Not every case file was read/);
});
