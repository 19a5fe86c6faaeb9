import type { FilmSheet } from '../../shared/views/film-sheet.ts';
import type { CourseChoice, SaveMessage, Wants } from '../messages/course-messages.ts';
import type { CourseSheet } from '../../shared/views/course-sheet.ts';
import type { HostMessage, PageMessage, PageState, PageView, SheetsMessage } from '../messages/messages.ts';
import type { AgreementChoice, ReadingsSheet } from '../messages/readings-messages.ts';
import type { Actions } from './actions.ts';
import { choiceAfterMove, cutKey, cutOn, pressedCut } from './cut-choice.ts';
import type { HeelPart } from '../../shared/edits/heel-in-plan.ts';
import type { TriedCut } from './tried-cut.ts';
import { filmAt, filmKey, filmOf, filmToShow, type ListedFilm } from '../../shared/views/film-choice.ts';
import { PlacingModel } from './placing/placing-model.ts';

/** Everything that the page is drawn from. */
export interface PageContent {
  readonly message: SheetsMessage | null;
  /** Where there is no case: the one next step. */
  readonly says: string | null;
  readonly trouble: string | null;
  /** Null until the page has wanted it. */
  readonly course: CourseSheet | null;
  /** The same of what was read. */
  readonly readings: ReadingsSheet | null;
  /** How the last thing that was asked for went. */
  readonly said: string | null;
  /** Line of the cursor, from 0. */
  readonly line: number | null;
  readonly kept: PageState;
  readonly tried: TriedCut | null;
}

const noAgreementChoice: AgreementChoice = { of: 'case', all: false, measure: null, pair: null };

/** What the model needs of the pane around it. */
export interface Pane {
  keep(state: PageState): void;
  tell(message: PageMessage): void;
  /** Something is other than before. `soon`: at the next frame is early enough. */
  changed(when: 'now' | 'soon'): void;
}

/** More films than anybody learns on in one window. */
const MOST_SHOWN = 500;

/** What the host has told and a person has chosen. Knows nothing of how it is drawn. */
export class PageModel implements Actions {
  readonly #pane: Pane;
  readonly placing: PlacingModel;
  shown: PageContent;
  /** Placing that is to be opened with the sheets that come next. */
  #placeAt: Extract<HostMessage, { type: 'place at' }> | null = null;
  /** What the host was told last, so that it is not told again. */
  #wanted = '';

  constructor(kept: PageState, pane: Pane) {
    this.#pane = pane;
    // Where the walk goes on is seen from the text: it may have changed since.
    const begun = kept.placing ? { ...kept, placing: { ...kept.placing, step: null } } : kept;
    this.shown = {
      message: null,
      says: null,
      trouble: null,
      course: null,
      readings: null,
      said: null,
      line: null,
      kept: begun,
      tried: null,
    };
    this.placing = new PlacingModel({
      state: () => this.shown.kept.placing,
      message: () => this.shown.message,
      keep: (placing) => this.remember({ placing }),
      tell: (message) => pane.tell(message),
      changed: (when) => pane.changed(when),
    });
  }

  /** Of the text that the page shows; another film that was chosen comes with the next message. */
  get sheet(): FilmSheet | null {
    return this.shown.message?.sheet ?? null;
  }

  /** Tells the host that the page has loaded, and what of a case it is to be told. */
  begin(): void {
    this.#wanted = JSON.stringify(this.#wants());
    this.#pane.tell({ type: 'ready', wants: this.#wants() });
  }

