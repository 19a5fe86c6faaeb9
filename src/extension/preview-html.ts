import type { WordTable } from '../../shared/language/words.ts';

/** The page in the preview pane. Nothing stands in it but what it loads, and it may load from the named places only. */
export interface PageParts {
  readonly script: string;
  readonly style: string;
  readonly cspSource: string;
  readonly nonce: string;
  /** The words of the page in the language of the editor; absent where that is English. */
  readonly words?: WordTable | undefined;
  /** Language of the words, as HTML names it. */
  readonly language?: string;
}

export function previewHtml({ script, style, cspSource, nonce, words, language = 'en' }: PageParts): string {
  const policy = [
    `default-src 'none'`,
    // Its parts are loaded by the script itself, which hands its nonce on.
    `script-src 'nonce-${nonce}'`,
    `style-src ${cspSource}`,
    // A picture of the course is made in the page itself.
    `img-src ${cspSource} blob:`,
    // What looks for places on a picture is a worker: the page reads its script, and the pictures, and hands them over.
    `connect-src ${cspSource}`,
    `worker-src blob:`,
    `base-uri 'none'`,
    `form-action 'none'`,
  ].join('; ');
  const table = words ? ` data-words="${attribute(JSON.stringify(words))}"` : '';
  return `<!DOCTYPE html>
<html lang="${attribute(words ? language : 'en')}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${attribute(policy)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="stylesheet" href="${attribute(style)}">
<title>Ungula</title>
</head>
<body>
<main id="page"${table}></main>
<script type="module" nonce="${attribute(nonce)}" src="${attribute(script)}"></script>
</body>
</html>
`;
}

const attribute = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('"', '&quot;').replaceAll('<', '&lt;');
