import type { CutSheet } from '../../shared/report/film-sheet.ts';
import { cutKey } from './cut-choice.ts';
import { element } from './element.ts';
import { notesList } from './notes-list.ts';

/** Each plan and trim that is predicted on this film: what is cut, how the foot turns, what that would leave. */
export function cutsView(cuts: readonly CutSheet[], laid: CutSheet | null): HTMLElement | null {
  if (cuts.length === 0) return null;
  return element(
    'section',
    { 'aria-labelledby': 'cuts', 'data-key': 'cuts' },
    element('h2', { id: 'cuts' }, 'Plans and trims on this film'),
    element('div', { class: 'cuts' }, ...cuts.map((cut) => cutView(cut, cutKey(cuts, cut), cut === laid))),
  );
}

/** For the plate: a button a cut, by its name. */
export function cutToggles(cuts: readonly CutSheet[], laid: CutSheet | null): HTMLElement | null {
  const drawable = cuts.filter(({ after }) => after !== null);
  if (drawable.length === 0) return null;
  return element(
    'span',
    { class: 'toggles', role: 'group', 'aria-label': 'Plan or trim laid over the plate', 'data-key': 'cut-toggles' },
    ...drawable.map((cut) => layButton(cutKey(cuts, cut), cut === laid, nameOf(cut))),
  );
}

function nameOf({ kind, date, cut }: CutSheet): string {
  return `${kind === 'plan' ? 'Plan' : 'Trim'}${date === null ? '' : ` of ${date}`}: ${cut}`;
}

function layButton(key: string, pressed: boolean, words: string): HTMLElement {
  return element('button', { type: 'button', 'data-cut': key, 'aria-pressed': String(pressed) }, words);
}

function cutView(cut: CutSheet, key: string, isLaid: boolean): HTMLElement {
  const day = cut.date === null ? '' : ` of ${cut.date}`;
  return element(
    'article',
    { class: 'cut', 'data-key': `${cut.kind}${cut.line}` },
    element(
      'h3',
      { 'data-line': String(cut.line) },
      element('button', { type: 'button', class: 'go' }, `${cut.kind === 'plan' ? 'Plan' : 'Trim'}${day}`),
      `: ${cut.cut}`,
    ),
    element('p', {}, turning(cut.delta)),
    cut.after &&
      element('p', { class: 'toggles', 'data-key': 'lay' }, layButton(key, isLaid, 'Lay this over the plate')),
    cut.rows.length > 0 && table(cut),
    notesList(cut.notes),
  );
}

/** Positive where the heel comes down more than the toe. */
export function turning(delta: number | null): string {
  if (delta === null)
    return 'What it would change cannot be told: place heel.ground and toe.ground on the film, and give it a scale.';
  const amount = `${Math.abs(delta).toFixed(1)}°`;
  if (amount === '0.0°') return 'The foot does not turn.';
  return delta > 0
    ? `The heel comes down: the foot turns by ${amount}, and its angles to the ground fall by as much.`
    : `The toe comes down: the foot turns by ${amount}, and its angles to the ground rise by as much.`;
}

function table({ rows }: CutSheet): HTMLElement {
  const columns = ['Measure', 'Before', 'After, predicted'].map((word) => element('th', { scope: 'col' }, word));
  return element(
    'table',
    { class: 'cut-table' },
    element('thead', {}, element('tr', {}, ...columns)),
    element(
      'tbody',
      {},
      ...rows.map(({ measure, words, before, after }) =>
        element(
          'tr',
          { 'data-key': measure },
          element('th', { scope: 'row' }, words),
          element('td', { class: 'before' }, before),
          element('td', { class: 'after' }, after),
        ),
      ),
    ),
  );
}
