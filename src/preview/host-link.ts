import { readPageState, type PageMessage, type PageState } from '../messages/messages.ts';
import { freshState } from './fresh-state.ts';

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

export function recall(): PageState {
  return readPageState(host.getState()) ?? freshState;
}

export function keep(state: PageState): void {
  host.setState(state);
}
