import { expect, it } from 'vitest';
import { printHtml } from '../../src/extension/print-html.ts';

const nasty = '<script>alert(1)</script>"&';

it('holds the drawing as a picture in which nothing runs, and loads nothing', () => {
  const svg = `<svg xmlns="http://www.w3.org/2000/svg"><text>Žofie ± ${nasty.replaceAll(/[<&]/g, '')}</text></svg>`;
  const html = printHtml({ title: nasty, svg, language: 'en' });
  expect(html).not.toContain('<script');
  expect(html).not.toMatch(/(?:src|href)="(?!data:image\/svg\+xml;base64,)/);
  expect(html).toContain(`content="default-src 'none'; img-src data:; style-src 'unsafe-inline'"`);
  const [, drawing = ''] = /src="data:image\/svg\+xml;base64,([^"]*)"/.exec(html) ?? [];
  expect(Buffer.from(drawing, 'base64').toString('utf8')).toBe(svg);
});

it('says how to print it, and not on the paper', () => {
  const html = printHtml({ title: 'juniper', svg: '<svg/>', language: 'en' });
  expect(html).toContain('Print this page with Ctrl+P');
  expect(html).toContain('@media print{p{display: none;}}');
});
