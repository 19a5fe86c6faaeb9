import type { PlacingStage } from './stage.ts';

const ways: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** Pixels of the picture that an arrow key moves a landmark by. */
const nudgeOf = ({ shiftKey, altKey }: KeyboardEvent): number => (altKey ? 0.1 : shiftKey ? 10 : 1);
/** CSS pixels that it moves the picture by where nothing is picked. */
const stepOf = ({ shiftKey, altKey }: KeyboardEvent): number => (altKey ? 1 : shiftKey ? 240 : 48);

export function keyPressed(event: KeyboardEvent, stage: PlacingStage): void {
  if (!stage.shown || event.ctrlKey || event.metaKey) return;
  if (acts(event, stage)) {
    event.preventDefault();
    event.stopPropagation();
  }
}

/** A key that is held moves a landmark on and on; where it was let go is what is written. */
export function keyReleased({ key }: KeyboardEvent, { model, shown }: PlacingStage): void {
  if (shown && key in ways && model.isDragging) model.drop(shown.sheet);
}

function acts(event: KeyboardEvent, stage: PlacingStage): boolean {
  const { model, shown } = stage;
  if (!shown) return false;
  const way = ways[event.key];
  if (way) {
    const [x, y] = way;
    if (model.selected === null) stage.pan(-x * stepOf(event), -y * stepOf(event));
    else {
      model.nudge(shown.sheet, x * nudgeOf(event), y * nudgeOf(event));
      const handle = model.handle(shown.sheet);
      if (handle) stage.reveal(handle.at);
    }
    return true;
  }
  switch (event.key) {
    case '+':
    case '=':
      stage.zoom(1.25);
      return true;
    case '-':
    case '_':
      stage.zoom(0.8);
      return true;
    case '0':
      stage.look(null);
      return true;
    case 'Delete':
    case 'Backspace':
      if (model.selected === null) return false;
      model.remove(shown.sheet);
      stage.focus();
      return true;
    case 'Enter':
    case ' ':
      // What is in the hand is let go; with nothing in it Enter places at the cross in the middle.
      if (model.selected !== null) {
        model.pick(shown.sheet, null);
        stage.focus();
      } else if (!model.acceptRim(shown.sheet)) model.click(shown.sheet, stage.aimed(stage.middle));
      return true;
    default:
      return false;
  }
}
