import type { FilmSheet, XY } from '../../../shared/views/film-sheet.ts';
import { edgeOfLine, edgePair, type EdgeOffer } from '../../../shared/views/edge-pair.ts';
import { tenth } from '../../../shared/edits/tenth.ts';
import { liveSheet } from '../../../shared/views/live-sheet.ts';
import { placingBounds } from '../../../shared/edits/placing-bounds.ts';
import type { Placement } from '../../../shared/edits/placing-schema.ts';
import { t } from '../../../shared/language/words.ts';
import { toeSide, type ToeSide } from '../../../shared/views/toe-side.ts';
import {
  everyStep,
  isLineKey,
  isPlaced,
  nextSet,
  stepAfter,
  stepAt,
  stepBefore,
  stepsFor,
  wantedIn,
  type NextSet,
  type PlacingStep,
} from '../../../shared/views/what-to-place.ts';
import type { PageMessage, SheetsMessage } from '../../messages/messages.ts';
import {
  noPlacing,
  type Light,
  type PlacedMessage,
  type PlacingState,
  type Sight,
} from '../../messages/placing-messages.ts';
import { filmKey } from '../../../shared/views/film-choice.ts';
import { confirmedPlace } from '../../../shared/edits/confirmed-place.ts';
import type { Proposed } from '../../../shared/proposals/from-film-before.ts';
import type { Proposal } from '../../../shared/proposals/proposal.ts';
import { isFound, isSure, partnerOf } from '../../../shared/views/proposed-places.ts';
import { Ghosts } from './ghosts.ts';
import {
  endsOffered,
  kindOffered,
  noEdge,
  placedOnEdge,
  reachOn,
  rimCentre,
  type FitEdge,
  type FitRim,
  type RimCentre,
} from './edge-fit.ts';
import { byHand, handlesOf, lineOf, moved, type Handle } from './handles.ts';

/** What the model needs of the page around it. */
export interface PlacingPage {
  state(): PlacingState | undefined;
  message(): SheetsMessage | null;
  keep(state: PlacingState): void;
  tell(message: PageMessage): void;
  changed(when: 'now' | 'soon'): void;
}

/** What was asked of the text and is not in the sheets yet. */
interface Wish {
  readonly id: number;
  readonly uri: string;
  readonly film: string;
  readonly placements: readonly Placement[];
  /** Version of the text that has it; null until the host says so. */
  readonly version: number | null;
}

export const evenLight: Light = { contrast: 1, brightness: 1, inverted: false };

/** What happens while somebody places: knows the text only by its sheets, and writes only by asking. */
export class PlacingModel {
  readonly #around: PlacingPage;
  #wishes: readonly Wish[] = [];
  #count = 0;
  #live: { readonly of: FilmSheet; readonly made: readonly Placement[]; readonly sheet: FilmSheet } | null = null;
  /** What is being moved at this moment and not yet asked for. */
  #drag: Placement | null = null;
  /** The handle that was picked. */
  selected: string | null = null;
  /** The landmark that was placed or moved last: its measures are told on the picture. */
  told: string | null = null;
  /** The first end of a line of which the second is awaited. */
  first: XY | null = null;
  /** Both ends of a marker whose length nobody has said yet. */
  ends: readonly [XY, XY] | null = null;
  /** Points on the rounded end of a bone; null where a centre is placed by itself. */
  rim: readonly XY[] | null = null;
  /** The browser does not let the page look at the pixels of this film. */
  edgesBarred = false;
  /** Looks for the rounded edge beside three points; null while there is no picture. */
  fitRim: FitRim | null = null;
  /** A point of the rim is in the hand: the edge is looked for once it rests. */
  #rimMoves = false;
  /** What was found for these three points. */
  #rimFound: { readonly rim: readonly XY[]; readonly live: FilmSheet; readonly centre: RimCentre } | null = null;
  /** Where the line lies that was laid onto its edge last: it is not offered again. */
  #fitted: { readonly name: string; readonly ends: readonly [XY, XY] } | null = null;
  readonly #ghosts = new Ghosts();
  /** A refusal, until something else is done. */
  says: string | null = null;

  constructor(around: PlacingPage) {
    this.#around = around;
  }

