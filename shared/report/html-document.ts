import { languageInUse } from '../language/words.ts';
import { escaped } from '../drawing/svg.ts';

export interface DocumentParts {
  readonly title: string;
  readonly style: string;
  /** Class of the body; none where it is left out. */
  readonly kind?: string;
  /** HTML. */
  readonly body: string;
}

/** A whole document: needs nothing else, runs nothing, asks for nothing. */
export function htmlDocument({ title, style, kind, body }: DocumentParts): string {
  return `<!DOCTYPE html>
<html lang="${escaped(languageInUse())}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src data:; style-src 'unsafe-inline'">
<title>${escaped(title)}</title>
<style>${style}</style>
</head>
<body${kind === undefined ? '' : ` class="${kind}"`}>
${body}
</body>
</html>
`;
}
