import { INK_CSS } from '../../shared/drawing/ink.css.ts';
import { readHostMessage, type HostMessage, type SheetsMessage } from '../extension/messages.ts';
import { choiceAfterMove, cutOn, laidCut, pressedCut } from './cut-choice.ts';
import { currentSheet, filmKey, landmarkOn, sheetAt } from './film-choice.ts';
import { keep, recall, tell } from './host-link.ts';
import { morph } from './morph.ts';
import { page } from './page.ts';
import { PictureSizes } from './picture-sizes.ts';
import { emptyPlate, filmPlate, Plate, stepLandmark } from './plate.ts';
import type { FilmSheet } from '../../shared/report/film-sheet.ts';
import type { PlateInput } from '../../shared/drawing/plate.ts';

const noFilm = 'Write a film into a visit: film LF lateral "films/name.png".';

let kept = recall();
let message: SheetsMessage | null = null;
let says: string | null = null;
let trouble: string | null = null;
let line: number | null = null;
let scrolledBack = false;

const sizes = new PictureSizes(render);
const plate = new Plate((landmark) => current()?.placed[landmark]?.line ?? null);

function current(): FilmSheet | null {
  return message && currentSheet(message.sheets, kept.film, line);
}

function remember(part: Partial<typeof kept>): void {
  kept = { ...kept, ...part };
  keep(kept);
}

function moveTo(to: number | null): void {
  if (to === null || to === line) return;
  const before = cutOn(current(), line);
  line = to;
  const sheet = message && sheetAt(message.sheets, to);
  if (sheet) remember({ film: filmKey(sheet), cut: choiceAfterMove(before, cutOn(sheet, to), kept.cut) });
}

function heard(news: HostMessage): void {
  switch (news.type) {
    case 'sheets':
      // Another case: nothing of the last one's place in the page or the text holds.
      if (news.uri !== kept.uri) remember({ uri: news.uri, film: null, cut: null });
      if (news.uri !== message?.uri) line = null;
      message = news;
      says = trouble = null;
      moveTo(news.cursor);
      break;
    case 'cursor':
      if (news.uri !== message?.uri) return;
      moveTo(news.line);
      soon();
      return;
    case 'nothing':
      message = null;
      trouble = null;
      says = news.says;
      break;
    case 'trouble':
      trouble = news.says;
      break;
  }
  render();
}

let awaited = false;

/** A held arrow key moves the cursor more often than a screen can show. */
function soon(): void {
  if (awaited) return;
  awaited = true;
  requestAnimationFrame(() => {
    awaited = false;
    render();
  });
}

interface PictureFound {
  readonly picture: PlateInput['picture'];
  readonly says: string | null;
  readonly wait: boolean;
}

function pictureOf(sheet: FilmSheet): PictureFound {
  const known = message?.pictures[sheet.picture];
  if (!known) return { picture: null, says: null, wait: false };
  if (known.kind === 'absent') return { picture: null, says: known.says, wait: false };
  const size = sizes.of(known.href);
  if (size.state === 'known')
    return { picture: { href: known.href, width: size.width, height: size.height }, says: null, wait: false };
  if (size.state === 'loading') return { picture: null, says: null, wait: !size.late };
  return {
    picture: null,
    says: `${sheet.picture} is there but cannot be read as a picture. Save it again as png or jpg.`,
    wait: false,
  };
}

function render(): void {
  const root = document.getElementById('page');
  if (!root || (!message && says === null && trouble === null)) return;
  const sheet = current();
  const found = sheet ? pictureOf(sheet) : null;
  morph(
    root,
    page({ message, sheet, line, shows: kept.shows, chosenCut: kept.cut, trouble, pictureSays: found?.says ?? null }),
  );
  const holder = root.querySelector('.plate');
  // A picture that is on its way for a moment only must not make the plate jump twice.
  if (holder && !found?.wait) {
    const highlight = sheet && landmarkOn(sheet, line);
    plate.show(
      holder,
      sheet && found
        ? filmPlate(sheet, found.picture, { shows: kept.shows, highlight, cut: laidCut(sheet, kept.cut, line) })
        : emptyPlate(says ?? noFilm),
    );
  }
  if (!scrolledBack && holder?.firstElementChild) {
    scrolledBack = true;
    scrollTo({ top: kept.scroll, behavior: 'instant' });
  }
}

