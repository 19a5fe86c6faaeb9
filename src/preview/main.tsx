import { render } from 'preact';
import { INK_CSS } from '../../shared/drawing/ink.css.ts';
import { readHostMessage } from '../extension/messages.ts';
import { ActionsContext } from './actions.ts';
import { bound } from './bound.ts';
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

let resting: ReturnType<typeof setTimeout> | undefined;
addEventListener('scroll', () => {
  clearTimeout(resting);
  resting = setTimeout(() => model.remember({ scroll: scrollY }), 200);
});
addEventListener('message', ({ data }: MessageEvent<unknown>) => {
  const news = readHostMessage(data);
  if (news) model.heard(news);
});
lightMeasures(document);

const ink = new CSSStyleSheet();
ink.replaceSync(INK_CSS);
document.adoptedStyleSheets = [ink];
tell({ type: 'ready' });
if (model.shown.kept.view === 'course') tell({ type: 'wants', course: true });