  heard(news: HostMessage): void {
    switch (news.type) {
      case 'sheets': {
        const asked = this.#wanted;
        // Another case: nothing of the last one's place in the page or the text holds.
        if (news.uri !== this.shown.kept.uri) {
          if (this.placing.isOn) this.placing.done();
          this.remember({ uri: news.uri, film: null, cut: null, over: null });
        }
        if (news.uri !== this.shown.message?.uri)
          this.#set({ message: null, line: null, course: null, readings: null, said: null });
        this.#moveTo(news.cursor, news.films);
        this.#goToPlace(news);
        // It was made before the host knew of another film: what shows stays until that one is there.
        if (this.shown.message && !this.#isOfWanted(news)) {
          if (this.#wanted === asked) this.#ask();
          return;
        }
        this.#set({ message: news, says: null, trouble: null, tried: null });
        this.placing.heardSheets(this.sheet);
        this.#openPlacing();
        break;
      }
      case 'cursor':
        if (news.uri !== this.shown.message?.uri) return;
        this.#moveTo(news.line, this.shown.message.films);
        // A held arrow key moves the cursor more often than a screen can show.
        this.#pane.changed('soon');
        return;
      case 'place at':
        this.#placeAt = news;
        return;
      case 'course':
        if (news.uri !== this.shown.message?.uri) return;
        this.#set({ course: { feet: news.feet } });
        break;
      case 'readings': {
        const { type: _type, uri, ...readings } = news;
        if (uri !== this.shown.message?.uri) return;
        this.#set({ readings });
        break;
      }
      case 'said':
        this.#set({ said: news.says });
        break;
      case 'nothing':
        this.#set({ message: null, course: null, readings: null, said: null, trouble: null, says: news.says });
        break;
      case 'trouble':
        this.#set({ trouble: news.says });
        break;
      case 'placed':
        return this.placing.heardPlaced(news);
      case 'marker':
        return this.placing.heardMarker(news.mm);
    }
    this.#pane.changed('now');
  }

  remember(part: Partial<PageState>): void {
    const kept = { ...this.shown.kept, ...part };
    this.#set({ kept });
    this.#pane.keep(kept);
    if (JSON.stringify(this.#wants()) !== this.#wanted) this.#ask();
  }

  go(line: number): void {
    this.#reveal(line, 'go');
  }

  chooseFilm(film: string): void {
    this.remember({ film });
    this.#pane.changed('now');
    const chosen = filmOf(this.shown.message?.films ?? [], film);
    if (chosen) this.#reveal(chosen.line, 'follow');
  }

  pressCut(key: string): void {
    const { sheet } = this;
    const { kept, line } = this.shown;
    if (sheet) this.remember({ cut: pressedCut(sheet, kept.cut, line, key) });
    this.#pane.changed('now');
  }

  toggle(what: keyof PageState['shows']): void {
    const { shows } = this.shown.kept;
    this.remember({ shows: { ...shows, [what]: !shows[what] } });
    this.#pane.changed('now');
  }

  layOver(over: string | null): void {
    this.remember({ over });
    this.#pane.changed('now');
  }

  showKey(isShown: boolean): void {
    const { uri, shown = [] } = this.shown.kept;
    if (!this.sheet || uri === null) return;
    const one = `${uri}\n${filmKey(this.sheet)}`;
    const others = shown.filter((other) => other !== one);
    // Those that were shown longest ago go first.
    this.remember({ shown: isShown ? [...others, one].slice(-MOST_SHOWN) : others });
    this.#pane.changed('now');
  }

  tryHeel(cut: string, part: HeelPart, mm: number): void {
    this.#set({ tried: { cut, part, mm } });
    this.#pane.changed('soon');
  }

  writeHeel(cut: string, part: HeelPart, mm: number): void {
    const { message } = this.shown;
    const plan = this.sheet?.cuts.find((one) => cutKey(this.sheet?.cuts ?? [], one) === cut);
    if (!message || !plan) return;
    // What was tried stays in sight until the text has it, and laid over the plate from then on.
    this.#set({ tried: { cut, part, mm } });
    this.remember({ cut });
    this.#pane.tell({ type: 'heel', uri: message.uri, version: message.version, line: plan.line, part, mm });
    this.#pane.changed('soon');
  }

  /** What was last written from here is taken back in the text, or done again. */
  history(how: 'undo' | 'redo'): void {
    const { message } = this.shown;
    if (message) this.#pane.tell({ type: 'history', uri: message.uri, how });
  }

  toggleLayer(layer: PageState['hidden'][number]): void {
    const { hidden } = this.shown.kept;
    this.remember({ hidden: hidden.includes(layer) ? hidden.filter((one) => one !== layer) : [...hidden, layer] });
    this.#pane.changed('now');
  }

  show(view: PageView): void {
    this.remember({ view });
    this.#set({ said: null });
    this.#pane.changed('now');
  }

  chooseCourse(part: Partial<CourseChoice>): void {
    this.remember({ course: { foot: null, measures: null, ...this.shown.kept.course, ...part } });
    this.#pane.changed('now');
  }

  chooseAgreement(part: Partial<AgreementChoice>): void {
    this.remember({ agreement: { ...noAgreementChoice, ...this.shown.kept.agreement, ...part } });
    this.#pane.changed('now');
  }

  goToVisit(line: number, film: string | null): void {
    if (film !== null) this.remember({ film });
    this.#reveal(line, 'go');
    this.#pane.changed('now');
  }

  save(what: Omit<SaveMessage, 'type' | 'uri'>): void {
    const { message } = this.shown;
    if (message) this.#pane.tell({ type: 'save', uri: message.uri, ...what });
  }

  firstStep(what: 'new case' | 'add visit'): void {
    this.#pane.tell({ type: 'begin', what });
  }

  say(words: string): void {
    this.#set({ said: words });
    this.#pane.changed('now');
  }

  #reveal(line: number, how: 'go' | 'follow'): void {
    const { message } = this.shown;
    if (message) this.#pane.tell({ type: 'reveal', uri: message.uri, line, how });
  }

  #moveTo(to: number | null, films: readonly ListedFilm[]): void {
    const { line, kept } = this.shown;
    if (to === null || to === line) return;
    const before = cutOn(this.#film(films), line);
    this.#set({ line: to });
    const film = filmAt(films, to);
    if (film) this.remember({ film: filmKey(film), cut: choiceAfterMove(before, cutOn(film, to), kept.cut) });
  }

  /** The film that is chosen, be it there or not. */
  #film(films: readonly ListedFilm[]): ListedFilm | null {
    const { kept, line } = this.shown;
    // While somebody places, the cursor leads to no other film.
    return filmToShow(films, { film: kept.placing?.film ?? kept.film, line, moved: false });
  }

  #isOfWanted({ films, sheet }: SheetsMessage): boolean {
    const wanted = this.#film(films);
    return wanted === null || (sheet !== null && filmKey(sheet) === filmKey(wanted));
  }

