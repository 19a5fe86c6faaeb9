/**
 * Makes `old` like `fresh` and leaves alone what is alike already, so that scrolling, focus, an opened detail and a
 * picture that is on the screen stay as they are. What is inside an element with `data-own` is somebody else's.
 */
export function morph(old: Element, fresh: Element): void {
  if (old.isEqualNode(fresh)) return;
  matchAttributes(old, fresh);
  if (fresh.hasAttribute('data-own')) return;
  const wanted = [...fresh.childNodes];
  const there = [...old.childNodes];
  wanted.forEach((child, index) => {
    const before = there[index];
    if (!before) old.append(child);
    else if (!alike(before, child)) before.replaceWith(child);
    else if (before instanceof Element && child instanceof Element) morph(before, child);
    else if (before.nodeValue !== child.nodeValue) before.nodeValue = child.nodeValue;
  });
  for (const extra of there.slice(wanted.length)) extra.remove();
}

function alike(a: Node, b: Node): boolean {
  if (a.nodeType !== b.nodeType || a.nodeName !== b.nodeName) return false;
  return !(a instanceof Element && b instanceof Element) || a.getAttribute('data-key') === b.getAttribute('data-key');
}

function matchAttributes(old: Element, fresh: Element): void {
  for (const name of old.getAttributeNames()) {
    const isOpened = name === 'open' && old.localName === 'details';
    if (!isOpened && !fresh.hasAttribute(name)) old.removeAttribute(name);
  }
  for (const { name, value } of fresh.attributes) if (old.getAttribute(name) !== value) old.setAttribute(name, value);
}
