import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { HeelPart } from '../../shared/edits/heel-in-plan.ts';
import type { CourseChoice, SaveMessage } from '../messages/course-messages.ts';
import type { PageState, PageView } from '../messages/messages.ts';
import type { AgreementChoice } from '../messages/readings-messages.ts';

/** What a person can do on the page, as its parts ask for it. */
export interface Actions {
  /** Brings the text to the front with the cursor on this line, from 0. */
  go(line: number): void;
  chooseFilm(key: string): void;
  /** Lays a cut over the plate, or takes it off where it lies there. */
  pressCut(key: string): void;
  toggle(what: keyof PageState['shows']): void;
  /** Lays a foot over the plate: `normal`, the key of a film, or null for none. */
  layOver(what: string | null): void;
  /** Shows the key of the lesson on the film that is looked at, or hides it again. */
  showKey(isShown: boolean): void;
  /** Shows what a plan would leave with another heel cut, or another place of its own plane, mm; writes nothing. */
  tryHeel(cut: string, part: HeelPart, mm: number): void;
  /** Writes it into the plan. */
  writeHeel(cut: string, part: HeelPart, mm: number): void;
  /** Turns a layer of the drawing on or off. */
  toggleLayer(layer: PageState['hidden'][number]): void;
  show(view: PageView): void;
  chooseCourse(part: Partial<CourseChoice>): void;
  chooseAgreement(part: Partial<AgreementChoice>): void;
  /** A film of a visit, and its place in the text; the visit itself where it has none. */
  goToVisit(line: number, film: string | null): void;
  save(what: Omit<SaveMessage, 'type' | 'uri'>): void;
  /** A new case, or a visit of today with its film; the editor asks for what it takes. */
  firstStep(what: 'new case' | 'add visit'): void;
  /** Tells a person how a thing went. */
  say(words: string): void;
}

const idle = (): void => undefined;

/** A part that stands on no page does nothing, as in a test. */
export const ActionsContext = createContext<Actions>({
  go: idle,
  chooseFilm: idle,
  pressCut: idle,
  toggle: idle,
  layOver: idle,
  showKey: idle,
  toggleLayer: idle,
  tryHeel: idle,
  writeHeel: idle,
  show: idle,
  chooseCourse: idle,
  chooseAgreement: idle,
  goToVisit: idle,
  save: idle,
  firstStep: idle,
  say: idle,
});

export const useActions = (): Actions => useContext(ActionsContext);
