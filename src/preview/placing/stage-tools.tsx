import type { FilmSheet } from '../../../shared/views/film-sheet.ts';
import { t } from '../../../shared/language/words.ts';
import { useActions } from '../actions.ts';
import { Toggle } from '../toggles.tsx';
import { evenLight, type PlacingModel } from './placing-model.ts';
import type { PlacingStage } from './stage.ts';

interface ToolsProps {
  readonly model: PlacingModel;
  readonly sheet: FilmSheet;
  readonly drawing: boolean;
  /** Places are proposed on lateral films. */
  readonly canPropose: boolean;
  stage(): PlacingStage | null;
}

/** How the picture is looked at: closer, lighter, with or without the foot drawn over it. */
export function StageTools({ model, sheet: { picture }, stage, drawing, canPropose }: ToolsProps) {
  const { toggle } = useActions();
  const light = model.lightOf(picture);
  const slider = (name: 'brightness' | 'contrast', words: string, low: number, high: number) => (
    <label>
      {words}
      <input
        type="range"
        min={low}
        max={high}
        step="0.05"
        value={light[name]}
        onInput={({ currentTarget }) => model.setLight(picture, { [name]: Number(currentTarget.value) })}
      />
    </label>
  );
  const isEven = light.brightness === 1 && light.contrast === 1 && !light.inverted;
  return (
    <div class="stage-tools" role="group" aria-label={t('How the picture is looked at')}>
      <span class="stage-sight">
        <button type="button" title="+" onClick={() => stage()?.zoom(1.25)}>
          {t('Closer')}
        </button>
        <button type="button" title="−" onClick={() => stage()?.zoom(0.8)}>
          {t('Further')}
        </button>
        <button type="button" title="0" onClick={() => stage()?.look(null)}>
          {t('Whole picture')}
        </button>
      </span>
      <span class="stage-light">
        {slider('brightness', t('Brightness'), 0.4, 4)}
        {slider('contrast', t('Contrast'), 0.4, 3)}
        {!isEven && (
          <button type="button" onClick={() => model.setLight(picture, evenLight)}>
            {t('As it is')}
          </button>
        )}
      </span>
      <span class="toggles">
        <Toggle pressed={light.inverted} onPress={() => model.setLight(picture, { inverted: !light.inverted })}>
          {t('Inverted')}
        </Toggle>
        <Toggle pressed={drawing} onPress={() => toggle('drawing')}>
          {t('Drawing')}
        </Toggle>
        <Toggle pressed={model.state.snaps} onPress={() => model.toggleSnap()}>
          {t('Take the nearest edge')}
        </Toggle>
        {canPropose && (
          <Toggle pressed={model.proposes} onPress={() => model.toggleProposals()}>
            {t('Propose places')}
          </Toggle>
        )}
      </span>
      {model.state.snaps && model.edgesBarred && (
        <p class="stage-says">
          {t('The pixels of this picture cannot be looked at here, so no edge is found. Place by eye.')}
        </p>
      )}
    </div>
  );
}
