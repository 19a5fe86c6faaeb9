import { stageLines } from '../../../shared/drawing/plate/stage-lines.ts';
import { restsOn } from '../../../shared/views/about-measures.ts';
import type { FilmSheet, MeasureRow, XY } from '../../../shared/views/film-sheet.ts';
import { whereToLook } from '../../../shared/views/where-to-look.ts';
import { t } from '../../../shared/language/words.ts';
import type { Sight } from '../../messages/placing-messages.ts';
import type { FitRim } from './edge-fit.ts';
import { FilmPixels } from './film-pixels.ts';
import { isFound, partnerOf } from '../../../shared/views/proposed-places.ts';
import { Glass } from './glass.ts';
import { Overview, overviewPlace } from './overview.ts';
import { handlesOf } from './handles.ts';
import { boxesAlong, labelsSvg, layLabels, layNames, spotBoxes } from './stage-labels.ts';
import { StageMarks } from './stage-marks.ts';
import type { PlacingModel } from './placing-model.ts';
import { shape } from './shapes.ts';
import { held, onto, panned, toPicture, toStage, wholeSight, zoomed, type Size } from './view.ts';

export interface StageContent {
  /** The film as it will be once all is written. */
  readonly live: FilmSheet;
  readonly sheet: FilmSheet;
  readonly href: string;
  readonly picture: Size;
  readonly drawing: boolean;
  /** Nothing tells where a place is to be sought: in a lesson whose key is not shown. */
  readonly isAlone: boolean;
  /** The landmark that the cursor of the text is on. */
  readonly cursor: string | null;
}

/** How near an edge has to be to be taken, CSS pixels. */
const SNAP = 8;
const TOO_NARROW = 480;

/** A share is drawn by the lengths that it is made of; its number stands in the table. */
const isDrawn = ({ unit }: MeasureRow): boolean => unit === 'deg' || unit === 'mm';