  #wants(): Wants {
    const { uri, film, over, placing, view, shown = [], agreement } = this.shown.kept;
    const ofCase = shown.flatMap((one) => (one.startsWith(`${uri}\n`) ? [one.slice(`${uri}\n`.length)] : []));
    return {
      uri,
      film: placing?.film ?? film,
      over,
      follows: (placing?.film ?? null) === null,
      course: view === 'course',
      ...(ofCase.length > 0 && { shown: ofCase }),
      ...(view === 'agreement' && { agreement: agreement?.of ?? noAgreementChoice.of }),
    };
  }

  #ask(): void {
    const wants = this.#wants();
    this.#wanted = JSON.stringify(wants);
    this.#pane.tell({ type: 'wants', wants });
  }

  /** The film that placing is to be opened on is the one that is wanted now. */
  #goToPlace({ uri, films }: SheetsMessage): void {
    const at = this.#placeAt;
    if (!at) return;
    const film = at.uri === uri ? films.find(({ line }) => line === at.line) : undefined;
    if (!film) {
      this.#placeAt = null;
      return;
    }
    if (this.placing.isOn) this.placing.done();
    this.remember({ film: filmKey(film) });
  }

  #openPlacing(): void {
    const at = this.#placeAt;
    if (!at || this.sheet?.line !== at.line) return;
    this.#placeAt = null;
    this.placing.open(this.sheet);
    if (at.landmark !== '') this.placing.choose(at.landmark);
  }

  #set(part: Partial<PageContent>): void {
    this.shown = { ...this.shown, ...part };
  }
}
