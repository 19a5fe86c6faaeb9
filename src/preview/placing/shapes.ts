/** An element of a drawing with its attributes. */
export function shape(name: string, attributes: Readonly<Record<string, string | number>> = {}): SVGElement {
  const element = document.createElementNS('http://www.w3.org/2000/svg', name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value));
  return element;
}
