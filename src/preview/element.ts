type Child = Node | string | null | false | undefined;
type Attributes = Readonly<Record<string, string | null | false | undefined>>;

/** An element of the page. Text goes in as text, never as markup. */
export function element<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[K] {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) if (typeof value === 'string') made.setAttribute(name, value);
  for (const child of children) if (child) made.append(child);
  return made;
}

/** The text of a drawing as an element. Null where it is no well-formed SVG. */
export function svgElement(text: string): SVGElement | null {
  const parsed = new DOMParser().parseFromString(text, 'image/svg+xml').documentElement;
  return parsed.localName === 'svg' ? (document.importNode(parsed, true) as unknown as SVGElement) : null;
}
