import { crossSteps, isArrow, nudgeSteps, panSteps, strideOf } from './key-steps.ts';
import { t } from '../../../shared/language/words.ts';
import type { PlacingStage } from './stage.ts';

export function keyPressed(event: KeyboardEvent, stage: PlacingStage): void {
  if (!stage.shown || event.ctrlKey || event.metaKey) return;
  if (acts(event, stage)) {
    event.preventDefault();
    event.stopPropagation();
  }
}

/** A key that is held moves a landmark on and on; where it was let go is what is written. */
export function keyReleased({ key }: KeyboardEvent, { model, shown }: PlacingStage): void {
  if (shown && isArrow(key) && model.isDragging) model.drop(shown.sheet);
}

/** An arrow moves what is in the hand, else the cross at which Enter places, else the picture. */
function strides(event: KeyboardEvent, stage: PlacingStage): void {
  const { model, shown } = stage;
  if (!shown) return;
  if (model.selected !== null) {
    const by = strideOf(event, nudgeSteps);
    if (by) model.nudge(shown.sheet, by.x, by.y);
    const handle = model.handle(shown.sheet);
    if (handle) stage.reveal(handle.at);
    return;
  }
  const isAwaited = model.awaits(shown.live);
  const by = strideOf(event, isAwaited ? crossSteps : panSteps);
  if (by && isAwaited) stage.moveCross(by);
  else if (by) stage.pan(-by.x, -by.y);
}

const acting: ReadonlySet<string> = new Set(['Enter', ' ', 'c', 'C', 'f', 'F', 'Delete', 'Backspace']);

function acts(event: KeyboardEvent, stage: PlacingStage): boolean {
  const { model, shown } = stage;
  if (!shown) return false;
  // What is written takes a press of its own: a key that is held down is one.
  if (event.repeat && acting.has(event.key)) return true;
  if (isArrow(event.key)) {
    strides(event, stage);
    return true;
  }
  switch (event.key) {
    case '+':
    case '=':
      stage.zoom(1.25, stage.cross);
      return true;
    case '-':
    case '_':
      stage.zoom(0.8, stage.cross);
      return true;
    case '0':
      stage.look(null);
      return true;
    case 'f':
    case 'F':
      if (event.altKey || !model.edgeOffer(shown.live)) return false;
      stage.fitEdge();
      return true;
    case 'c':
    case 'C':
      if (event.altKey || model.sureGhosts(shown.live).length === 0) return false;
      model.confirmSure(shown.sheet);
      return true;
    case 'Delete':
    case 'Backspace':
      if (model.selected === null) return false;
      model.remove(shown.sheet);
      stage.focus();
      return true;
    case 'Enter':
    case ' ':
      entered(event, stage);
      return true;
    default:
      return false;
  }
}

/**
 * What is in the hand is let go. With nothing in it Enter confirms the proposed place that the keyboard is on, by the Tab key or by the
 * cross, else it places at the cross: but only where a person has moved it, as it begins where the place is looked for.
 */
function entered({ target }: KeyboardEvent, stage: PlacingStage): void {
  const { model, shown } = stage;
  if (!shown) return;
  const ghost = target instanceof Element ? target.closest('[data-ghost]')?.getAttribute('data-ghost') : null;
  if (ghost) {
    if (model.confirm(shown.sheet, ghost)) stage.focus();
    else model.refuse(t('This is only where to look. Place it by a click or with the cross.'));
    return;
  }
  if (model.selected !== null) {
    model.pick(shown.sheet, null);
    stage.focus();
    return;
  }
  const proposed = stage.ghostAtCross;
  if (proposed !== null && model.confirm(shown.sheet, proposed)) return;
  if (model.acceptRim(shown.sheet)) return;
  if (stage.isSteered || !model.awaits(shown.live)) model.click(shown.sheet, stage.aimed(stage.cross));
  else model.refuse(t('Move the cross to the place with the arrow keys, then press Enter.'));
}
