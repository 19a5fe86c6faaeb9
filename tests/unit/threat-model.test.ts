import { existsSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = resolve(import.meta.dirname, '..', '..');
const read = (path: string): string => readFileSync(join(root, path), 'utf8');
const page = read('docs/threat-model.md');
const [, , ...rows] = page.split('\n').filter((line) => line.startsWith('|'));
const cells = rows.map((row) =>
  row
    .split('|')
    .slice(1, -1)
    .map((cell) => cell.trim()),
);
const named = [...page.matchAll(/`(tests\/[^`]+)`/g)].map(([, path = '']) => path);

describe('the page on what is defended', () => {
  it.each([...new Set(named)])('names a test that there is: %s', (path) => {
    expect(existsSync(join(root, path)), path).toBe(true);
    expect(read(path)).toMatch(/\bexpect|\bcheck\(/);
  });

  it('names a test in every row, and leaves no cell empty', () => {
    expect(cells.length).toBeGreaterThan(10);
    for (const row of cells) {
      expect(row, row[0]).toHaveLength(5);
      expect(row.filter((cell) => cell === '')).toEqual([]);
      expect(row[3], row[0]).toMatch(/^`tests\/[^`]+`(?:, `tests\/[^`]+`)*$/);
    }
  });

  it('is found from the front page and by those who build', () => {
    for (const from of ['README.md', 'DEVELOPERS.md']) expect(read(from), from).toContain('](docs/threat-model.md)');
  });
});
