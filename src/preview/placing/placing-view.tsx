import { historyKey } from '../history-keys.ts';
import { useEffect, useLayoutEffect, useRef } from 'preact/hooks';
import type { FilmSheet } from '../../../shared/views/film-sheet.ts';
import { t } from '../../../shared/language/words.ts';
import { landmarkOn } from '../../../shared/views/film-choice.ts';
import type { PictureFound } from '../picture-of.ts';
import { useProposals, type ProposalGrounds } from '../proposing/use-proposals.ts';
import { OtherTable, WantedTable } from './live-table.tsx';
import type { PlacingModel } from './placing-model.ts';
import { layHand } from './hand.ts';
import { PlacingStage } from './stage.ts';
import { StageTools } from './stage-tools.tsx';
import { WalkCard } from './walk-card.tsx';
import { WalkList } from './walk-list.tsx';
import { WantedSets } from './wanted-sets.tsx';

export interface PlacingProps {
  readonly model: PlacingModel;
  /** As the text has it. */
  readonly sheet: FilmSheet;
  readonly found: PictureFound;
  readonly proposing: Omit<ProposalGrounds, 'picture'>;
  readonly line: number | null;
  readonly drawing: boolean;
  /** In a lesson whose key is not shown nothing is proposed, and nothing tells where a place is to be sought. */
  readonly isAlone?: boolean;
  readonly trouble: string | null;
}

/** A film large, with what there is to place on it beside it. Nothing else asks for attention. */
export function PlacingView({ model, sheet, found, proposing, line, drawing, isAlone = false, trouble }: PlacingProps) {
  const live = model.sheetOf(sheet);
  const stage = useRef<PlacingStage | null>(null);
  const { picture } = found;
  useProposals(model, live, { ...proposing, picture: isAlone ? null : (picture?.href ?? null) });
  const says = trouble ?? model.says ?? found.says;
  useEffect(() => {
    const keys = (event: KeyboardEvent): void => pressed(event, model);
    document.addEventListener('keydown', keys);
    return () => document.removeEventListener('keydown', keys);
  }, [model]);
  return (
    <div class="placing">
      <header class="placing-head">
        <h1>{sheet.title}</h1>
        <div class="placing-do">
          <button type="button" title={t('Ctrl+Z')} onClick={() => model.history('undo')}>
            {t('Undo')}
          </button>
          <button type="button" title={t('Ctrl+Shift+Z')} onClick={() => model.history('redo')}>
            {t('Redo')}
          </button>
          <button type="button" class="placing-done" title={t('Escape')} onClick={() => model.done()}>
            {t('Done')}
          </button>
        </div>
        {says !== null && (
          <p class="trouble" role="alert">
            {says}
          </p>
        )}
      </header>
      <div class="stage-frame">
        {picture ? (
          <StageView
            model={model}
            onStage={(made) => (stage.current = made)}
            show={(on) =>
              on.show({ live, sheet, href: picture.href, picture, drawing, isAlone, cursor: landmarkOn(sheet, line) })
            }
            label={`${sheet.title}. ${stageHelp()}`}
          />
        ) : (
          <div class="stage is-empty">{found.wait ? '' : t('There is no picture to place on yet.')}</div>
        )}
        {picture && (
          <StageTools
            model={model}
            sheet={sheet}
            stage={() => stage.current}
            drawing={drawing}
            canPropose={sheet.view === 'lateral' && sheet.kind === 'film' && !isAlone}
          />
        )}
      </div>
      <aside class="walk" aria-label={t('What to place')}>
        <WalkCard
          model={model}
          sheet={sheet}
          live={live}
          before={proposing.before}
          isLost={picture !== null && proposing.pictureBefore === null}
          stage={() => stage.current}
        />
        <div class="walk-rest">
          <WantedSets model={model} sheet={sheet} />
          {isAlone ? (
            <p class="aside">{t('A lesson: values and proposals are kept back until the key is shown.')}</p>
          ) : (
            <WantedTable live={live} wanted={model.state.wanted} told={model.told} />
          )}
          <WalkList model={model} sheet={sheet} live={live} stage={() => stage.current} />
          <OtherTable live={live} wanted={model.state.wanted} told={model.told} />
        </div>
      </aside>
    </div>
  );
}

const stageHelp = (): string =>
  t(
    'Arrow keys move the cross: with Shift far, with Alt by a pixel of the screen. Enter places there. Plus and minus bring the picture closer and further, 0 shows the whole. Tab goes through what is placed; there the arrow keys move it, Delete takes it away. F lays both points of a straight edge onto it, where that is offered. Where a place is proposed the cross stands on it, and Enter confirms it; C confirms all of the bones that are distinct.',
  );

/** Undo and redo are the editor's; Escape ends what is begun, then placing. */
function pressed(event: KeyboardEvent, model: PlacingModel): void {
  const { target, key } = event;
  const writes = target instanceof HTMLInputElement && target.type === 'number';
  if (key === 'Escape') {
    event.preventDefault();
    if (writes) target.blur();
    else model.escape();
    return;
  }
  const how = historyKey(event);
  if (writes || !how) return;
  event.preventDefault();
  model.history(how);
}

interface StageProps {
  readonly model: PlacingModel;
  readonly label: string;
  onStage(stage: PlacingStage | null): void;
  show(stage: PlacingStage): void;
}

/** The stage's own ground in the page: inside it everything is kept by `Stage`, not by the page. */
function StageView({ model, label, onStage, show }: StageProps) {
  const holder = useRef<HTMLDivElement>(null);
  const stage = useRef<PlacingStage | null>(null);
  useLayoutEffect(() => {
    if (!holder.current) return undefined;
    const made = new PlacingStage(holder.current, model);
    layHand(holder.current, made);
    stage.current = made;
    onStage(made);
    show(made);
    made.focus();
    return () => {
      made.close();
      onStage(null);
    };
  }, [model]);
  useLayoutEffect(() => {
    if (stage.current) show(stage.current);
  });
  return <div ref={holder} class="stage" tabIndex={0} role="application" aria-label={label} />;
}
