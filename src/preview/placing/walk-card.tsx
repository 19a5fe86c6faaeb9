import { shownDate } from '../../../shared/language/dates.ts';
import { fixed } from '../../../shared/language/figures.ts';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { FilmSheet } from '../../../shared/views/film-sheet.ts';
import { notBegun } from '../../../shared/proposals/film-pair.ts';
import type { FilmBefore } from '../../../shared/views/film-before.ts';
import { nameOfLandmark } from '../../../shared/views/landmark-names.ts';
import { spotPlate } from '../../../shared/views/spot-plate.ts';
import { isLineKey, isPlaced, type LineKey, type PlacingStep } from '../../../shared/views/what-to-place.ts';
import { t } from '../../../shared/language/words.ts';
import { Toggle } from '../toggles.tsx';
import { isFound, partnerOf } from '../../../shared/views/proposed-places.ts';
import { rimWords } from './edge-fit.ts';
import { lineOf } from './handles.ts';
import type { PlacingModel } from './placing-model.ts';
import type { PlacingStage } from './stage.ts';

interface WalkCardProps {
  readonly model: PlacingModel;
  readonly sheet: FilmSheet;
  readonly live: FilmSheet;
  readonly before: FilmBefore | null;
  /** The picture of the film before cannot be had. */
  readonly isLost: boolean;
  stage(): PlacingStage | null;
}

/** The one thing to do next: its name, where it lies in a sentence and on a small plate. */
export function WalkCard({ model, sheet, live, before, isLost, stage }: WalkCardProps) {
  const step = model.step(live);
  const steps = model.steps(live);
  const done = steps.filter((one) => isPlaced(one, live)).length;
  const back = (): void => model.back(live);
  const offer = step ? null : model.offer(live);
  const ghost = model.ghostAsked(live);
  if (model.selected !== null) return <PickedCard model={model} sheet={sheet} live={live} stage={stage} />;
  if (!step)
    return (
      <section class="walk-card" aria-live="polite">
        <h2>{done === steps.length ? t('All that is wanted is placed') : t('Nothing is left but what was skipped')}</h2>
        <p>
          {done === steps.length
            ? t('Pick a place to move it, choose more below, or end with Done.')
            : t('Choose one in the list to place it after all, or end with Done.')}
        </p>
        <EdgeOffer model={model} live={live} stage={stage} />
        {offer && (
          <p class="walk-offer">
            <button
              type="button"
              class="walk-take"
              onClick={() => {
                model.goOn(live, offer);
                stage()?.focus();
              }}
            >
              {t('Go on with {0}', offer.words)}
            </button>{' '}
            <span class="walk-count">{offer.open === 1 ? t('one place more') : t('{0} places more', offer.open)}</span>
          </p>
        )}
        <p class="walk-do">
          <button type="button" onClick={back}>
            {t('Back')}
          </button>
        </p>
      </section>
    );
  return (
    <section class="walk-card" aria-live="polite">
      <Spot step={step} live={live} model={model} stage={stage} />
      <div class="walk-words">
        <h2>{step.name}</h2>
        <p class={ghost ? 'walk-advice is-shown' : 'walk-advice'}>{step.advice}</p>
        <p class="walk-how">{howTo(model, step, live)}</p>
        <FromBefore model={model} sheet={sheet} live={live} before={before} isLost={isLost} stage={stage} />
        {step.byRim && (
          <p class="toggles">
            <Toggle
              pressed={model.rim !== null}
              onPress={() => {
                model.toggleRim();
                stage()?.focus();
              }}
            >
              {t('Find the centre by three points on its edge')}
            </Toggle>
          </p>
        )}
        <EdgeOffer model={model} live={live} stage={stage} />
        {step.key === 'scale' && <MarkerLength model={model} sheet={sheet} live={live} stage={stage} />}
        <p class="walk-do">
          {ghost && isFound(ghost) && (
            <button
              type="button"
              class="walk-take"
              onClick={() => {
                model.confirm(sheet, ghost.name);
                stage()?.focus();
              }}
            >
              {t('Confirm')}
            </button>
          )}
          {steps[0]?.key !== step.key && (
            <button type="button" onClick={back}>
              {t('Back')}
            </button>
          )}
          <button type="button" onClick={() => model.skip(live)}>
            {isPlaced(step, live) ? t('Next') : t('Skip')}
          </button>
          {model.rim?.length === 3 && (
            <button
              type="button"
              class="walk-take"
              onClick={() => {
                model.acceptRim(sheet);
                stage()?.focus();
              }}
            >
              {t('Take this centre')}
            </button>
          )}
          <span class="walk-count">{t('{0} of {1} placed', done, steps.length)}</span>
        </p>
      </div>
    </section>
  );
}

