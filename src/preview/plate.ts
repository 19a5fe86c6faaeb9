import { drawPlate, type PlateInput } from '../../shared/drawing/plate.ts';
import { sceneToSvg } from '../../shared/drawing/svg.ts';
import { plateOf } from '../../shared/report/plate-of.ts';
import type { FilmSheet } from '../../shared/report/film-sheet.ts';
import type { PageState } from '../extension/messages.ts';
import { svgElement } from './element.ts';
import { morph } from './morph.ts';

/** A foot of no case, faintly, and the one next step. */
export function emptyPlate(sentence: string): PlateInput {
  return { foot: 'LF', view: 'lateral', placed: new Map(), ground: null, marker: null, scale: null, picture: null, labels: [], sentence };
}

export function filmPlate(sheet: FilmSheet, picture: PlateInput['picture'], shows: PageState['shows'], highlight: string | null): PlateInput {
  const input = plateOf(sheet, shows.picture ? picture : null, highlight);
  return shows.lettering ? input : { ...input, labels: [] };
}

/** Where the plate stands in the page; drawn anew only where it differs. */
export class Plate {
  #text = '';
  readonly #lines: (landmark: string) => number | null;

  constructor(lines: (landmark: string) => number | null) {
    this.#lines = lines;
  }

  show(holder: Element, input: PlateInput): void {
    const text = sceneToSvg(drawPlate(input));
    if (text === this.#text && holder.firstElementChild) return;
    const svg = svgElement(text);
    if (!svg) return;
    this.#text = text;
    this.#reachable(svg);
    const old = holder.firstElementChild;
    if (old) morph(old, svg);
    else holder.append(svg);
  }

  /** One stop for the Tab key; the arrow keys go from landmark to landmark. */
  #reachable(svg: SVGElement): void {
    const landmarks = [...svg.querySelectorAll('[data-landmark]')];
    if (landmarks.length === 0) return;
    svg.setAttribute('role', 'group');
    const first = landmarks.find((one) => one.classList.contains('is-lit')) ?? landmarks[0];
    for (const one of landmarks) {
      const line = this.#lines(one.getAttribute('data-landmark') ?? '');
      if (line === null) continue;
      one.setAttribute('role', 'button');
      one.setAttribute('tabindex', one === first ? '0' : '-1');
      one.setAttribute('aria-label', `${one.getAttribute('data-landmark')}: ${one.querySelector('title')?.textContent ?? ''}`);
      one.setAttribute('data-line', String(line));
    }
  }
}

/** To the next or the last landmark from the one that has the focus. */
export function stepLandmark(from: Element, by: 1 | -1): void {
  const all = [...(from.closest('svg')?.querySelectorAll<SVGElement>('[data-landmark][tabindex]') ?? [])];
  const next = all.at((all.indexOf(from as SVGElement) + by) % all.length);
  if (!next) return;
  for (const one of all) one.setAttribute('tabindex', one === next ? '0' : '-1');
  next.focus();
}
