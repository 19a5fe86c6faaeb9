import type { PageState } from '../messages/messages.ts';

/** What a page keeps that has shown nothing yet. */
export const freshState: PageState = {
  uri: null,
  film: null,
  cut: null,
  over: null,
  hidden: [],
  shows: { picture: true, drawing: true, lettering: true },
  scroll: 0,
};