function howTo(model: PlacingModel, step: PlacingStep, live: FilmSheet): string {
  if (step.byRim && model.rim) return rimWords(model.rimCentre(live));
  if (model.ends)
    return t('Write how long the marker is and press Enter. It is asked once and kept for your next film.');
  const ghost = model.ghostAsked(live);
  if (ghost && !isFound(ghost)) return t('{0} Drag the diamond, or click the right place.', ghost.why);
  if (ghost) {
    const how =
      partnerOf(ghost) === null
        ? t('Enter or a click on the diamond confirms it. Else drag it, or click the right place.')
        : t('Enter or a click on the diamond confirms both ends. Else drag it, or click the right place.');
    return ghost.distinct ? how : `${ghost.why} ${how}`;
  }
  if (isLineKey(step.key))
    return model.first ? t('Now the other end.') : t('Click one end, then the other, or draw from one to the other.');
  return isPlaced(step, live)
    ? live.kind === 'film'
      ? t('It is placed. A click on the film places it anew.')
      : t('It is placed. A click on the photo places it anew.')
    : live.kind === 'film'
      ? t('Click the place on the film.')
      : t('Click the place on the photo.');
}

/** What the film before says, as far as it has been asked; several bony places may be confirmed at once. */
function FromBefore({ model, sheet, live, before, isLost, stage }: WalkCardProps) {
  if (!model.proposes) return null;
  if (before && isLost)
    return (
      <p class="walk-how">
        {t('The picture of {0} is not there, so nothing is proposed.', shownDate(before.date ?? ''))}
      </p>
    );
  const step = model.step(live);
  if (before && !model.hasBasis && step && !['scale', 'ground', 'bearing', 'p3.tip', 'p3.wing'].includes(step.key))
    return <p class="walk-how">{notBegun()}</p>;
  if (model.isSeeking)
    return (
      <p class="walk-how">
        {before
          ? t('Looking for the places of {0} …', shownDate(before.date ?? ''))
          : t('Looking for edges on the film …')}
      </p>
    );
  if (model.noProposals !== null) return <p class="walk-how">{model.noProposals}</p>;
  const sure = model.sureGhosts(live);
  const asked = model.ghostAsked(live);
  // What one press on the place that is asked for confirms anyway is no offer.
  if (sure.every(({ name }) => name === asked?.name || (asked && name === partnerOf(asked)))) return null;
  return (
    <p class="walk-offer">
      <button
        type="button"
        title={t('C')}
        onClick={() => {
          model.confirmSure(sheet);
          stage()?.focus();
        }}
      >
        {t('Confirm {0} on the bones', sure.length)}
      </button>{' '}
      <span class="walk-count">
        {before ? t('as on {0}', shownDate(before.date ?? '')) : t('by the edge of the bone')}
      </span>
    </p>
  );
}

/** Two points of a straight edge or a line are placed: a quiet offer to lay both onto it. */
function EdgeOffer({ model, live, stage }: Pick<WalkCardProps, 'model' | 'live' | 'stage'>) {
  const offer = model.edgeOffer(live);
  if (!offer) return null;
  return (
    <p class="walk-offer">
      <button
        type="button"
        title={t('F')}
        onClick={() => {
          stage()?.fitEdge();
          stage()?.focus();
        }}
      >
        {t('Fit to the edge: {0}', offer.name)}
      </button>
    </p>
  );
}

