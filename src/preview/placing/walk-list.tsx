import { useEffect, useRef } from 'preact/hooks';
import type { FilmSheet } from '../../../shared/views/film-sheet.ts';
import { isPlaced } from '../../../shared/views/what-to-place.ts';
import { t } from '../../../shared/language/words.ts';
import { handlesOf } from './handles.ts';
import type { PlacingModel } from './placing-model.ts';
import type { PlacingStage } from './stage.ts';

interface ListProps {
  readonly model: PlacingModel;
  readonly sheet: FilmSheet;
  readonly live: FilmSheet;
  stage(): PlacingStage | null;
}

const stateWords = { placed: t('placed'), skipped: t('skipped'), proposed: t('proposed'), open: t('open') } as const;

/** Where the step before was in sight, the next one is; else the list stays where a person has left it. */
function keepInSight(list: HTMLElement | null, before: string | null): void {
  const row = list?.querySelector('[aria-current]');
  const last = [...(list?.children ?? [])].find((one) => one.getAttribute('data-step') === before);
  if (!row || !last) return;
  const { left, top, height } = last.getBoundingClientRect();
  const seen = document.elementFromPoint(left + 20, top + height / 2);
  if (seen && last.contains(seen)) row.scrollIntoView({ block: 'nearest' });
}

/** Every place that what is wanted takes, in the order in which one goes round the foot. */
export function WalkList({ model, sheet, live, stage }: ListProps) {
  const steps = model.steps(live);
  const now = model.step(live);
  const { skipped } = model.state;
  const proposed = new Set<string>(model.ghosts(live).map(({ name }) => name));
  const list = useRef<HTMLOListElement>(null);
  const before = useRef<string | null>(null);
  useEffect(() => {
    keepInSight(list.current, before.current);
    before.current = now?.key ?? null;
  }, [now?.key]);
  const choose = (key: string, placed: boolean): void => {
    const handle = placed ? handlesOf(live).find((one) => one.key === key || one.key === `${key}.0`) : undefined;
    if (handle) {
      model.pick(sheet, handle.key);
      stage()?.reveal(handle.at);
    } else model.choose(key);
    stage()?.focus();
  };
  return (
    <section aria-labelledby="round">
      <h2 id="round">{t('Round the foot')}</h2>
      <ol class="walk-list" ref={list}>
        {steps.map((step) => {
          const placed = isPlaced(step, live);
          const state = placed
            ? 'placed'
            : skipped.includes(step.key)
              ? 'skipped'
              : proposed.has(step.key)
                ? 'proposed'
                : 'open';
          return (
            <li key={step.key} class={`is-${state}`} data-step={step.key}>
              <button
                type="button"
                aria-current={now?.key === step.key && model.selected === null ? 'step' : undefined}
                onClick={() => choose(step.key, placed)}
              >
                {step.name}
                <span class={state === 'open' ? 'unseen' : 'walk-state'}>{stateWords[state]}</span>
              </button>
            </li>
          );
        })}
      </ol>
    </section>
  );
}
