import { t } from '../../shared/language/words.ts';
import { escaped } from '../../shared/drawing/svg.ts';
import { base64Of } from './base64.ts';

/** @param svg a drawing that stands alone */
export interface PrintPage {
  readonly title: string;
  readonly svg: string;
  /** As HTML names it. */
  readonly language: string;
}

/** One sheet of paper with a drawing on it. The drawing is a picture, in which nothing runs and which loads nothing. */
export function printHtml({ title, svg, language }: PrintPage): string {
  const drawing = base64Of(new TextEncoder().encode(svg));
  return `<!doctype html>
<html lang="${escaped(language)}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src data:; style-src 'unsafe-inline'">
<title>${escaped(title)}</title>
<style>
@page { margin: 12mm; }
body { margin: 0; background: #fff; color: #000; font: 16px/1.4 serif; }
p { margin: 16px; }
img { display: block; width: 100%; max-height: 96vh; object-fit: contain; }
@media print{p{display: none;}}
</style>
</head>
<body>
<p>${escaped(t('Print this page with Ctrl+P, on a Mac with Cmd+P.'))}</p>
<img alt="${escaped(title)}" src="data:image/svg+xml;base64,${drawing}">
</body>
</html>
`;
}
