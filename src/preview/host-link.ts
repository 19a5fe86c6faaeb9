import { readPageState, type PageMessage, type PageState } from '../messages/messages.ts';

interface Host {
  postMessage(message: unknown): void;
  getState(): unknown;
  setState(state: unknown): void;
}

declare function acquireVsCodeApi(): Host;

const host = acquireVsCodeApi();

export function tell(message: PageMessage): void {
  // oxlint-disable-next-line unicorn/require-post-message-target-origin -- the editor, not a window
  host.postMessage(message);
}

const fresh: PageState = {
  uri: null,
  film: null,
  cut: null,
  over: null,
  hidden: [],
  shows: { picture: true, drawing: true, lettering: true },
  scroll: 0,
};

export function recall(): PageState {
  return readPageState(host.getState()) ?? fresh;
}

export function keep(state: PageState): void {
  host.setState(state);
}
