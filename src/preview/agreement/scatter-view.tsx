import { useMemo, useState } from 'preact/hooks';
import { alone, usualWidth } from '../../../shared/drawing/alone.ts';
import { drawScatter } from '../../../shared/drawing/agreement/scatter-foot.ts';
import { sceneToSvg } from '../../../shared/drawing/svg.ts';
import type { AgreementSheet, ScatterSheet } from '../../../shared/views/agreement-sheet.ts';
import { t } from '../../../shared/language/words.ts';
import { fileNameOf } from '../take/file-name.ts';
import { TakeRow } from '../take/take-row.tsx';
import { Toggle, Toggles } from '../toggles.tsx';

/** What is half a millimetre wide is hard to see on a foot of fifteen centimetres. */
const LARGER = 5;

/** Where each landmark was placed, as ellipses on the foot and in millimetres. */
export function ScatterView({ sheet, caseName }: { readonly sheet: AgreementSheet; readonly caseName: string }) {
  const { scatters, notInMm } = sheet;
  const [chosen, setChosen] = useState<string | null>(null);
  const [isLarger, setLarger] = useState(false);
  const [lit, setLit] = useState<string | null>(null);
  const scatter = scatters.find(({ key }) => key === chosen) ?? scatters[0];
  if (!scatter) return notInMm === null ? null : <p class="doubt">{notInMm}</p>;
  const times = isLarger ? LARGER : 1;
  return (
    <section aria-labelledby="scatter">
      <div class="section-head">
        <h2 id="scatter">{t('Where landmarks were placed')}</h2>
        {scatters.length > 1 && (
          <Toggles label={t('Whose readings')}>
            {scatters.map(({ key, words }) => (
              <Toggle key={key} pressed={key === scatter.key} onPress={() => setChosen(key)}>
                {words}
              </Toggle>
            ))}
          </Toggles>
        )}
        <Toggles label={t('Size of the ellipses')}>
          <Toggle pressed={isLarger} onPress={() => setLarger(!isLarger)}>
            {t('{0} times as large', LARGER)}
          </Toggle>
        </Toggles>
      </div>
      <div class="scatter-pair">
        <div>
          <Ellipses scatter={scatter} times={times} lit={lit} />
          <p class="aside">
            {scatter.on} {keyWords(times)}
          </p>
          <TakeRow
            name={fileNameOf(caseName, 'landmarks')}
            draw={async () => ({ drawing: drawingOf(scatter, times, caseName), says: null })}
            said={null}
          />
        </div>
        <div class="wide-table" role="region" aria-label={t('Table of landmarks')} tabIndex={0}>
          <table class="scatter-table">
            <thead>
              <tr>
                <th scope="col">{t('Landmark')}</th>
                <th scope="col">{t('One standard deviation')}</th>
                <th scope="col">{t('Holds 95 of 100')}</th>
              </tr>
            </thead>
            <tbody onPointerLeave={() => setLit(null)}>
              {scatter.rows.map(({ landmark, name, text, most, counts }) => (
                <tr
                  key={landmark}
                  class={landmark === lit ? 'is-lit' : undefined}
                  onPointerEnter={() => setLit(landmark)}
                >
                  <th scope="row">
                    <button
                      type="button"
                      class="go"
                      aria-pressed={landmark === lit}
                      onFocus={() => setLit(landmark)}
                      onClick={() => setLit(landmark)}
                    >
                      {name}
                    </button>
                  </th>
                  <td>
                    <span class="value">{text}</span>
                    <span class="also">{counts}</span>
                  </td>
                  <td class="value">{most}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      </div>
      {notInMm !== null && <p class="doubt">{notInMm}</p>}
    </section>
  );
}

const keyWords = (times: number): string =>
  times === 1
    ? t('At true scale: the filled ellipse is one standard deviation, the outer one holds 95 of 100 placings.')
    : t(
        'The ellipses are {0} times as large as they are: the filled one is one standard deviation, the outer one holds 95 of 100 placings.',
        times,
      );

const sceneOf = ({ foot, axes, rows, title }: ScatterSheet, times: number, lit: string | null) =>
  drawScatter({
    foot,
    axes,
    times,
    title,
    ellipses: rows,
    highlight: lit,
    description: `${keyWords(times)} ${rows.map(({ words }) => words).join('; ')}.`,
  });

function Ellipses({
  scatter,
  times,
  lit,
}: {
  readonly scatter: ScatterSheet;
  readonly times: number;
  readonly lit: string | null;
}) {
  // Our own drawing: every text in it was escaped when it was made.
  const drawn = useMemo(() => sceneToSvg(sceneOf(scatter, times, lit)), [scatter, times, lit]);
  return <div class="scatter-foot" dangerouslySetInnerHTML={{ __html: drawn }} />;
}

function drawingOf(scatter: ScatterSheet, times: number, caseName: string) {
  const scene = sceneOf(scatter, times, null);
  return alone({ ...scene, title: `${caseName}: ${scene.title}` }, { width: usualWidth.plate });
}