  get state(): PlacingState {
    return this.#around.state() ?? noPlacing;
  }

  get isOn(): boolean {
    return this.state.film !== null;
  }

  /** The film as it will be once everything is written that was asked. */
  sheetOf(sheet: FilmSheet): FilmSheet {
    const key = filmKey(sheet);
    const wished = this.#wishes.filter(({ film }) => film === key).flatMap(({ placements }) => placements);
    const made = this.#drag ? [...wished, this.#drag] : wished;
    const known = this.#live;
    if (known?.of === sheet && known.made.length === made.length && made.every((one, at) => one === known.made[at]))
      return known.sheet;
    this.#live = { of: sheet, made, sheet: liveSheet(sheet, made) };
    return this.#live.sheet;
  }

  steps(sheet: FilmSheet): readonly PlacingStep[] {
    return stepsFor(sheet, this.state.wanted);
  }

  /** The step that a click on the picture is for; null where everything wanted is placed or skipped. */
  step(sheet: FilmSheet): PlacingStep | null {
    const { step, skipped } = this.state;
    const steps = this.steps(sheet);
    // What was chosen by itself comes first, wanted or not.
    const extra = steps.some(({ key }) => key === step) ? null : everyStep(sheet).find(({ key }) => key === step);
    return extra && !isPlaced(extra, sheet) ? extra : stepAt(steps, sheet, step, skipped);
  }

  open(sheet: FilmSheet): void {
    this.#forgetHand();
    this.#remember({ film: filmKey(sheet), step: null, wanted: wantedIn(sheet, this.state.wanted) });
  }

  done(): void {
    this.#forgetHand();
    this.#remember({ film: null });
  }

