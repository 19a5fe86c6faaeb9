import { render } from 'preact';
import { INK_CSS } from '../../shared/drawing/ink.css.ts';
import { readHostMessage } from '../messages/messages.ts';
import { t } from '../../shared/language/words.ts';
import { ActionsContext } from './actions.ts';
import { adoptInk } from './adopt-ink.ts';
import { bound } from './bound.ts';
import { historyKey } from './history-keys.ts';
import { keep, recall, tell } from './host-link.ts';
import { lightMeasures } from './lighting.ts';
import { PageModel } from './page-model.ts';
import { Page } from './page.tsx';
import { pictureOf } from './picture-of.ts';
import { PictureSizes } from './picture-sizes.ts';

let awaited = false;
let scrolledBack = false;

const model = new PageModel(recall(), {
  keep,
  tell,
  changed(when) {
    if (when === 'now') return draw();
    if (awaited) return;
    awaited = true;
    requestAnimationFrame(() => {
      awaited = false;
      draw();
    });
  },
});
const actions = bound(model);
const sizes = new PictureSizes(draw);

function draw(): void {
  const root = document.getElementById('page');
  const { shown, sheet } = model;
  const { message, says, trouble, kept } = shown;
  if (!root || (!message && says === null && trouble === null)) return;
  const found = message && sheet ? pictureOf(sheet, message, sizes) : null;
  render(
    <ActionsContext.Provider value={actions}>
      <Page placing={model.placing} shown={shown} sheet={sheet} found={found} />
    </ActionsContext.Provider>,
    root,
  );
  if (!scrolledBack && root.querySelector('.plate svg')) {
    scrolledBack = true;
    scrollTo({ top: kept.scroll, behavior: 'instant' });
  }
}

const unreadable = t(
  'What the editor sent could not be read, so the page may show an older text. Reload the window; if this stays, the file is too large to be shown.',
);
const isMessage = (data: unknown): boolean => typeof data === 'object' && data !== null && 'type' in data;

let resting: ReturnType<typeof setTimeout> | undefined;
addEventListener('scroll', () => {
  clearTimeout(resting);
  resting = setTimeout(() => model.remember({ scroll: scrollY }), 200);
});
addEventListener('message', ({ data }: MessageEvent<unknown>) => {
  const news = readHostMessage(data);
  // A menu of the editor presses the same button as a person would.
  if (news?.type === 'take') document.querySelector<HTMLElement>(`[data-take="${news.way}"]`)?.click();
  if (news) model.heard(news);
  // A case that this page cannot read must not look like one that has not changed.
  else if (isMessage(data)) model.heard({ type: 'trouble', says: unreadable });
});
lightMeasures(document);
// While landmarks are placed, the placing has its own keys.
addEventListener('keydown', (event) => {
  const how = historyKey(event);
  if (how === null || model.placing.isOn) return;
  event.preventDefault();
  model.history(how);
});

adoptInk(INK_CSS);
model.begin();
