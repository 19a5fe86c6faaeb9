import { is } from 'css-select';
import type { Element } from 'domhandler';
import { COURSE_RULES } from '../../shared/drawing/course/course-ink.ts';
import { inkCss, PRINTED } from '../../shared/drawing/ink.css.ts';
import { classesOf } from './read-page.ts';

/** The stylesheet of the drawings, as it is for print, held to one node of a drawing. */

interface InkRule {
  readonly selector: string;
  readonly weight: number;
  readonly says: readonly (readonly [property: string, value: string])[];
}

const inherited = new Set([
  'fill',
  'stroke',
  'stroke-width',
  'stroke-linecap',
  'stroke-linejoin',
  'font-style',
  'font-weight',
  'visibility',
  'paint-order',
]);

export type Ink = ReadonlyMap<string, string>;

/** In the order in which they win: the more they name, then the later. What waits for a pointer never comes about on paper. */
const rules: readonly InkRule[] = [...inkCss(PRINTED, COURSE_RULES).matchAll(/([^{}]+)\{([^{}]*)\}/g)]
  .flatMap(([, selectors = '', body = '']) =>
    selectors
      .split(',')
      .map((selector) => selector.trim())
      .filter((selector) => !selector.includes(':'))
      .map((selector) => ({ selector, weight: weightOf(selector), says: saidIn(body) })),
  )
  .toSorted((a, b) => a.weight - b.weight);

function saidIn(body: string): InkRule['says'] {
  return body
    .split(';')
    .map((one) => one.split(':').map((part) => part.trim()) as [string, string])
    .filter(([property]) => property !== '');
}

function weightOf(selector: string): number {
  const classes = selector.match(/\.[\w-]+/g)?.length ?? 0;
  const names = selector.match(/(?:^|\s)[a-z]+/g)?.length ?? 0;
  return classes * 100 + names;
}

/** What nodes of one place in the tree look like, by their names and classes from the drawing down. */
const known = new Map<string, Ink>();

/** `path`: what `above` was given for its node; both go down the tree together. */
export function inkOf(
  element: Element,
  above: { readonly ink: Ink; readonly path: string },
): { ink: Ink; path: string } {
  const path = `${above.path}>${element.name}.${classesOf(element).join('.')}`;
  let styled = known.get(path);
  if (!styled) {
    styled = new Map(rules.filter(({ selector }) => is(element, selector)).flatMap(({ says }) => [...says]));
    known.set(path, styled);
  }
  const ink = new Map([...above.ink].filter(([property]) => inherited.has(property)));
  for (const name of ['stroke-width', 'stroke-dasharray', 'font-size', 'text-anchor']) {
    const own = element.attribs[name];
    if (own !== undefined) ink.set(name, own);
  }
  for (const [property, value] of styled) ink.set(property, value);
  return { ink, path };
}
