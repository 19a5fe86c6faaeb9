import { t } from '../../language/words.ts';
import { gradeIn } from '../../course/care.ts';
import type { Animal, CaseRecord, Cut, Visit } from '../../record/schema.ts';
import type { Rule } from '../rule.ts';
import { list } from '../wording/wording.ts';

/** Fewer visits than these make no report: what is still to come is not lacking. */
const leastVisits = 2;

/**
 * What a report of a case needs that a case file can hold: CARE 2013 (Gagnier and others, J Med Case Rep 2013;7:223,
 * doi 10.1186/1752-1947-7-223), thirteen items, the owner in place of the patient. Title, key words, abstract, introduction and
 * discussion are written by people.
 */
export const reportLacks: Rule = {
  code: 'case/report-lacks',
  severity: 'hint',
  title: 'What a report of the case would lack',
  about: `A case that is shared (\`sharing series\` or \`open\`) may be reported one day, and what nobody wrote down at the time is lost then. This is a list of what is not in the file and a case report needs: CARE 2013 (Gagnier and others, J Med Case Rep 2013;7:223), with the owner in place of the patient. Its items 5 to 10, 12 and 13 are asked for: age, sex and breed, what brought the animal (\`onset\`), what was found and on which day, the vet's \`diagnosis\`, measures with a scale, what was done with its amounts, what went wrong or that nothing did (\`adverse\`), what the \`owner\` says, and the owner's \`consent\`. Of an animal that nothing was wrong with, kept to compare with, only who it is, what was measured and the consent are asked for. Nothing is told of a private case, nor before the second visit: a case that has just begun lacks what is still to come. What helps nobody here is accepted in the case, with the reason.`,
  *onCase({ record }) {
    const { animal, visits } = record;
    if (!animal?.is.sharingAt || animal.is.sharing === 'private' || visits.length < leastVisits) return;
    const lacks = [...lacking(animal.is, record)];
    if (lacks.length === 0) return;
    yield {
      start: animal.start,
      at: animal.is.sharingAt,
      message: t('A report of this case would lack {0}. The list is that of CARE 2013.', list(lacks)),
    };
  },
};

function* lacking(animal: Animal, { visits }: Pick<CaseRecord, 'visits'>): Iterable<string> {
  const those = visits.map(({ is }) => is);
  const ill = isIll(animal, those);
  // 5, patient information
  if (animal.foaled === null) yield t('its age (foaled)');
  if (animal.kind === null || animal.sex === null) yield t('its kind and sex (animal)');
  if (animal.breed === null) yield t('its breed (breed)');
  if (ill && animal.onset === null) yield t('what brought it, and when (onset)');
  // 6 and 7, clinical findings and their days
  if (!those.some(isLookedAt)) yield t('what was found on the animal (obel, lameness, pulse and others)');
  if (those.some(({ date }) => date === null)) yield t('the day of each visit (visit)');
  // 8, diagnostic assessment
  if (ill && ![animal, ...those].some(({ diagnoses }) => diagnoses.length > 0))
    yield t('what the vet diagnosed (diagnosis)');
  yield* measuringLacks(those);
  // 9 and 10, what was done, and what came of it
  const done = those.some(hasWork);
  if (ill && !done) yield t('what was done (trim, medicine, shoe and others)');
  const trims = those.flatMap(({ cuts }) => cuts.filter(({ kind }) => kind === 'trim'));
  if (trims.length > 0 && !trims.some(saysHowMuch)) yield t('how much was taken off (heel down, toe back and others)');
  if (ill && done && !those.some(({ adverse }) => adverse.length > 0))
    yield t('what went wrong or did harm, or that nothing did (adverse)');
  // 12 and 13, the owner in place of the patient
  if (ill && !those.some(({ owner }) => owner.length > 0)) yield t('what the owner says (owner)');
  if (animal.consent === null) yield t('the owner’s consent (consent)');
}

function isIll(animal: Animal, visits: readonly Visit[]): boolean {
  return (
    animal.onset !== null ||
    animal.diagnoses.length > 0 ||
    visits.some(
      (visit) =>
        visit.diagnoses.length > 0 ||
        visit.signs.length > 0 ||
        visit.medicines.length > 0 ||
        (gradeIn(visit)?.value ?? 0) > 0 ||
        (visit.meier?.value ?? 0) > 0,
    )
  );
}

const isLookedAt = (visit: Visit): boolean =>
  gradeIn(visit) !== null ||
  visit.meier !== null ||
  [visit.pulses, visit.landings, visit.testers, visit.soles, visit.found, visit.signs, visit.seen].some(
    ({ length }) => length > 0,
  );

function* measuringLacks(visits: readonly Visit[]): Iterable<string> {
  const placed = visits.flatMap(({ films }) =>
    films.filter(({ kind, readings }) => kind === 'film' && readings.some(({ placings }) => placings.length > 0)),
  );
  const unscaled = placed.filter(({ scale }) => scale === null).length;
  const byHand = visits.some(({ tapes }) => tapes.some(({ values }) => values.length > 0));
  if (placed.length === 0 && !byHand) yield t('what was measured (film, tape)');
  if (unscaled > 0) yield t('the scale of films: {0} of {1} have none (scale)', unscaled, placed.length);
}

const hasWork = ({ cuts, medicines, worn }: Visit): boolean =>
  cuts.some(({ kind }) => kind === 'trim') || medicines.length > 0 || worn.length > 0;

const saysHowMuch = (cut: Cut): boolean =>
  [cut.heelDown, cut.toeDown, cut.toeBack, cut.insideDown, cut.outsideDown, cut.heelUp].some(
    (amount) => amount !== null,
  ) || cut.dressed.some(({ amount }) => amount !== null);
