import { expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { handedPage } from '../../shared/report/pages/handed-page.ts';
import { pageText } from '../../shared/report/pages/page-text.ts';

it('many alarms of one kind stand in one line of the owner’s page, below what is to be done', () => {
  const months = Array.from({ length: 12 }, (_, month) => `2025-${String(month + 1).padStart(2, '0')}-04`);
  const visits = months.map((day) => `visit ${day}\n  sign fever\n`).join('\n');
  const inspection = inspect(`hoof 1\n\ncase "Clover"\n  animal horse\n\n${visits}`);
  const words = pageText(handedPage('owner', { inspection, pictures: new Map(), date: '2025-12-05', names: false }));
  const kind = 'The case tells of signs that the vet has to see';
  expect(words.split(kind)).toHaveLength(2);
  expect(words).toMatch(/Visits of \d+ \w+ 2025, \d+ \w+ 2025, \d+ \w+ 2025 and \d+ more\./);
  expect(words.indexOf('Ring your vet today')).toBeGreaterThan(-1);
  expect(words.indexOf('Ring your vet today')).toBeLessThan(words.indexOf(kind));
});
