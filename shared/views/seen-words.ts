import { shownDate } from '../language/dates.ts';
import { figures, sayQuantity } from '../language/figures.ts';
import { t } from '../language/words.ts';
import { sayChoice } from '../language/choice-words.ts';
import { footWords, sentence } from '../findings/wording/wording.ts';
import { findHandMeasure } from '../measures/by-hand.ts';
import { findMeasure } from '../measures/registry.ts';
import type { FootName } from '../notation/choices.ts';
import { wordList } from '../notation/word-list.ts';
import type { LaboratoryValue, Medicine, Quantity, Tape, Visit } from '../record/schema.ts';
import { plainPictureWords } from './setup-words.ts';
import { wornLineWords } from '../findings/wording/shod-words.ts';

/** What a visit says beside its films, plans and trims, a phrase each, in the order in which one tells it. */
export function seenWords(visit: Visit): readonly string[] {
  return [
    ...whoWas(visit),
    ...howItGoes(visit),
    ...onTheFeet(visit),
    ...visit.laboratory.map(laboratoryWords),
    ...visit.medicines.map(medicineWords),
    ...visit.tapes.flatMap(tapeWords),
    ...visit.seen.map(vetWords),
    ...visit.pictures.map(plainPictureWords),
    ...visit.worn.map(wornLineWords),
  ];
}

function* whoWas({ by, farrier, diagnoses, owner, adverse }: Visit): Iterable<string> {
  if (by) yield t('By {0}', by.text);
  if (farrier) yield t('Farrier: {0}', farrier.text);
  for (const { text } of diagnoses) yield t('Diagnosis: {0}', text);
  for (const { text } of owner) yield t('The owner says: {0}', text);
  for (const { text } of adverse) yield t('Went wrong or did harm: {0}', text);
}

/** `Insulin over 300 uIU/mL, 60 minutes after syrup`. */
function laboratoryWords({ of, value, above, fasting, after }: LaboratoryValue): string {
  const name = of === 'acth' ? 'ACTH' : sentence(sayChoice(of));
  const given = after === null ? '' : t(', {0} minutes after {1}', after, of === 'acth' ? 'TRH' : sayChoice('syrup'));
  return `${name} ${above ? t('over ') : ''}${said(value)}${fasting ? t(', fasting') : given}`;
}

function medicineWords({ name, dose, from, until }: Medicine): string {
  const when = [from && t('from {0}', shownDate(from)), until && t('until {0}', shownDate(until))]
    .filter((words) => words)
    .join(' ');
  return t('Medicine: {0}', [name, dose, when].filter((words) => words).join(', '));
}

/** `Seen by the vet on 2026-05-04: no grass until the next test`. */
function vetWords({ date, text }: Visit['seen'][number]): string {
  return t('Seen by the vet on {0}{1}', shownDate(date), text === null ? '' : `: ${text}`);
}

function* howItGoes({ meier, lameness, landings, temperatures }: Visit): Iterable<string> {
  if (meier) yield t('Modified Obel score (Meier 2019): {0} of 12', meier.value);
  for (const { feet, grade } of lameness)
    yield t('Lameness over ground: {0} of 5{1}', grade, feet.length > 0 ? `, ${feetWords(feet)}` : '');
  for (const { feet, landing } of landings)
    yield landing === 'flat'
      ? t('Lands flat: {0}', feetWords(feet))
      : t('Lands {0} first: {1}', sayChoice(landing), feetWords(feet));
  for (const temperature of temperatures) yield t('Temperature: {0}', said(temperature));
}

function* onTheFeet({ pulses, warmths, testers, soles, found }: Visit): Iterable<string> {
  for (const { feet, pulse } of pulses) yield t('Pulse {0}: {1}', sayChoice(pulse), feetWords(feet));
  for (const { feet, warmth } of warmths) yield t('Hoof {0}: {1}', sayChoice(warmth), feetWords(feet));
  for (const { feet, places, answer } of testers)
    yield answer === 'none'
      ? t('Hoof testers at {0}: no answer, {1}', wordList(places.map(sayChoice)), feetWords(feet))
      : t('Hoof testers at {0}: {1} answer, {2}', wordList(places.map(sayChoice)), sayChoice(answer), feetWords(feet));
  for (const { feet, firmness } of soles)
    yield t('Sole {0}: {1}', firmness === 'gives' ? t('gives to the thumb') : sayChoice(firmness), feetWords(feet));
  for (const { feet, place, text } of found) yield `${sentence(sayChoice(place))}, ${feetWords(feet)}: ${text}`;
}

/** One phrase for a foot; the share of heel to toe follows where both heights are taken. */
function tapeWords({ foot, values }: Tape): string[] {
  const words = values.flatMap(({ measure, quantity }) => {
    const known = findMeasure(measure) ?? findHandMeasure(measure);
    return known ? [`${known.words} ${said(quantity)}`] : [];
  });
  const heightOf = (name: string): number | null =>
    values.find(({ measure, quantity }) => measure === name && quantity.unit !== '1')?.quantity.base ?? null;
  const [heel, toe] = [heightOf('heel-height'), heightOf('toe-height')];
  if (heel !== null && toe !== null && toe > 0 && !values.some(({ measure }) => measure === 'heel-toe-share'))
    words.push(t('heel height for the toe height {0} %', Math.round((100 * heel) / toe)));
  return words.length > 0 ? [t('By hand, {0}: {1}', footWords[foot], words.join(', '))] : [];
}

const feetWords = (feet: readonly FootName[]): string => wordList([...new Set(feet)].map((foot) => footWords[foot]));

const said = (quantity: Quantity): string => (quantity.unit === '1' ? figures(quantity.value) : sayQuantity(quantity));
