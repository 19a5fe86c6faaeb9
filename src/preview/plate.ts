import morphdom from 'morphdom';
import type { PlateInput } from '../../shared/drawing/plate/plate.ts';
import { sceneToSvg } from '../../shared/drawing/svg.ts';
import { meaningOf, nameOf } from '../../shared/views/about-measures.ts';
import { plateOf, unlettered } from '../../shared/views/plate-of.ts';
import type { CutSheet, FilmSheet } from '../../shared/views/film-sheet.ts';
import type { PageState } from '../messages/messages.ts';
import { svgElement } from './svg-element.ts';
import { fittingLettering, plateScene, type Lettering } from './plate-scene.ts';

/** A foot of no case, faintly, and the one next step. */
export function emptyPlate(sentence: string): PlateInput {
  return {
    foot: 'LF',
    view: 'lateral',
    placed: new Map(),
    ground: null,
    marker: null,
    scale: null,
    picture: null,
    labels: [],
    sentence,
  };
}

export interface FilmShown {
  readonly shows: PageState['shows'];
  readonly highlight: string | null;
  readonly cut: CutSheet | null;
  readonly over: PlateInput['over'];
  /** Where the key of a lesson has its places. */
  readonly key?: PlateInput['key'];
}

export function filmPlate(
  sheet: FilmSheet,
  picture: PlateInput['picture'],
  { shows, highlight, cut, over = null, key }: FilmShown,
): PlateInput {
  const input = { ...plateOf(sheet, shows.picture ? picture : null, { highlight, cut }), over, ...(key && { key }) };
  return shows.lettering ? input : unlettered(input);
}

/** The drawing that stands in the page; made anew only where it differs. */
export class Plate {
  #text = '';
  #drawn: PlateInput | null = null;
  #lines: (landmark: string) => number | null = () => null;
  #width = 0;
  #fitting: { readonly of: string; readonly lettering: Lettering } | null = null;

  /** `lines`: the line of a landmark in the text, from 0; null where it has none. */
  show(holder: Element, input: PlateInput, lines: (landmark: string) => number | null): void {
    this.#drawn = input;
    this.#lines = lines;
    this.#width = holder.clientWidth;
    const text = sceneToSvg(plateScene(input, this.#lettering(input)));
    if (text === this.#text && holder.firstElementChild) return;
    const svg = svgElement(text);
    if (!svg) return;
    this.#text = text;
    this.#reachable(svg);
    const old = holder.firstElementChild;
    // What is alike stays, so that a picture on the screen does not flicker and a focus is not lost.
    if (old) morphdom(old, svg, { onBeforeElUpdated: (from, to) => !from.isEqualNode(to) });
    else holder.append(svg);
  }

  /** The pane has another width: the lettering may want another size. */
  fit(holder: Element): void {
    if (this.#drawn && Math.abs(holder.clientWidth - this.#width) > 12) this.show(holder, this.#drawn, this.#lines);
  }

  /** The arrow keys go from landmark to landmark; Enter and the space bar press the one that has the focus. */
  pressedKey(event: KeyboardEvent): 'press' | 'moved' | null {
    const { target, key } = event;
    if (!(target instanceof SVGElement) || !target.hasAttribute('data-landmark')) return null;
    const forward = key === 'ArrowRight' || key === 'ArrowDown';
    const back = key === 'ArrowLeft' || key === 'ArrowUp';
    const presses = key === 'Enter' || key === ' ';
    if (!forward && !back && !presses) return null;
    event.preventDefault();
    if (presses) return 'press';
    stepLandmark(target, forward ? 1 : -1);
    return 'moved';
  }

  /** Found out once for a film in a pane, not at each step of the cursor or of a landmark. */
  #lettering(input: PlateInput): Lettering {
    const of = [this.#width, input.foot, input.picture?.href, ...input.labels.map(({ measure }) => measure)].join('\n');
    if (this.#fitting?.of !== of) this.#fitting = { of, lettering: fittingLettering(input, this.#width) };
    return this.#fitting.lettering;
  }

  /** One stop for the Tab key; the arrow keys go from landmark to landmark. */
  #reachable(svg: SVGElement): void {
    const landmarks = [...svg.querySelectorAll('[data-landmark]')];
    if (landmarks.length === 0) return;
    svg.setAttribute('role', 'group');
    const first = landmarks.find((one) => one.classList.contains('is-lit')) ?? landmarks[0];
    for (const one of landmarks) {
      const name = one.getAttribute('data-landmark') ?? '';
      const line = this.#lines(name);
      if (line === null) continue;
      const meaning = meaningOf(name);
      const title = one.querySelector('title');
      if (title) title.textContent = meaning;
      one.setAttribute('role', 'button');
      one.setAttribute('tabindex', one === first ? '0' : '-1');
      one.setAttribute('aria-label', `${nameOf(name)}: ${meaning}`);
      one.setAttribute('data-line', String(line));
    }
  }
}

/** To the next or the last landmark from the one that has the focus. */
function stepLandmark(from: Element, by: 1 | -1): void {
  const all = [...(from.closest('svg')?.querySelectorAll<SVGElement>('[data-landmark][tabindex]') ?? [])];
  const next = all.at((all.indexOf(from as SVGElement) + by) % all.length);
  if (!next) return;
  for (const one of all) one.setAttribute('tabindex', one === next ? '0' : '-1');
  next.focus();
}
