import { useMemo } from 'preact/hooks';
import { agreementSheet, type AgreementRow, type AgreementSheet } from '../../../shared/views/agreement-sheet.ts';
import { t } from '../../../shared/language/words.ts';
import type { AgreementChoice, ReadingsSheet } from '../../messages/readings-messages.ts';
import { useActions } from '../actions.ts';
import { Toggle, Toggles } from '../toggles.tsx';
import { DifferenceView } from './difference-view.tsx';
import { FiguresTable } from './figures-table.tsx';
import { ScatterView } from './scatter-view.tsx';

export interface AgreementProps {
  /** Null until it is known. */
  readonly readings: ReadingsSheet | null;
  readonly caseName: string;
  readonly choice: AgreementChoice | null;
  readonly said: string | null;
}

/** How far readings of one film lie apart: of different people, and of one person each. */
export function AgreementView({ readings, caseName, choice, said }: AgreementProps) {
  const { chooseAgreement } = useActions();
  const sheet = useMemo(() => readings && agreementSheet(readings), [readings]);
  if (!readings || !sheet) return <p class="aside">{t('The agreement is being computed.')}</p>;
  const of = choice?.of ?? readings.of;
  return (
    <div class="course agreement">
      <section aria-labelledby="read-by">
        <div class="section-head">
          <h2 id="read-by">{t('How far readings of one film lie apart')}</h2>
          <Toggles label={t('Whose films')}>
            <Toggle pressed={of === 'case'} onPress={() => chooseAgreement({ of: 'case' })}>
              {t('This case')}
            </Toggle>
            <Toggle pressed={of === 'folder'} onPress={() => chooseAgreement({ of: 'folder' })}>
              {t('All cases in its folder')}
            </Toggle>
          </Toggles>
        </div>
        {readings.of === 'folder' && <p class="aside">{t('Case files: {0}.', readings.files)}</p>}
        {sheet.read.map((line) => (
          <p key={line} class="read-line">
            {line}
          </p>
        ))}
        {readings.lack !== null && <p class="doubt">{readings.lack}</p>}
      </section>
      {sheet.measures.length > 0 && <Measures sheet={sheet} caseName={caseName} choice={choice} said={said} />}
      <ScatterView sheet={sheet} caseName={caseName} />
    </div>
  );
}

interface MeasuresProps extends Omit<AgreementProps, 'readings'> {
  readonly sheet: AgreementSheet;
}

function Measures({ sheet, caseName, choice, said }: MeasuresProps) {
  const { chooseAgreement } = useActions();
  const { measures, first } = sheet;
  const withPairs = measures.filter(({ pairs }) => pairs.length > 0);
  const row =
    withPairs.find(({ key }) => key === choice?.measure) ??
    withPairs.find(({ key }) => first.includes(key)) ??
    withPairs[0];
  const shows = choice?.all === true ? measures : measures.filter(({ key }) => first.includes(key));
  return (
    <>
      {row && <DifferenceView sheet={sheet} row={row} pair={pairOf(row, choice)} caseName={caseName} said={said} />}
      <section aria-labelledby="figures">
        <div class="section-head">
          <h2 id="figures">{t('In numbers')}</h2>
          {measures.length > first.length && (
            <Toggles label={t('How much')}>
              <Toggle pressed={choice?.all === true} onPress={() => chooseAgreement({ all: choice?.all !== true })}>
                {t('All measures')}
              </Toggle>
            </Toggles>
          )}
        </div>
        <FiguresTable rows={shows} shown={row?.key ?? null} />
      </section>
    </>
  );
}

const pairOf = ({ pairs }: AgreementRow, choice: AgreementChoice | null): AgreementRow['pairs'][number] | null =>
  pairs.find(({ key }) => key === choice?.pair) ?? pairs[0] ?? null;
