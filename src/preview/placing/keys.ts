import { crossSteps, isArrow, nudgeSteps, panSteps, strideOf } from './key-steps.ts';
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

function acts(event: KeyboardEvent, stage: PlacingStage): boolean {
  const { model, shown } = stage;
  if (!shown) return false;
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
      // What is in the hand is let go; with nothing in it Enter confirms what is proposed there, or places at the cross.
      if (confirms(event, stage)) return true;
      if (model.selected !== null) {
        model.pick(shown.sheet, null);
        stage.focus();
      } else if (!model.acceptRim(shown.sheet)) model.click(shown.sheet, stage.aimed(stage.cross));
      return true;
    default:
      return false;
  }
}

/** The proposed place that the keyboard is on, by the Tab key or by the cross. */
function confirms({ target }: KeyboardEvent, stage: PlacingStage): boolean {
  const { model, shown } = stage;
  if (!shown) return false;
  const focused = target instanceof Element ? target.closest('[data-ghost]')?.getAttribute('data-ghost') : null;
  const name = focused ?? (model.selected === null ? stage.ghostAtCross : null);
  if (name === null || name === undefined || !model.confirm(shown.sheet, name)) return false;
  if (focused) stage.focus();
  return true;
}