/** What was picked: the place can be moved or taken away. */
function PickedCard({ model, sheet, live, stage }: Omit<WalkCardProps, 'before' | 'isLost'>) {
  const key = model.selected ?? '';
  const line = lineOf(key);
  const step = line ?? key;
  const name = line === null ? nameOfLandmark(key) : nameOfLine(line);
  const at = model.handle(sheet)?.at;
  return (
    <section class="walk-card" aria-live="polite">
      <Spot step={{ key: step, name }} live={live} model={model} stage={stage} />
      <div class="walk-words">
        <h2>{name}</h2>
        <p>{t('Drag it, or move it with the arrow keys: a pixel at a time, ten with Shift, a tenth with Alt.')}</p>
        {at && (
          <p class="walk-how">{t('{0} px from the left edge, {1} px from the top.', fixed(at.x, 1), fixed(at.y, 1))}</p>
        )}
        <EdgeOffer model={model} live={live} stage={stage} />
        {step === 'scale' && <MarkerLength model={model} sheet={sheet} live={live} stage={stage} />}
        <p class="walk-do">
          <button
            type="button"
            onClick={() => {
              model.pick(sheet, null);
              stage()?.focus();
            }}
          >
            {t('Let go')}
          </button>
          <button
            type="button"
            title={t('Delete')}
            onClick={() => {
              model.remove(sheet);
              stage()?.focus();
            }}
          >
            {t('Take away')}
          </button>
        </p>
      </div>
    </section>
  );
}

function nameOfLine(line: LineKey): string {
  switch (line) {
    case 'ground':
      return t('Ground line');
    case 'bearing':
      return t('Bearing line');
    case 'scale':
      return t('Scale marker');
  }
}

interface SpotProps extends Pick<WalkCardProps, 'model' | 'live' | 'stage'> {
  readonly step: Pick<PlacingStep, 'key' | 'name'>;
}

/** The place on a small plate that faces as the film does; where nothing tells how that is, two plates ask. */
function Spot({ step: { key, name }, live, model, stage }: SpotProps) {
  const toe = model.toe(live);
  if (live.view === 'lateral' && toe === null)
    return (
      <div class="spot-plate spot-choice" role="group" aria-label={t('Which way does the toe point?')}>
        <p>{t('Which way does the toe point?')}</p>
        {(['left', 'right'] as const).map((side) => (
          <button
            key={side}
            type="button"
            aria-label={side === 'left' ? t('The toe points to the left') : t('The toe points to the right')}
            onClick={() => {
              model.sayToe(live.picture, side);
              stage()?.focus();
            }}
            // Our own drawing: nothing in it comes from the text.
            dangerouslySetInnerHTML={{ __html: spotPlate('lateral', key, side === 'right').whole }}
          />
        ))}
      </div>
    );
  const { whole, near } = spotPlate(live.view, key, toe === 'right');
  const label = t('Where it lies: {0}', name);
  // Our own drawing: nothing in it comes from the text.
  return (
    <figure class="spot-plate" role="img" aria-label={label}>
      <span class="spot-whole" aria-hidden="true" dangerouslySetInnerHTML={{ __html: whole }} />
      {!isLineKey(key) && <span class="spot-near" aria-hidden="true" dangerouslySetInnerHTML={{ __html: near }} />}
    </figure>
  );
}

/** Never filled by a guess: what stands in it was written by a person, for this film or the last. */
function MarkerLength({ model, sheet, live, stage }: Omit<WalkCardProps, 'before' | 'isLost'>) {
  const field = useRef<HTMLInputElement>(null);
  // What is being typed outlives a drawing of the page: another one may come at any key.
  const [typed, setTyped] = useState<string | null>(null);
  const known = live.input.scale?.kind === 'marker' ? live.input.scale.mm : model.state.marker;
  const isAwaited = model.ends !== null;
  useEffect(() => {
    if (isAwaited) field.current?.focus();
  }, [isAwaited]);
  return (
    <p class="marker-length">
      <label>
        {t('Length of the marker')}{' '}
        <input
          ref={field}
          type="number"
          min="1"
          max="1000"
          step="any"
          value={typed ?? known ?? ''}
          onInput={({ currentTarget }) => setTyped(currentTarget.value)}
          onChange={() => {
            setTyped(null);
            model.setMarker(sheet, Number(field.current?.value));
            if (isAwaited && model.ends === null) stage()?.focus();
          }}
        />{' '}
        {t('mm')}
      </label>
    </p>
  );
}
