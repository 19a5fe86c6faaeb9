import type { AgreementRow } from '../../../shared/views/agreement-sheet.ts';
import { t } from '../../../shared/language/words.ts';
import { useActions } from '../actions.ts';

interface FiguresProps {
  readonly rows: readonly AgreementRow[];
  /** Key of the measure whose plot is shown. */
  readonly shown: string | null;
}

/** The figures of each measure, for those who read numbers; its name shows its plot. */
export function FiguresTable({ rows, shown }: FiguresProps) {
  const { chooseAgreement } = useActions();
  const [first] = rows;
  if (!first) return null;
  return (
    <>
      <div class="wide-table" role="region" aria-label={t('Table of agreement')} tabIndex={0}>
        <table class="trends figures">
          <thead>
            <tr>
              <th scope="col">{t('Measure')}</th>
              {first.figures.map(({ label }) => (
                <th key={label} scope="col">
                  {label}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map(({ key, words, counts, figures, pairs }) => (
              <tr key={key} data-measure={key} class={key === shown ? 'is-lit' : undefined}>
                <th scope="row">
                  {pairs.length > 0 ? (
                    <button type="button" class="go" onClick={() => chooseAgreement({ measure: key })}>
                      {words}
                    </button>
                  ) : (
                    words
                  )}
                  <small>{t('films: {0}', counts)}</small>
                </th>
                {figures.map(({ label, text, also }) => (
                  <td key={label} data-label={label}>
                    {text === '' ? (
                      <span class="quiet">{t('not to be had')}</span>
                    ) : (
                      <>
                        <span class="value">{text}</span>
                        {also !== '' && <span class="also">{also}</span>}
                      </>
                    )}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p class="aside">
        {t(
          'In brackets stand 95 % intervals. A correlation is the part of the spread that comes from the films: it falls where they are alike. The error is one standard deviation; two single readings of a foot that has not changed differ by less than the smallest change in 95 of 100.',
        )}
      </p>
    </>
  );
}