/** The picture with everything on it. Its parts stand in the page once and are moved: nothing here is made anew at a frame. */
export class PlacingStage {
  readonly model: PlacingModel;
  readonly #holder: HTMLElement;
  readonly #film = new Image();
  readonly #svg = shape('svg', {
    class: 'stage-ink',
    'aria-hidden': 'false',
    role: 'group',
    'aria-label': t('Places on the film'),
  });
  readonly #drawn = shape('g', { class: 'drawn' });
  readonly #labels = shape('g', { class: 'stage-labels', 'aria-hidden': 'true' });
  readonly #paths = new Map<string, SVGElement>();
  readonly #marks: StageMarks;
  readonly #glass = new Glass();
  readonly #overview = new Overview();
  readonly #crossMark = shape('svg', { class: 'stage-cross', 'aria-hidden': 'true' });
  readonly #watch: ResizeObserver;
  #shown: StageContent | null = null;
  #sight: Sight | null = null;
  #size: Size = { width: 0, height: 0 };
  #pixels: { readonly href: string; readonly film: FilmPixels } | null = null;
  #keeping: ReturnType<typeof setTimeout> | undefined;
  #hover: XY | null = null;
  /** Where Enter places, on the picture; null: in the middle of the stage. */
  #cross: XY | null = null;
  /** The cross was moved last, and not the pointer. */
  #keyed = false;
  /** The place that was asked for last, and how the foot lay. */
  #asked: string | null = null;
  /** A person has moved the cross since that place is asked for. */
  #steered = false;
  #lifted = false;
  #frame = 0;
  #labelText = '';

  constructor(holder: HTMLElement, model: PlacingModel) {
    this.model = model;
    this.#holder = holder;
    this.#film.className = 'film-picture';
    this.#film.alt = '';
    this.#film.draggable = false;
    this.#marks = new StageMarks();
    for (const name of ['ground', 'marker', 'inner', 'outline', 'measure']) {
      for (const kind of ['halo', 'ink']) {
        const path = shape('path', { class: `${kind} ${name}` });
        this.#paths.set(`${name} ${kind}`, path);
        this.#drawn.append(path);
      }
    }
    this.#svg.append(this.#drawn, this.#marks.beneath, this.#labels, this.#marks.above);
    this.#crossMark.append(shape('path', { d: 'M-16 0H-4M4 0H16M0-16V-4M0 4V16' }));
    holder.append(this.#film, this.#svg, this.#overview.element, this.#crossMark, this.#glass.element);
    this.#watch = new ResizeObserver(() => this.#measure());
    this.#watch.observe(holder);
    model.fitRim = this.#fitRim;
  }

  close(): void {
    this.#watch.disconnect();
    if (this.model.fitRim === this.#fitRim) this.model.fitRim = null;
    clearTimeout(this.#keeping);
    cancelAnimationFrame(this.#frame);
    this.#keep();
  }

  get shown(): StageContent | null {
    return this.#shown;
  }

  show(shown: StageContent): void {
    const before = this.#shown;
    this.#shown = shown;
    if (before?.href !== shown.href) {
      this.#film.src = shown.href;
      this.#glass.show(shown.href);
      this.#overview.show(shown.href);
      const kept = this.model.state.sights[shown.sheet.picture] ?? null;
      this.#sight = kept;
      this.#hover = null;
      this.#cross = null;
      this.#asked = null;
    }
    if (this.#size.width === 0) this.#measure();
    const { contrast, brightness, inverted } = this.model.lightOf(shown.sheet.picture);
    const filter =
      contrast === 1 && brightness === 1 && !inverted
        ? ''
        : `${inverted ? 'invert(1) ' : ''}brightness(${brightness}) contrast(${contrast})`;
    if (this.#film.style.filter !== filter) {
      this.#film.style.filter = filter;
      this.#glass.light(filter);
      this.#overview.light(filter);
    }
    this.#goTo(this.model.step(shown.live)?.key ?? null, before !== null);
    // Read ahead: whoever takes the offer does not wait.
    if (this.model.edgeOffer(shown.live) || this.model.rim) this.pixelsOf(shown.href);
    this.#holder.classList.toggle('is-bright', inverted);
    this.#holder.classList.toggle('is-awaiting', this.model.awaits(shown.live));
    this.draw();
  }

  /** Another place is asked for: the cross goes where it is to be looked for, and a film that is seen from near follows. */
  #goTo(key: string | null, isOpen: boolean): void {
    const shown = this.#shown;
    if (!shown) return;
    const { live, picture, isAlone } = shown;
    const toe = this.model.toe(live);
    const asks = this.model.ghostAsked(live);
    const ghost = asks && isFound(asks) ? asks : null;
    const step = `${key} ${toe}`;
    const asked = `${step} ${ghost !== null}`;
    if (asked === this.#asked) return;
    const isSame = this.#asked?.startsWith(`${step} `) === true;
    this.#asked = asked;
    // A proposal that comes late takes no cross away from a hand.
    if (isSame && this.#steered) return;
    this.#steered = false;
    const at = ghost?.at ?? (key === null || isAlone ? null : whereToLook(live, key, toe));
    if (!at) return;
    this.#cross = onto(picture, at);
    // Looked at through the glass before it is confirmed, until the pointer is moved.
    if (ghost) this.#keyed = true;
    // How the film was looked at before the page was loaded again stays.
    if (isOpen) this.reveal(this.#cross);
  }

  /** All that depends on what is placed and on how the picture lies. */
  draw(): void {
    cancelAnimationFrame(this.#frame);
    this.#frame = 0;
    const { sight } = this;
    const shown = this.#shown;
    if (!shown || !sight) return;
    const { live, picture } = shown;
    const corner = toStage(sight, this.#size, { x: 0, y: 0 });
    const lie = `translate(${corner.x}px, ${corner.y}px) scale(${sight.zoom})`;
    this.#film.style.width = `${picture.width}px`;
    this.#film.style.height = `${picture.height}px`;
    this.#film.style.transform = lie;
    this.#drawn.setAttribute('transform', `translate(${corner.x} ${corner.y}) scale(${sight.zoom})`);
    const told = this.model.told;
    const rows = told === null ? [] : live.rows.filter((row) => restsOn(row.measure, told) && isDrawn(row));
    const lines = stageLines({
      view: live.view,
      placed: new Map(Object.entries(live.placed)),
      ground: live.ground,
      bearing: live.bearing,
      scale: live.scale,
      picture,
      measures: rows.map(({ measure }) => measure),
    });
    this.#way('outline', shown.drawing ? lines.outline : '');
    this.#way('inner', shown.drawing ? lines.inner : '');
    this.#way('ground', lines.ground);
    this.#way('measure', lines.measures.map(({ way }) => way).join(''));
    const { first, rim, selected, ends } = this.model;
    const marker = ends ?? live.marker;
    this.#way('marker', marker ? `M${marker[0].x} ${marker[0].y}L${marker[1].x} ${marker[1].y}` : '');
    const place = (at: XY): XY => toStage(sight, this.#size, at);
    const handles = handlesOf(live).map((handle) => ({ ...handle, at: place(handle.at) }));
    const pointer = this.#pointer;
    const looked = this.model.handleAt(shown.sheet) ?? (pointer && toPicture(sight, this.#size, pointer));
    const overview = overviewPlace(sight, this.#size, picture, looked);
    this.#overview.lay(overview);
    const taken = overview ? [{ ...overview.at, ...overview.size }] : [];
    const measured = rows.flatMap((row) => {
      const anchor = lines.measures.find(({ measure }) => measure === row.measure)?.anchor;
      return anchor ? [{ row, anchor: place(anchor) }] : [];
    });
    const bar = marker ? boxesAlong([place(marker[0]), place(marker[1])]) : [];
    const labels =
      this.#size.width < TOO_NARROW ? [] : layLabels(measured, this.#size, [...taken, ...spotBoxes(handles)], bar);
    const labelText = labelsSvg(labels);
    if (labelText !== this.#labelText) {
      this.#labelText = labelText;
      this.#labels.innerHTML = labelText;
    }
    const ghosts = this.model.ghosts(live).map((one) => ({
      name: one.name,
      at: place(one.at),
      distinct: one.distinct,
      found: isFound(one),
      partner: partnerOf(one),
    }));
    const centre = rim && rim.length === 3 ? this.model.rimCentre(live) : null;
    this.#marks.show({
      handles,
      names: layNames(handles, selected, this.#size, [...taken, ...labels.map(({ box }) => box)]),
      ghosts,
      ghostLines: ghosts.flatMap(({ name, partner, at }) => {
        const other = ghosts.find((one) => one.name === partner);
        // Once for both ends.
        return other && name < other.name ? [[at, other.at] as const] : [];
      }),
      asked: this.model.ghostAsked(live)?.name ?? null,
      selected,
      cursor: shown.cursor,
      first: first && place(first),
      to: first && pointer && place(this.aimed(pointer)),
      rim: (rim ?? []).map(place),
      circle: centre && 'centre' in centre ? { at: place(centre.centre), radius: centre.radius * sight.zoom } : null,
    });
    this.#aim();
  }

  get sight(): Sight | null {
    const shown = this.#shown;
    if (!shown || this.#size.width === 0) return null;
    return held(this.#sight ?? wholeSight(this.#size, shown.picture), this.#size, shown.picture);
  }

  /** Null: the whole picture, however large the pane becomes. */
  look(sight: Sight | null): void {
    this.#sight = sight;
    clearTimeout(this.#keeping);
    this.#keeping = setTimeout(() => this.#keep(), 250);
    this.soon();
  }

  #keep(): void {
    const picture = this.#shown?.sheet.picture;
    if (picture !== undefined && this.model.isOn) this.model.setSight(picture, this.#sight);
  }

  zoom(factor: number, at: XY = this.middle): void {
    const { sight } = this;
    if (sight && this.#shown) this.look(zoomed(sight, this.#size, this.#shown.picture, at, factor));
  }

  pan(dx: number, dy: number): void {
    const { sight } = this;
    if (sight && this.#shown) this.look(panned(sight, this.#size, this.#shown.picture, dx, dy));
  }

  /** Where Enter places, on the stage. */
  get cross(): XY {
    const { sight } = this;
    const shown = this.#shown;
    if (!sight || !shown || !this.#cross || !this.model.awaits(shown.live)) return this.middle;
    return toStage(sight, this.#size, this.#cross);
  }

  /** The proposed place under the cross, which Enter confirms: a cross that was moved says another place. */
  get ghostAtCross(): string | null {
    const shown = this.#shown;
    const ghost = shown && this.model.ghostAsked(shown.live);
    if (!ghost || !isFound(ghost)) return null;
    const at = this.#cross;
    return at && Math.hypot(at.x - ghost.at.x, at.y - ghost.at.y) < 0.5 ? ghost.name : null;
  }

  get isSteered(): boolean {
    return this.#steered;
  }

  /** By so many CSS pixels; the picture follows where the cross would leave the stage. */
  moveCross({ x, y }: XY): void {
    const from = this.cross;
    this.#cross = this.plain({ x: from.x + x, y: from.y + y });
    this.#keyed = true;
    this.#steered = true;
    this.reveal(this.#cross);
    this.soon();
  }

  /** The keyboard has gone elsewhere. */
  leaveCross(): void {
    this.#keyed = false;
    this.soon();
  }

  /** Where the pointer is, or the cross where that was moved last; on the stage. */
  get #pointer(): XY | null {
    return this.#keyed ? this.cross : this.#hover;
  }

  get size(): Size {
    return this.#size;
  }

  get middle(): XY {
    return { x: this.#size.width / 2, y: this.#size.height / 2 };
  }

  /** Brings a place into sight, if it is not. */
  reveal(at: XY): void {
    const { sight } = this;
    if (!sight || !this.#shown) return;
    const spot = toStage(sight, this.#size, at);
    const room = 24;
    const inside =
      spot.x > room && spot.y > room && spot.x < this.#size.width - room && spot.y < this.#size.height - room;
    if (!inside) this.look(held({ ...sight, ...at }, this.#size, this.#shown.picture));
  }

  /** A place on the stage as one of the picture: the edge beside it where that is wanted and there is one. */
  aimed(at: XY, free = false): XY {
    return (free ? null : this.#edge(at)) ?? this.plain(at);
  }

  /** The same for a place of the picture. */
  aimedSpot(spot: XY, free: boolean): XY {
    const { sight } = this;
    return sight ? this.aimed(toStage(sight, this.#size, spot), free) : spot;
  }

  within(spot: XY): XY {
    return this.#shown ? onto(this.#shown.picture, spot) : spot;
  }

  focus(): void {
    this.#holder.focus({ preventScroll: true });
  }

  plain(at: XY): XY {
    const { sight } = this;
    return sight && this.#shown ? onto(this.#shown.picture, toPicture(sight, this.#size, at)) : at;
  }

  #edge(at: XY): XY | null {
    const { sight } = this;
    const shown = this.#shown;
    if (!this.model.state.snaps || !sight || !shown) return null;
    const edge = this.pixelsOf(shown.href).edgeNear(toPicture(sight, this.#size, at), SNAP / sight.zoom);
    return edge && onto(shown.picture, edge);
  }

  readonly #fitRim: FitRim = ([a, b, c], reach) => {
    const href = this.#shown?.href;
    const film = href === undefined ? null : this.pixelsOf(href);
    return film?.isReady ? film.edgeAround(a, b, c, reach) : undefined;
  };

  /** Lays the line that is offered onto the edge beside it. */
  fitEdge(): void {
    const shown = this.#shown;
    if (!shown || !this.model.edgeOffer(shown.live)) return;
    const film = this.pixelsOf(shown.href);
    if (film.isBarred)
      this.model.refuse(t('The pixels of this picture cannot be looked at here, so no edge is found. Place by eye.'));
    else if (!film.isReady) this.model.refuse(t('The picture is still being read. Try it again in a moment.'));
    else this.model.fitEdge(shown.sheet, (...asked) => film.edgeAlong(...asked));
  }

  /** Loaded only once somebody wants edges. */
  pixelsOf(href: string): FilmPixels {
    if (this.#pixels?.href !== href)
      this.#pixels = {
        href,
        film: new FilmPixels(href, () => this.model.edgesNews(this.#pixels?.film.isBarred ?? false)),
      };
    return this.#pixels.film;
  }

  /** Where the pointer rests; null where it is elsewhere. `lifted`: a finger hides what is below it. */
  hover(at: XY | null, lifted = false): void {
    this.#hover = at;
    this.#keyed &&= at === null;
    this.#lifted = lifted && at !== null;
    this.#glass.lifted = lifted;
    this.soon();
  }

  /** One drawing at the next frame, however often it is asked for. */
  soon(): void {
    if (this.#frame) return;
    this.#frame = requestAnimationFrame(() => this.draw());
  }

  #aim(): void {
    const { sight } = this;
    const shown = this.#shown;
    const hover = this.#pointer;
    const { x, y } = this.cross;
    this.#crossMark.style.transform = `translate(${x}px, ${y}px)`;
    const begun = this.model.ends !== null;
    const busy = this.model.isDragging || this.#lifted || (shown !== null && this.model.awaits(shown.live) && !begun);
    if (!hover || !sight || !shown || !busy) {
      this.#glass.hide();
      this.#marks.aim(null);
      return;
    }
    const edge = this.model.isDragging ? null : this.#edge(hover);
    const handle = this.model.isDragging ? this.model.handleAt(shown.sheet) : null;
    const spot = handle ?? edge ?? toPicture(sight, this.#size, hover);
    this.#marks.aim(edge && toStage(sight, this.#size, edge));
    this.#glass.look(spot, toStage(sight, this.#size, spot), sight.zoom, this.#size, shown.picture);
  }

  #way(name: string, way: string): void {
    for (const kind of ['halo', 'ink']) {
      const path = this.#paths.get(`${name} ${kind}`);
      if (path && path.getAttribute('d') !== way) path.setAttribute('d', way);
    }
  }

  #measure(): void {
    const { clientWidth: width, clientHeight: height } = this.#holder;
    if (width === this.#size.width && height === this.#size.height) return;
    this.#size = { width, height };
    this.#svg.setAttribute('viewBox', `0 0 ${width} ${height}`);
    this.draw();
  }
}
