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
    const how = given ? 'an hour after 0.3 ml of corn syrup a kilogram' : 'not fasted, no sugar given';
    const others = given
      ? 'After another time or dose'
      : told?.fasting === true
        ? 'Fasting, as here, and after a sugar test'
        : 'After a sugar test';
    yield {
      start: visit.start,
      at: value.at,
      message: `${inWords(value, told?.above)}, for the vet to judge. In a study of ${insulinStudy.ponies} ponies ${sharesOf(bands)} had laminitis within four years (${how}; ${insulinStudy.cite}). ${animal?.is.kind === 'pony' ? '' : 'These are ponies’ figures. '}${others} other figures count. Other laboratories differ: this is no diagnosis.`,
      value: value.base,
      source: insulinStudy.cite,
    };
  },
};

function inWords({ value, unit, base }: NonNullable<Visit['insulin']>, above = false): string {
  const over = above ? 'over ' : '';
  if (unit !== 'pmol/L') return `Insulin ${over}${plain(base)} µIU/mL`;
  return `Insulin ${over}${plain(value)} pmol/L, which is ${plain(base)} µIU/mL at 6 pmol/L to 1 µIU/mL (${plain(value / otherFactor)} where the laboratory takes ${otherFactor})`;
}

/** Without decimals that say nothing. */
const plain = (value: number): string => String(Math.round(value * 10) / 10);

function range({ from, to, andMore }: InsulinBand): string {
  if (andMore) return `${from} and more`;
  return to === null ? `over ${from}` : from === 0 ? `under ${to}` : `from ${from} to ${to}`;
}

function sharesOf(bands: readonly InsulinBand[]): string {
  return list(bands.map((band, index) => `${band.share} % of those ${range(band)}${index === 0 ? ' µIU/mL' : ''}`));
}

function said(bands: readonly InsulinBand[]): string {
  return list(
    bands.map(
      (band, index) => `${range(band)}${index === 0 ? ' µIU/mL' : ''} ${band.share} % (${band.low} to ${band.high})`,
    ),
  );
}
