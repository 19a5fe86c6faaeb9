/** The words of a page that the program made itself, as plain text: a line for each paragraph, point and row. Drawings are left out. */
export function pageText(html: string): string {
  return html
    .slice(html.indexOf('<body'))
    .replaceAll(/<svg[^]*?<\/svg>/g, '')
    .replaceAll(/<li[^>]*>/g, '- ')
    .replaceAll(/<\/t[hd]>/g, '\t')
    .replaceAll(/<\/(?:h[1-6]|p|li|tr|figcaption|caption|dt|section|header)>|<br>/g, '\n')
    .replaceAll(/<[^>]*>/g, '')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&amp;', '&')
    .split('\n')
    .map((line) => line.trim())
    .join('\n')
    .replaceAll(/\n{3,}/g, '\n\n')
    .trim();
}
