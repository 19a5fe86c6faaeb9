import type { AgainstKey, LessonMarks, LessonPoint } from '../../shared/views/lesson-sheet.ts';
import { counted, t } from '../../shared/language/words.ts';

export interface LessonProps {
  readonly marks: LessonMarks;
}

/** How each place stands to the key's, and what follows for the measures. */
export function LessonView({ marks }: LessonProps) {
  return (
    <section class="lesson" aria-labelledby="lesson">
      <h2 id="lesson">{t('Against the key')}</h2>
      <Marks marks={marks} />
    </section>
  );
}

function Marks({ marks: { points, beyond, lines, measures } }: { readonly marks: LessonMarks }) {
  const [told, agree] = parted(points);
  const [clear, alike] = parted(measures);
  return (
    <>
      {lines.map((line) => (
        <p>{capital(line)}.</p>
      ))}
      {told.length > 0 && <Points points={told} />}
      {beyond.length > 0 && <p class="aside">{t('Placed, and not in the key: {0}.', beyond.join(', '))}</p>}
      {agree.length > 0 && (
        <details>
          <summary>{counted(agree.length, 'One place agrees', '{0} places agree')}</summary>
          <Points points={agree} />
        </details>
      )}
      {measures.length > 0 && <h3>{t('What follows for the measures')}</h3>}
      {measures.length > 0 && clear.length === 0 && <p>{t('No measure differs clearly from the key’s.')}</p>}
      {clear.length > 0 && <Measures measures={clear} />}
      {alike.length > 0 && (
        <details>
          <summary>
            {counted(
              alike.length,
              'One measure is the key’s within its error',
              '{0} measures are the key’s within their error',
            )}
          </summary>
          <Measures measures={alike} />
        </details>
      )}
      <p class="aside">
        {t(
          'On the film a ring is the key’s place, a line leads to it from yours, and a ring of dashes was not placed. A place agrees within what two good placings differ by, or what the key allows for it.',
        )}
      </p>
    </>
  );
}

/** What does not agree, and what does. */
function parted<T extends { readonly state: AgainstKey }>(all: readonly T[]): readonly [readonly T[], readonly T[]] {
  return [all.filter(({ state }) => state !== 'agrees'), all.filter(({ state }) => state === 'agrees')];
}

const capital = (words: string): string => words.slice(0, 1).toUpperCase() + words.slice(1);

function Points({ points }: { readonly points: readonly LessonPoint[] }) {
  return (
    <table class="lesson-points">
      <thead>
        <tr>
          {[t('Place'), t('Off'), t('Which way'), t('Allowed')].map((word) => (
            <th scope="col">{word}</th>
          ))}
        </tr>
      </thead>
      <tbody>
        {points.map(({ landmark, words, state, distance, way, allowed }) => (
          <tr key={landmark} data-point={landmark} class={`is-${state}`}>
            <th scope="row">{words}</th>
            <td class="value">{distance}</td>
            <td class="way">
              {state === 'missing' ? <em>{t('not placed')}</em> : state === 'agrees' ? <em>{t('agrees')}</em> : way}
            </td>
            <td class="usual">{allowed}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Measures({ measures }: Pick<LessonMarks, 'measures'>) {
  return (
    <table class="lesson-measures">
      <thead>
        <tr>
          {[t('Measure'), t('Yours'), t('The key’s'), t('Difference')].map((word) => (
            <th scope="col">{word}</th>
          ))}
        </tr>
      </thead>
      <tbody>
        {measures.map(({ measure, words, state, own, key, difference }) => (
          <tr key={measure} data-measure={measure} class={`is-${state}`}>
            <th scope="row">{words}</th>
            <td class="value">{own}</td>
            <td class="value">{key}</td>
            <td class="way">
              {state === 'missing' ? <em>{t('your places do not give it')}</em> : difference}
              {state === 'off' && <em>{t(', clear')}</em>}
              {state === 'agrees' && <em>{t(', within the error')}</em>}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
