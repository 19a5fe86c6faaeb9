import fc from 'fast-check';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { csv } from '../../shared/export/csv.ts';
import { reportPage } from '../../shared/report/page.ts';
import { previewHtml } from '../../src/extension/preview-html.ts';
import { toldName } from '../../shared/picture/told-name.ts';
import { HOSTILE, hostileCase } from '../host/hostile-texts.ts';

const cell = (value: string | number): string => csv(['x'], [{ x: value }]).slice(3, -2);

describe('a table for a spreadsheet', () => {
  it.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', '\r=1', ' =1', '＝1', '-2 mm', '=HYPERLINK("x")'])(
    'holds %j as a text',
    (text) => {
      expect(cell(text).replace(/^"/, '').startsWith("'")).toBe(true);
    },
  );

  it.each([
    [-1.5, '-1.5'],
    ['Juniper', 'Juniper'],
    ['2026-03-04', '2026-03-04'],
    ['a=b', 'a=b'],
    ['say "whoa"', '"say ""whoa"""'],
  ])('leaves %j alone', (value, text) => {
    expect(cell(value)).toBe(text);
  });

  it('begins no cell with what computes, whatever a text is', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: fc.constantFrom('=', '+', '-', '@', '\t', '\r', '\n', ' ', '"', ',', 'a') }),
        (text) => {
          expect(cell(text).replace(/^"/, '').trimStart()).not.toMatch(/^[=+\-@]/);
        },
      ),
    );
  });
});

describe('a name within a sentence', () => {
  it.each([
    ['films/a.png', 'films/a.png'],
    ['films/\u202egnp.exe', 'films/\ufffdgnp.exe'],
    ['a\nb\u0000c', 'a\ufffdb\ufffdc'],
    ['пони/蹄.png', 'пони/蹄.png'],
  ])('%j reads %j', (written, told) => {
    expect(toldName(written)).toBe(told);
  });

  it('is short, however long it is written, and keeps its ending', () => {
    const told = toldName(`${'🐴'.repeat(1_000_000)}.png`);
    expect([...told].length).toBeLessThan(130);
    expect(told.endsWith('.png')).toBe(true);
    expect(encodeURIComponent(told).length).toBeGreaterThan(0);
  });
});

describe('the page of the pane', () => {
  const html = previewHtml({
    script: 'https://x/"><script>ran=1</script>',
    style: 'a"b',
    cspSource: 'https://*.x"><b>',
    nonce: 'n0',
    words: { [HOSTILE]: HOSTILE },
  });

  it('has its script by a nonce, nothing inline, and loads from named places only', () => {
    expect(html.match(/<script/g)).toHaveLength(1);
    expect(html).toMatch(/<script type="module" nonce="n0" src="[^"]*"><\/script>/);
    expect(html).not.toMatch(/<style|<b>|<[^>"]*(?:"[^"]*"[^>"]*)*\son[a-z]+=/);
    const policy = /Content-Security-Policy" content="([^"]*)"/.exec(html)?.[1] ?? '';
    const rules = new Map(policy.split('; ').map((rule) => [rule.split(' ')[0], rule]));
    expect(rules.get('default-src')).toBe(`default-src 'none'`);
    expect(rules.get('script-src')).toBe(`script-src 'nonce-n0'`);
    expect([...rules.keys()].sort()).toEqual([
      'base-uri',
      'connect-src',
      'default-src',
      'form-action',
      'img-src',
      'script-src',
      'style-src',
      'worker-src',
    ]);
    expect(rules.get('worker-src')).toBe('worker-src blob:');
    expect(policy).not.toMatch(/unsafe|data:|\*(?!\.x)/);
  });

  it('holds the words of a translation as a text', () => {
    const words = /data-words="([^"]*)"/.exec(html)?.[1] ?? '';
    const read = words.replaceAll('&lt;', '<').replaceAll('&quot;', '"').replaceAll('&amp;', '&');
    expect(JSON.parse(read)).toEqual({ [HOSTILE]: HOSTILE });
  });
});

it('the report page holds no markup that a case brought', () => {
  const juniper = readFileSync(join(import.meta.dirname, '../../examples/juniper.hoof'), 'utf8');
  const page = reportPage(
    [{ file: `${HOSTILE}.hoof`, inspection: inspect(hostileCase(juniper)), pictures: new Map() }],
    HOSTILE,
  );
  expect(page).toContain('onerror');
  expect(page).not.toMatch(/<script|<img|<b>|<[^>]*\sonerror="/);
});
