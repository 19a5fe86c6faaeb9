import type { CutSheet } from '../../shared/views/film-sheet.ts';
import { t } from '../../shared/language/words.ts';
import { useActions } from './actions.ts';

interface SliderProps {
  readonly cut: CutSheet;
  /** Its key among the cuts of the film. */
  readonly name: string;
  /** Id of what has to be heard before it is moved. */
  readonly describedBy: string | undefined;
}

/** As much as the slider reaches, mm; what is written may be more. */
const MOST = 20;
const STEP = 0.5;

/** Heel to be taken off by a plan: the drawing and the numbers follow while it moves, the text when it is let go. */
export function HeelSlider({ cut, name, describedBy }: SliderProps) {
  const { tryHeel, writeHeel } = useActions();
  const mm = cut.size.heelDown;
  const words = t('{0} mm', Number(mm.toFixed(1)));
  return (
    <label class="heel-slider">
      <span>{t('Heel down')}</span>
      <input
        type="range"
        min={0}
        max={Math.max(MOST, Math.ceil(mm))}
        step={STEP}
        value={mm}
        aria-valuetext={words}
        aria-describedby={describedBy}
        onInput={({ currentTarget }) => tryHeel(name, currentTarget.valueAsNumber)}
        onChange={({ currentTarget }) => writeHeel(name, currentTarget.valueAsNumber)}
      />
      <output>{words}</output>
    </label>
  );
}
