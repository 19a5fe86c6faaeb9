import { useMemo, useRef, useState } from 'preact/hooks';
import { alone, usualWidth } from '../../../shared/drawing/alone.ts';
import { drawDifferences } from '../../../shared/drawing/agreement/difference-plot.ts';
import { sceneToSvg } from '../../../shared/drawing/svg.ts';
import type { AgreementRow, AgreementSheet, ReadingPair } from '../../../shared/views/agreement-sheet.ts';
import { grouped } from '../../../shared/views/grouped.ts';
import { t } from '../../../shared/language/words.ts';
import { useActions } from '../actions.ts';
import { steppedStop } from '../cursor-stop.ts';
import { usePaneWidth } from '../pane-width.ts';
import { drawingMenu } from '../take/drawing-menu.ts';
import { fileNameOf } from '../take/file-name.ts';
import { TakeRow } from '../take/take-row.tsx';

interface DifferenceProps {
  readonly sheet: AgreementSheet;
  readonly row: AgreementRow;
  readonly pair: ReadingPair | null;
  readonly caseName: string;
  readonly said: string | null;
}

/** Two readings of the same films: difference against mean, with bias and limits. */
export function DifferenceView({ sheet, row, pair, caseName, said }: DifferenceProps) {
  const { chooseAgreement, save } = useActions();
  const measures = sheet.measures.filter(({ pairs }) => pairs.length > 0);
  const name = fileNameOf(caseName, row.words, 'agreement');
  const heading = `${caseName}: ${pair?.plot.title ?? ''}`;
  return (
    <figure>
      <figcaption>
        <label class="which">
          {t('Measure')}{' '}
          <select value={row.key} onChange={({ currentTarget }) => chooseAgreement({ measure: currentTarget.value })}>
            {[...grouped(measures, ({ family }) => family)].map(([family, own]) => (
              <optgroup key={family} label={family}>
                {own.map(({ key, words }) => (
                  <option key={key} value={key}>
                    {words}
                  </option>
                ))}
              </optgroup>
            ))}
          </select>
        </label>
        {row.pairs.length > 1 && (
          <label class="which">
            {t('Readings')}{' '}
            <select value={pair?.key} onChange={({ currentTarget }) => chooseAgreement({ pair: currentTarget.value })}>
              {row.pairs.map(({ key, words }) => (
                <option key={key} value={key}>
                  {words}
                </option>
              ))}
            </select>
          </label>
        )}
      </figcaption>
      {pair && <Plot key={`${row.key} ${pair.key}`} pair={pair} />}
      {pair?.said.map((line) => (
        <p key={line}>{line}</p>
      ))}
      {pair && (
        <TakeRow
          name={name}
          draw={async () => {
            const { scene } = drawDifferences({ ...pair.plot, width: usualWidth.course, heading });
            return { drawing: alone(scene, { width: usualWidth.course }), says: null };
          }}
          more={[[t('Save numbers (CSV)'), () => save({ kind: 'csv', name, content: sheet.csv() })]]}
          said={said}
        />
      )}
      <p class="aside">
        {t(
          'Each ring is a film. The heavy line is the bias, with its 95 % interval hatched; the dashed lines hold 95 of 100 differences, and the upright at each is its 95 % interval.',
        )}
      </p>
      {row.said.map((line) => (
        <p key={line} class="row-said">
          {line}
        </p>
      ))}
    </figure>
  );
}

/** The arrow keys go from film to film, Enter to its place in the text. */
function Plot({ pair: { plot, lines } }: { readonly pair: ReadingPair }) {
  const { go } = useActions();
  const holder = useRef<HTMLDivElement>(null);
  const width = usePaneWidth(holder);
  const [stop, setStop] = useState<number | null>(null);
  const drawn = useMemo(() => (width > 0 ? drawDifferences({ ...plot, width }) : null), [plot, width]);
  // Our own drawings: every text in them was escaped when they were made.
  const ink = useMemo(() => (drawn ? sceneToSvg(drawn.scene) : ''), [drawn]);
  const ring = useMemo(
    () => (drawn && stop !== null ? sceneToSvg(drawn.cursor(stop), { classes: ['overlay'] }) : ''),
    [drawn, stop],
  );
  const last = plot.points.length - 1;
  const read = plot.points[stop ?? 0];
  const press = (at: number | null): void => {
    const line = at === null ? null : lines[at];
    if (line !== null && line !== undefined) go(line);
  };
  const nearest = ({ offsetX, offsetY }: MouseEvent): number | null => {
    const stops = drawn?.stops ?? [];
    let found: number | null = null;
    let least = NEAR;
    stops.forEach(({ x, y }, at) => {
      const away = Math.hypot(x - offsetX, y - offsetY);
      if (away < least) [found, least] = [at, away];
    });
    return found;
  };
  return (
    <div
      ref={holder}
      class="stave difference-plot"
      data-vscode-context={drawingMenu}
      role="slider"
      tabIndex={0}
      aria-label={`${plot.title}. ${plot.description}`}
      aria-orientation="horizontal"
      aria-valuemin={1}
      aria-valuemax={last + 1}
      aria-valuenow={(stop ?? 0) + 1}
      aria-valuetext={read?.words ?? ''}
      aria-description={t('Arrow keys move from film to film; Enter goes to the film in the text.')}
      onFocus={() => setStop((at) => at ?? 0)}
      onPointerMove={(event) => {
        const at = nearest(event);
        if (at !== null) setStop(at);
      }}
      onClick={(event) => press(nearest(event))}
      onKeyDown={(event) => {
        if (event.key === 'Enter') return press(stop);
        const to = steppedStop(event.key, stop ?? 0, last + 1);
        if (to === null) return;
        event.preventDefault();
        setStop(to);
      }}
    >
      <div class="stave-ink" aria-hidden="true" dangerouslySetInnerHTML={{ __html: ink }} />
      <div class="stave-ink" aria-hidden="true" dangerouslySetInnerHTML={{ __html: ring }} />
    </div>
  );
}

/** Pixels from a ring at which it is meant. */
const NEAR = 40;
