/** The text of a drawing as an element. Null where it is no well-formed SVG. */
export function svgElement(text: string): SVGElement | null {
  const parsed = new DOMParser().parseFromString(text, 'image/svg+xml').documentElement;
  return parsed.localName === 'svg' ? (document.importNode(parsed, true) as unknown as SVGElement) : null;
}
