/** Rules of drawings join those of the page, behind what is there. */
export function adoptInk(rules: string): void {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(rules);
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
}
