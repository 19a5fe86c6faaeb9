import { t } from '../../language/words.ts';
import { basalInsulin, insulinAfterSyrup, insulinStudy, type InsulinBand } from '../../reference/insulin.ts';
import type { Visit } from '../../record/schema.ts';
import type { Rule } from '../rule.ts';
import { list } from '../wording/wording.ts';

/** What some laboratories take one µIU/mL to be, pmol/L; the notation takes 6. Both from memory. */
const otherFactor = 6.945;

export const insulin: Rule = {
  code: 'visit/insulin',
  severity: 'info',
  title: 'Insulin, for the vet',
  about: `Much insulin in the blood goes before laminitis. ${insulinStudy.cite} followed ${insulinStudy.ponies} ponies without laminitis for four years: how many had it by then is told here as published, with the 95 % interval. Not fasted and without sugar: ${said(basalInsulin)}. An hour after 0.3 ml of corn syrup a kilogram: ${said(insulinAfterSyrup)}. It was read in the abstract. The figures belong to ponies and to that laboratory's way of measuring; they are no diagnosis. What a value means for this animal is the vet's to say. Only the newest value is told.`,
  *onCase({ record: { visits, animal } }) {
    const visit = visits.findLast(({ is }) => is.insulin !== null);
    const value = visit?.is.insulin;
    if (!visit || !value) return;
    const told = visit.is.laboratory.find((one) => one.value === value);
    const given = (told?.after ?? null) !== null;
    const bands = given ? insulinAfterSyrup : basalInsulin;
    const how = given ? t('an hour after 0.3 ml of corn syrup a kilogram') : t('not fasted, no sugar given');
    const others = given
      ? t('After another time or dose')
      : told?.fasting === true
        ? t('Fasting, as here, and after a sugar test')
        : t('After a sugar test');
    yield {
      start: visit.start,
      at: value.at,
      message: t(
        '{0}, for the vet to judge. In a study of {1} ponies {2} had laminitis within four years ({3}; {4}). {5}{6} other figures count. Other laboratories differ: this is no diagnosis.',
        inWords(value, told?.above),
        insulinStudy.ponies,
        sharesOf(bands),
        how,
        insulinStudy.cite,
        animal?.is.kind === 'pony' ? '' : t('These are ponies’ figures. '),
        others,
      ),
      value: value.base,
      source: insulinStudy.cite,
    };
  },
};

function inWords({ value, unit, base }: NonNullable<Visit['insulin']>, above = false): string {
  const over = above ? t('over ') : '';
  if (unit !== 'pmol/L') return t('Insulin {0}{1} µIU/mL', over, plain(base));
  return t(
    'Insulin {0}{1} pmol/L, which is {2} µIU/mL at 6 pmol/L to 1 µIU/mL ({3} where the laboratory takes {4})',
    over,
    plain(value),
    plain(base),
    plain(value / otherFactor),
    otherFactor,
  );
}

/** Without decimals that say nothing. */
const plain = (value: number): string => String(Math.round(value * 10) / 10);

function range({ from, to, andMore }: InsulinBand): string {
  if (andMore) return t('{0} and more', from);
  return to === null ? t('over {0}', from) : from === 0 ? t('under {0}', to) : t('from {0} to {1}', from, to);
}

function sharesOf(bands: readonly InsulinBand[]): string {
  return list(
    bands.map((band, index) => t('{0} % of those {1}{2}', band.share, range(band), index === 0 ? ' µIU/mL' : '')),
  );
}

function said(bands: readonly InsulinBand[]): string {
  return list(
    bands.map((band, index) =>
      t('{0}{1} {2} % ({3} to {4})', range(band), index === 0 ? ' µIU/mL' : '', band.share, band.low, band.high),
    ),
  );
}
