import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { PageState } from '../extension/messages.ts';

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
  /** Shows what a plan would leave with another heel cut, mm; writes nothing. */
  tryHeel(cut: string, mm: number): void;
  /** Writes the heel cut into the plan. */
  writeHeel(cut: string, mm: number): void;
  /** Turns a layer of the drawing on or off. */
  toggleLayer(layer: PageState['hidden'][number]): void;
}

const idle = (): void => undefined;

/** A part that stands on no page does nothing, as in a test. */
export const ActionsContext = createContext<Actions>({
  go: idle,
  chooseFilm: idle,
  pressCut: idle,
  toggle: idle,
  layOver: idle,
  toggleLayer: idle,
  tryHeel: idle,
  writeHeel: idle,
});

export const useActions = (): Actions => useContext(ActionsContext);

/** The parts of the page take single actions out and call them alone: each stays one of its model. */
export function boundActions(model: Actions): Actions {
  return new Proxy(model, {
    get(of, name) {
      const one: unknown = Reflect.get(of, name);
      return typeof one === 'function' ? one.bind(of) : one;
    },
  });
}
