import type { HeelPart } from '../../shared/edits/heel-in-plan.ts';
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

/** A person's rasp is set by eye: a heel in half millimetres, the place of its own plane in steps of five, as plans are. */
const parts = {
  down: { words: t('Heel down'), low: 0, high: 20, step: 0.5 },
  from: { words: t('From in front of the heel’s contact'), low: 5, high: 120, step: 5 },
} as const;

/**
 * Heel to be taken off by a plan, and of one on two planes from where on: the drawing and the numbers follow while it moves, the text
 * when it is let go.
 */
export function HeelSliders({ cut, name, describedBy }: SliderProps) {
  const { heelDown, heelFrom } = cut.size;
  return (
    <>
      <HeelSlider part="down" mm={heelDown} name={name} describedBy={describedBy} />
      {heelFrom !== undefined && <HeelSlider part="from" mm={heelFrom} name={name} describedBy={describedBy} />}
    </>
  );
}

function HeelSlider({ part, mm, name, describedBy }: Omit<SliderProps, 'cut'> & { part: HeelPart; mm: number }) {
  const { tryHeel, writeHeel } = useActions();
  const { words, low, high, step } = parts[part];
  const said = t('{0} mm', Number(mm.toFixed(1)));
  return (
    <label class="heel-slider">
      <span>{words}</span>
      <input
        type="range"
        min={low}
        // What is written may be more than the slider reaches.
        max={Math.max(high, Math.ceil(mm))}
        step={step}
        value={mm}
        aria-valuetext={said}
        aria-describedby={describedBy}
        onInput={({ currentTarget }) => tryHeel(name, part, currentTarget.valueAsNumber)}
        onChange={({ currentTarget }) => writeHeel(name, part, currentTarget.valueAsNumber)}
      />
      <output>{said}</output>
    </label>
  );
}
