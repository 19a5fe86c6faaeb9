import { shownDate } from '../../../shared/language/dates.ts';
import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import type { VisitSheet } from '../../../shared/views/visit-sheet.ts';
import type { SheetsMessage } from '../../messages/messages.ts';
import { t } from '../../../shared/language/words.ts';
import { useActions } from '../actions.ts';
import { filmKey } from '../../../shared/views/film-choice.ts';
import { pictureNamed } from '../picture-of.ts';
import { stripLayout, CARD } from './strip-layout.ts';
import { filmsOfVisit } from './visit-choice.ts';

interface StripProps {
  readonly message: Pick<SheetsMessage, 'visits' | 'films' | 'pictures'>;
  readonly current: VisitSheet | null;
}

/** Height of the line of time below the cards. */
const LINE = 18;

/** The visits of the case in time, each with its first film, how the animal was and what was done; each a way to its place. */
export function CaseStrip({ message, current }: StripProps) {
  const { visits } = message;
  const holder = useRef<HTMLElement>(null);
  const [pane, setPane] = useState(0);
  useLayoutEffect(() => {
    const element = holder.current;
    if (!element) return;
    const watch = new ResizeObserver(() => setPane(element.clientWidth));
    watch.observe(element);
    setPane(element.clientWidth);
    return () => watch.disconnect();
  }, [visits.length > 0]);
  const { width, cards, days } = stripLayout(
    visits.map(({ day }) => day),
    pane,
  );
  const at = current ? visits.indexOf(current) : -1;
  const card = cards[at];
  useLayoutEffect(() => {
    const element = holder.current;
    if (!element || card === undefined) return;
    if (card < element.scrollLeft) element.scrollLeft = card;
    else if (card + CARD > element.scrollLeft + element.clientWidth)
      element.scrollLeft = card + CARD - element.clientWidth;
  }, [card, pane]);
  const [only] = visits;
  if (!only) return null;
  // There is nothing to choose, and no time passes.
  if (visits.length === 1) return <p class="aside only-visit">{wordsOf(only).join('; ')}</p>;
  return (
    <nav ref={holder} class="strip" aria-label={t('Visits of this case')} onKeyDown={step}>
      <div class="strip-track" style={{ width: `${width}px` }}>
        {visits.map((visit, index) => (
          <VisitCard
            visit={visit}
            message={message}
            left={cards[index] ?? 0}
            isCurrent={index === at}
            isStop={index === Math.max(at, 0)}
          />
        ))}
        <svg class="strip-line" width={width} height={LINE} aria-hidden="true">
          <path class="time" d={`M0 ${LINE - 4}H${width}`} />
          {days.map((x, index) =>
            x === null ? null : (
              <path
                class={index === at ? 'day is-current' : 'day'}
                d={`M${(cards[index] ?? 0) + CARD / 2} 0L${x} ${LINE - 8}V${LINE}`}
              />
            ),
          )}
        </svg>
      </div>
    </nav>
  );
}

/** One stop for the Tab key; the arrow keys go from visit to visit. */
function step(event: KeyboardEvent): void {
  const { key, target, currentTarget } = event;
  const by = key === 'ArrowRight' ? 1 : key === 'ArrowLeft' ? -1 : 0;
  if (by === 0 || !(currentTarget instanceof Element) || !(target instanceof HTMLButtonElement)) return;
  const all = [...currentTarget.querySelectorAll<HTMLButtonElement>('button')];
  const next = all[all.indexOf(target) + by];
  if (!next) return;
  event.preventDefault();
  for (const one of all) one.tabIndex = one === next ? 0 : -1;
  next.focus();
}

const conditionOf = ({ comfort, weight }: VisitSheet): string =>
  [comfort, weight].filter((part) => part !== null).join(', ');

/** All that the strip says of a visit. */
function wordsOf(visit: VisitSheet): string[] {
  const { date, title, done, seen } = visit;
  return [date === null ? t('no date') : shownDate(date), title ?? '', conditionOf(visit), ...done, ...seen].filter(
    (part) => part !== '',
  );
}

interface VisitCardProps extends Pick<StripProps, 'message'> {
  readonly visit: VisitSheet;
  readonly left: number;
  readonly isCurrent: boolean;
  readonly isStop: boolean;
}

function VisitCard({ visit, message: { films, pictures }, left, isCurrent, isStop }: VisitCardProps) {
  const { goToVisit } = useActions();
  const { date, title, done, picture, line } = visit;
  const found = picture === null ? undefined : pictureNamed(pictures, picture);
  const condition = conditionOf(visit);
  const [film] = filmsOfVisit(films, visit);
  return (
    <button
      type="button"
      class="visit"
      style={{ left: `${left}px`, width: `${CARD}px` }}
      tabIndex={isStop ? 0 : -1}
      aria-current={isCurrent ? 'true' : undefined}
      title={wordsOf(visit).join('; ')}
      onClick={() => goToVisit(film?.line ?? line, film ? filmKey(film) : null)}
    >
      {found?.kind === 'found' ? (
        <img src={found.href} alt="" loading="lazy" decoding="async" />
      ) : (
        <span class="no-picture" />
      )}
      <span class="visit-words">
        <span class="visit-date">{date === null ? t('no date') : shownDate(date)}</span>
        <span>{condition || title || ' '}</span>
        <span class="visit-done">{done[0]}</span>
      </span>
    </button>
  );
}