function go(target: Element, how: 'go' | 'follow'): void {
  const at = Number(target.getAttribute('data-line'));
  if (message && target.hasAttribute('data-line')) tell({ type: 'reveal', uri: message.uri, line: at, how });
}

function pressed(target: Element): void {
  const toggle = target.closest('[data-toggle]')?.getAttribute('data-toggle');
  const film = target.closest('[data-film]')?.getAttribute('data-film');
  const cut = target.closest('[data-cut]')?.getAttribute('data-cut');
  const place = target.closest('[data-line], [data-measure]');
  if (toggle === 'picture' || toggle === 'drawing' || toggle === 'lettering') {
    remember({ shows: { ...kept.shows, [toggle]: !kept.shows[toggle] } });
    render();
  } else if (cut !== null && cut !== undefined) {
    const sheet = current();
    if (sheet) remember({ cut: pressedCut(sheet, kept.cut, line, cut) });
    render();
  } else if (film !== null && film !== undefined) {
    remember({ film });
    render();
    const sheet = current();
    if (sheet && message) tell({ type: 'reveal', uri: message.uri, line: sheet.line, how: 'follow' });
  } else if (place) {
    // A label on the plate has no line of its own: its row in the table does.
    const measure = place.getAttribute('data-measure');
    const row = measure === null ? null : document.querySelector(`tr[data-measure="${CSS.escape(measure)}"]`);
    go(row ?? place, 'go');
  }
}

/** What a row and the plate say of one measure is lit on both. */
function light(measure: string | null, on: boolean): void {
  if (measure === null) return;
  for (const one of document.querySelectorAll(`.plate [data-measure="${CSS.escape(measure)}"]`))
    one.classList.toggle('is-lit', on);
  document.querySelector(`tr[data-measure="${CSS.escape(measure)}"]`)?.classList.toggle('is-lit', on);
}

const measureAt = (event: Event): string | null =>
  (event.target instanceof Element && event.target.closest('[data-measure]')?.getAttribute('data-measure')) || null;

document.addEventListener('click', ({ target }) => {
  if (!(target instanceof Element)) return;
  // Somebody who marks words to copy them does not want to go anywhere.
  if (target.closest('button, svg') || (getSelection()?.isCollapsed ?? true)) pressed(target);
});
document.addEventListener('keydown', (event) => {
  const { target, key } = event;
  if (!(target instanceof SVGElement) || !target.hasAttribute('data-landmark')) return;
  if (key === 'ArrowRight' || key === 'ArrowDown') stepLandmark(target, 1);
  else if (key === 'ArrowLeft' || key === 'ArrowUp') stepLandmark(target, -1);
  else if (key === 'Enter' || key === ' ') pressed(target);
  else return;
  event.preventDefault();
});
for (const [into, out] of [
  ['pointerover', 'pointerout'],
  ['focusin', 'focusout'],
] as const) {
  document.addEventListener(into, (event) => light(measureAt(event), true));
  document.addEventListener(out, (event) => light(measureAt(event), false));
}
let resting: ReturnType<typeof setTimeout> | undefined;
addEventListener('scroll', () => {
  clearTimeout(resting);
  resting = setTimeout(() => remember({ scroll: scrollY }), 200);
});
addEventListener('message', ({ data }: MessageEvent<unknown>) => {
  const news = readHostMessage(data);
  if (news) heard(news);
});

new ResizeObserver(() => {
  const holder = document.querySelector('.plate');
  if (holder) plate.fit(holder);
}).observe(document.body);

const ink = new CSSStyleSheet();
ink.replaceSync(INK_CSS);
document.adoptedStyleSheets = [ink];
tell({ type: 'ready' });