  /** Takes back what is begun, else what is picked, else ends placing. */
  escape(): void {
    if (this.#drag) this.#drag = null;
    else if (this.first) this.first = null;
    else if (this.ends) this.ends = null;
    else if (this.rim && this.rim.length > 0) this.rim = [];
    else if (this.rim) this.rim = null;
    else if (this.selected !== null) this.selected = null;
    else return this.done();
    this.#around.changed('now');
  }

  want(sheet: FilmSheet, name: string): void {
    const now = wantedIn(sheet, this.state.wanted);
    const wanted = now.includes(name) ? now.filter((one) => one !== name) : [...now, name];
    this.#letGo();
    this.#remember({ wanted, step: null });
  }

  /** What the walk may go on with once it is over; null where nothing more is open. */
  offer(sheet: FilmSheet): NextSet | null {
    return nextSet(sheet, this.state.wanted);
  }

  /** Goes on with more, also with what of it was skipped before. */
  goOn(sheet: FilmSheet, { name, keys }: NextSet): void {
    const { skipped } = this.state;
    this.#letGo();
    this.#remember({
      wanted: [...wantedIn(sheet, this.state.wanted), name],
      step: null,
      skipped: skipped.filter((key) => !keys.includes(key)),
    });
  }

  /** Which way the toe points: by what is placed, else as a person has said of this picture. */
  toe({ view, placed, picture }: FilmSheet): ToeSide | null {
    return view === 'lateral' ? (toeSide(placed) ?? this.state.toes?.[picture] ?? null) : null;
  }

  sayToe(picture: string, side: ToeSide): void {
    this.#remember({ toes: { ...this.state.toes, [picture]: side } });
  }

  choose(key: string): void {
    this.#letGo();
    this.selected = null;
    this.#remember({ step: key, skipped: this.state.skipped.filter((one) => one !== key) });
  }

  skip(sheet: FilmSheet): void {
    const step = this.step(sheet);
    if (!step) return;
    const skipped = isPlaced(step, sheet) ? this.state.skipped : [...new Set([...this.state.skipped, step.key])];
    this.#letGo();
    this.#remember({ skipped, step: stepAfter(this.steps(sheet), sheet, step.key, skipped)?.key ?? null });
  }

  back(sheet: FilmSheet): void {
    const before = stepBefore(this.steps(sheet), this.step(sheet)?.key ?? null);
    if (before) this.choose(before.key);
  }

  toggleRim(): void {
    this.rim = this.rim ? null : [];
    this.#around.changed('now');
  }

  setLight(picture: string, part: Partial<Light>): void {
    const { lights } = this.state;
    this.#remember({ lights: { ...lights, [picture]: { ...(lights[picture] ?? evenLight), ...part } } }, 'soon');
  }

  lightOf(picture: string): Light {
    return this.state.lights[picture] ?? evenLight;
  }

  setSight(picture: string, sight: Sight | null): void {
    const { [picture]: _old, ...others } = this.state.sights;
    this.#remember({ sights: sight ? { ...others, [picture]: sight } : others }, 'soon');
  }

  toggleSnap(): void {
    this.#remember({ snaps: !this.state.snaps });
  }

  /** A length that a person has written, mm: kept for the next film, and written where it is what a marker was waiting for. */
  setMarker(sheet: FilmSheet, mm: number): void {
    if (Number.isNaN(mm) || mm === 0) return;
    if (!(mm >= placingBounds.marker.low && mm <= placingBounds.marker.high)) {
      this.says = t('A marker is from 1 mm to 1000 mm long.');
      this.#around.changed('now');
      return;
    }
    this.says = null;
    this.#remember({ marker: mm });
    this.#around.tell({ type: 'marker', mm });
    const live = this.sheetOf(sheet);
    const step = this.step(live);
    const { ends } = this;
    if (ends && step?.key === 'scale') {
      this.ends = null;
      this.#place(sheet, step, [{ kind: 'marker', ends, mm }]);
      return;
    }
    const known = live.input.scale;
    if (live.marker && known?.kind === 'marker' && known.mm !== mm)
      this.#ask(sheet, [{ kind: 'marker', ends: live.marker, mm }]);
  }

  /** The length that was written last, as the editor has kept it. */
  heardMarker(mm: number): void {
    if (this.state.marker !== mm) this.#remember({ marker: mm });
  }

  /** Whether a click on the picture places something. */
  awaits(sheet: FilmSheet): boolean {
    return this.selected === null && this.step(sheet) !== null && this.rim?.length !== 3;
  }

  /** A click on the picture where no handle is. */
  click(sheet: FilmSheet, at: XY): void {
    this.says = null;
    const live = this.sheetOf(sheet);
    const step = this.step(live);
    // Whoever has something in the hand lets go of it first: nothing is placed by the way.
    const held = this.selected !== null;
    this.selected = null;
    if (!step || held) return this.#around.changed('now');
    if (step.byRim && this.rim) {
      if (this.rim.length < 3) this.rim = [...this.rim, at];
      return this.#around.changed('now');
    }
    if (!isLineKey(step.key)) return this.#place(sheet, step, [byHand(live, step.key, at)]);
    if (!this.first) {
      // Whoever clicks on without a length begins the marker anew.
      this.ends = null;
      this.first = at;
      return this.#around.changed('now');
    }
    const from = this.first;
    this.line(sheet, [from, at]);
  }

  /** Both ends of the line that the step awaits. */
  line(sheet: FilmSheet, ends: readonly [XY, XY]): void {
    const step = this.step(this.sheetOf(sheet));
    this.first = null;
    if (step?.key === 'scale') this.#marker(sheet, step, ends);
    if (step?.key === 'ground' || step?.key === 'bearing') this.#place(sheet, step, [{ kind: step.key, ends }]);
  }

  /** No length is assumed: without one the two ends wait for it. */
  #marker(sheet: FilmSheet, step: PlacingStep, ends: readonly [XY, XY]): void {
    const { marker } = this.state;
    if (marker !== undefined) return this.#place(sheet, step, [{ kind: 'marker', ends, mm: marker }]);
    this.ends = ends;
    this.#around.changed('now');
  }

  /** The first end of a line that is being drawn. */
  begin(at: XY): void {
    this.ends = null;
    this.first = at;
    this.#around.changed('soon');
  }

  moveRim(index: number, at: XY): void {
    this.rim = this.rim?.map((one, place) => (place === index ? at : one)) ?? null;
    this.#rimMoves = true;
    this.#around.changed('soon');
  }

  /** The point of the rim that was moved is let go. */
  restRim(): void {
    if (!this.#rimMoves) return;
    this.#rimMoves = false;
    this.#around.changed('now');
  }

  /** The centre that the points on the rim give, by the edge beside them where there is one. */
  rimCentre(live: FilmSheet): RimCentre {
    const rim = this.rim ?? [];
    const known = this.#rimFound;
    if (known?.rim === rim && known.live === live) return known.centre;
    const centre = rimCentre(live, rim, this.#rimMoves ? null : this.fitRim);
    // The picture may still be read: then it is looked at again.
    if ('edge' in centre) this.#rimFound = { rim, live, centre };
    return centre;
  }

  /** Takes the centre that three points give; false where they give none. */
  acceptRim(sheet: FilmSheet): boolean {
    const live = this.sheetOf(sheet);
    const step = this.step(live);
    const found = this.rim ? this.rimCentre(live) : null;
    if (!step?.byRim || !found || !('centre' in found)) return false;
    this.rim = null;
    const at = found.centre;
    this.#place(sheet, step, [
      found.edge ? { kind: 'landmark', name: step.key, at, spread: found.spread } : byHand(live, step.key, at),
    ]);
    return true;
  }

  /** A click on the centre that was found takes it. */
  acceptRimAt(sheet: FilmSheet, target: EventTarget | null): boolean {
    return target instanceof Element && target.closest('[data-centre]') !== null && this.acceptRim(sheet);
  }

  /** The line whose ends may be laid onto the edge beside them: that of the landmark or the line in the hand or placed last. */
  edgeOffer(live: FilmSheet): EdgeOffer | null {
    const key = this.selected ?? this.told;
    const line = key === null ? null : lineOf(key);
    const offer = this.#drag ? null : line === null ? edgePair(live, key) : edgeOfLine(live, line);
    const ends = offer && endsOffered(live, offer);
    const fitted = this.#fitted;
    const isFitted =
      offer?.name === fitted?.name &&
      ends?.every(({ x, y }, i) => x === fitted?.ends[i]?.x && y === fitted?.ends[i]?.y);
    return isFitted ? null : offer;
  }

  /** Lays both ends of the offered line onto the edge between them, as one wish. */
  fitEdge(sheet: FilmSheet, fit: FitEdge): void {
    const live = this.sheetOf(sheet);
    const offer = this.edgeOffer(live);
    const ends = offer && endsOffered(live, offer);
    if (!offer || !ends) return;
    const found = fit(ends[0], ends[1], reachOn(live), kindOffered(offer));
    if (!found) {
      this.says = noEdge(offer);
      return this.#around.changed('now');
    }
    this.selected = null;
    this.told = 'line' in offer ? `${offer.line}.0` : offer.upper;
    this.#fitted = { name: offer.name, ends: [tenth(found.ends[0]), tenth(found.ends[1])] };
    this.#ask(sheet, placedOnEdge(live, offer, found));
  }

  /** Why something is not done. */
  refuse(says: string): void {
    this.says = says;
    this.#around.changed('now');
  }

  pick(sheet: FilmSheet, key: string | null): void {
    if (key === this.selected) return;
    this.selected = key;
    if (key !== null) {
      const live = this.sheetOf(sheet);
      this.told = key;
      const line = live.placed[key]?.line;
      const uri = this.#around.message()?.uri;
      if (line !== undefined && uri !== undefined) this.#around.tell({ type: 'reveal', uri, line, how: 'follow' });
    }
    this.#around.changed('now');
  }

  /** A handle is moved, by hand or by key: shown at once, asked for by `drop`. */
  drag(sheet: FilmSheet, key: string, to: XY): void {
    this.says = null;
    this.#drag = moved(this.sheetOf(sheet), key, to);
    this.told = key;
    this.#around.changed('soon');
  }

  get isDragging(): boolean {
    return this.#drag !== null;
  }

  /** `back`: to the place that is asked for, with nothing in the hand. */
  drop(sheet: FilmSheet, back = false): void {
    const made = this.#drag;
    this.#drag = null;
    if (back) this.selected = null;
    if (made) this.#ask(sheet, [made]);
    this.#around.changed('now');
  }

  nudge(sheet: FilmSheet, dx: number, dy: number): void {
    const handle = this.handle(sheet);
    if (handle) this.drag(sheet, handle.key, { x: handle.at.x + dx, y: handle.at.y + dy });
  }

  handle(sheet: FilmSheet): Handle | null {
    return handlesOf(this.sheetOf(sheet)).find(({ key }) => key === this.selected) ?? null;
  }

  /** Where the handle is that is being moved. */
  handleAt(sheet: FilmSheet): XY | null {
    return this.handle(sheet)?.at ?? null;
  }

  /** Whether places are proposed at all. */
  get proposes(): boolean {
    return this.state.proposes ?? true;
  }

  toggleProposals(): void {
    this.#remember({ proposes: !this.proposes });
  }

  /** What is asked of the pictures by now, by its key; null: nothing. */
  seekProposals(key: string | null): void {
    this.#ghosts.seek(key);
    this.#around.changed('soon');
  }

  heardProposals(key: string, proposed: Proposed, followed: boolean): void {
    this.#ghosts.heard(key, proposed, followed);
    this.#around.changed('now');
  }

  /** What proposals rest on is placed. */
  get hasBasis(): boolean {
    return this.#ghosts.isAsked;
  }

  /** The answer to this question is there already. */
  hasProposals(key: string): boolean {
    return this.#ghosts.hasAnswer(key);
  }

  /** The pictures are being searched. */
  get isSeeking(): boolean {
    return this.#ghosts.isSought;
  }

  /** Why nothing is proposed, in a sentence; null where there is nothing to say. */
  get noProposals(): string | null {
    return this.#ghosts.says;
  }

  /** Proposed places of what is wanted and not placed, in the order of the walk. */
  ghosts(live: FilmSheet): readonly Proposal[] {
    if (!this.proposes) return [];
    const step = this.step(live);
    const keys = new Set([...this.steps(live), ...(step ? [step] : [])].map(({ key }) => key));
    const dragged = this.#drag?.kind === 'landmark' ? this.#drag.name : null;
    return this.#ghosts.all.filter(({ name }) => keys.has(name) && name !== dragged && !(name in live.placed));
  }

  /** The proposed place of what is asked for. */
  ghostAsked(live: FilmSheet): Proposal | null {
    const step = this.awaits(live) && !this.rim ? this.step(live) : null;
    return this.ghosts(live).find(({ name }) => name === step?.key) ?? null;
  }

  /** Those that one press may confirm together; what a person has skipped is none of them. */
  sureGhosts(live: FilmSheet): readonly Proposal[] {
    const { skipped } = this.state;
    return this.ghosts(live).filter((one) => isSure(one) && !skipped.includes(one.name));
  }

  /** A person says that a proposed place is right. Both ends of a line are one thing to look at. False where none is proposed. */
  confirm(sheet: FilmSheet, name: string): boolean {
    const live = this.sheetOf(sheet);
    const ghosts = this.ghosts(live);
    const ghost = ghosts.find((one) => one.name === name);
    if (!ghost || !isFound(ghost)) return false;
    const partner = ghosts.find((one) => one.name === partnerOf(ghost));
    const placements = [ghost, ...(partner ? [partner] : [])].map((one) =>
      confirmedPlace(one, live.input, live.scale, this.#ghosts.areFollowed),
    );
    const step = this.step(live);
    this.selected = null;
    if (step?.key === name) this.#place(sheet, step, placements);
    else {
      this.told = name;
      this.#ask(sheet, placements);
    }
    return true;
  }

  /** As one wish, which is one undo step; each can be taken away or moved by itself too. */
  confirmSure(sheet: FilmSheet): void {
    const live = this.sheetOf(sheet);
    const sure = this.sureGhosts(live);
    if (sure.length === 0) return;
    this.#letGo();
    this.selected = null;
    this.told = null;
    this.#remember({ step: null });
    this.#ask(
      sheet,
      sure.map((one) => confirmedPlace(one, live.input, live.scale, this.#ghosts.areFollowed)),
    );
  }

  /** A proposed place that a hand moves: from then on it is a placing like others. */
  dragGhost(name: string, to: XY): void {
    this.says = null;
    this.#drag = { kind: 'landmark', name, at: to };
    // In the hand, so that the glass looks at it and not at the pointer beside it.
    this.selected = name;
    this.told = name;
    this.#around.changed('soon');
  }

  /** What was dragged from its proposed place is put where it is; the walk goes on. */
  dropGhost(sheet: FilmSheet): void {
    const made = this.#drag;
    if (made?.kind !== 'landmark') return;
    this.#drag = null;
    this.selected = null;
    const step = this.step(this.sheetOf(sheet));
    if (step?.key === made.name) this.#place(sheet, step, [made]);
    else this.#ask(sheet, [made]);
    this.#around.changed('now');
  }

  edgesNews(barred: boolean): void {
    this.edgesBarred = barred;
    this.#around.changed('soon');
  }

  remove(sheet: FilmSheet): void {
    const key = this.selected;
    if (key === null) return;
    this.selected = null;
    this.told = null;
    const line = lineOf(key);
    const placement: Placement =
      line === null
        ? { kind: 'landmark', name: key, at: null }
        : line === 'scale'
          ? { kind: 'marker', ends: null, mm: null }
          : { kind: line, ends: null };
    this.#remember({ step: null });
    this.#ask(sheet, [placement]);
  }

  history(how: 'undo' | 'redo'): void {
    const uri = this.#around.message()?.uri;
    if (uri === undefined) return;
    this.#letGo();
    this.told = null;
    this.#remember({ step: null });
    this.#around.tell({ type: 'history', uri, how });
  }

  heardPlaced({ id, uri, version, says }: PlacedMessage): void {
    const wish = this.#wishes.find((one) => one.id === id && one.uri === uri);
    if (!wish) return;
    if (says !== null) {
      this.says = says;
      this.#wishes = this.#wishes.filter((one) => one !== wish);
    } else this.#wishes = this.#wishes.map((one) => (one === wish ? { ...wish, version } : one));
    this.#dropWritten();
    this.#around.changed('now');
  }

  /** New sheets have what was written into their version of the text; `sheet` is the film that is placed on now. */
  heardSheets(sheet: FilmSheet | null): void {
    this.#dropWritten();
    if (!this.isOn) return;
    // A film whose date or picture is written anew is another by its key, and the same to the person.
    const film = sheet && filmKey(sheet);
    if (film !== this.state.film) this.#around.keep({ ...this.state, film });
    if (sheet && this.selected !== null && !handlesOf(this.sheetOf(sheet)).some(({ key }) => key === this.selected))
      this.selected = null;
  }

  #dropWritten(): void {
    const message = this.#around.message();
    this.#wishes = this.#wishes.filter(
      (wish) =>
        message !== null &&
        wish.uri === message.uri &&
        (wish.version === null || message.version === null || wish.version > message.version),
    );
  }

  #place(sheet: FilmSheet, step: PlacingStep, placements: readonly Placement[]): void {
    this.told = isLineKey(step.key) ? `${step.key}.0` : step.key;
    if (!this.#ask(sheet, placements)) return;
    const live = this.sheetOf(sheet);
    this.#remember({ step: stepAfter(this.steps(live), live, step.key, this.state.skipped)?.key ?? null });
  }

  #ask(sheet: FilmSheet, placements: readonly Placement[]): boolean {
    const message = this.#around.message();
    if (!message) return false;
    const { line, picture, foot, view, reader } = sheet;
    const id = ++this.#count;
    this.says = null;
    this.#wishes = [...this.#wishes, { id, uri: message.uri, film: filmKey(sheet), placements, version: null }];
    this.#around.tell({ type: 'place', id, uri: message.uri, film: { line, picture, foot, view, reader }, placements });
    this.#around.changed('now');
    return true;
  }

  /** What is begun, and not placed. */
  #letGo(): void {
    this.first = null;
    this.ends = null;
    this.rim = null;
    this.#rimMoves = false;
  }

  #forgetHand(): void {
    // Another film is another question.
    this.#ghosts.seek(null);
    this.#drag = null;
    this.#letGo();
    this.selected = null;
    this.told = null;
    this.says = null;
  }

  #remember(part: Partial<PlacingState>, when: 'now' | 'soon' = 'now'): void {
    this.#around.keep({ ...this.state, ...part });
    this.#around.changed(when);
  }
}
