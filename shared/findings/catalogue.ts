import { spokenRows } from '../language/rows.ts';
import type { NotationCode } from '../notation/problems.ts';
import type { RecordCode } from '../record/problems.ts';
import { fileCodes } from './engine/file-problems.ts';
import type { Rule } from './rule.ts';
import { acceptCodes } from './engine/accept-codes.ts';
import type { CodeRow } from './code-row.ts';
import { acrossRules } from './across/across-files.ts';
import { noBearing } from './rules/no-bearing.ts';
import { cutRules } from './limits/cut-rules.ts';
import { outsideOnly } from './rules/alignment-outside-only.ts';
import { reportLacks } from './rules/report-lacks.ts';
import { rotating } from './rules/rotating.ts';
import { sinking } from './rules/sinking.ts';
import { sinkingUnseen } from './rules/sinking-unseen.ts';
import { expectAbsent, expectDiffers } from './rules/expect.ts';
import { emptyFilm, noFrame, noScale } from './rules/frame.ts';
import { landmarkFarOff } from './rules/landmark-far-off.ts';
import { landmarkFollowed } from './rules/landmark-followed.ts';
import { landmarkJoints } from './rules/landmark-joints.ts';
import { landmarkOblique } from './rules/landmark-oblique.ts';
import { landmarkOffGround } from './rules/landmark-off-ground.ts';
import { landmarkOrder } from './rules/landmark-order.ts';
import { landmarkProportion } from './rules/landmark-proportion.ts';
import { landmarkRough } from './rules/landmark-rough.ts';
import { insulin } from './rules/insulin.ts';
import { lowInCapsule, veryLow } from './rules/low-in-capsule.ts';
import { limitAbsent } from './rules/limits-absent.ts';
import { loosenedLimit } from './rules/loosened.ts';
import { measureUnit, notByHand, unknownMeasure } from './rules/names.ts';
import { agreedRange, rangeRules } from './rules/range.ts';
import { pictureBeforeBirth } from './rules/picture-before-birth.ts';
import { pictureDate } from './rules/picture-date.ts';
import { pictureSide } from './rules/picture-side.ts';
import { filmOtherFoot } from './rules/film-other-foot.ts';
import { tapeLimit } from './rules/tape-limit.ts';
import { trimByHand } from './rules/trim-by-hand.ts';
import { lessonKey } from './rules/lesson-key.ts';
import { pictureMissing } from './rules/picture-missing.ts';
import { pictureTwice } from './rules/picture-twice.ts';
import { scaleBoneLength } from './rules/scale-bone-length.ts';
import { scaleFootSize } from './rules/scale-foot-size.ts';
import { scaleFromFile } from './rules/scale-from-file.ts';
import { scaleOtherFoot } from './rules/scale-other-foot.ts';
import { scaleShortMarker } from './rules/scale-short-marker.ts';
import { scoreAlone } from './rules/score-alone.ts';
import { shoeDisagrees } from './rules/shoe-disagrees.ts';
import { shoeNotWritten } from './rules/shoe-not-written.ts';
import { redFlag } from './rules/signs.ts';
import { standingOtherwise } from './rules/standing-otherwise.ts';
import { thinByUltrasound } from './rules/thin-by-ultrasound.ts';
import { temperature } from './rules/temperature.ts';
import { tipShorter } from './rules/tip-shorter.ts';
import { tapeDisagrees } from './rules/tape-disagrees.ts';
import { trimNotPredicted, trimWithoutFilm } from './rules/trim-basis.ts';
import { filmTooOld } from './rules/trim-film-age.ts';
import { trimUnmeasured } from './rules/trim-unmeasured.ts';
import { trimWithoutVet } from './rules/trim-no-vet.ts';
import { heelPerVisit } from './rules/trim-heel-per-visit.ts';
import { trimOutcome } from './rules/trim-outcome.ts';
import { bothSides } from './rules/trim-both-sides.ts';
import { sidesNotPredicted } from './rules/trim-sides.ts';
import { heelSinceFilm } from './rules/trim-heel-since-film.ts';
import { trimScaleInDoubt } from './rules/trim-scale-in-doubt.ts';
import { tooYoung } from './rules/too-young.ts';
import { vetSeenDate } from './rules/vet-seen-date.ts';
import { longInterval } from './rules/visit-interval.ts';

/** Every rule over a studied case, in the order in which findings at one place are told. */
// prettier-ignore
export const rules: readonly Rule[] = [
  reportLacks, redFlag, scoreAlone, temperature, vetSeenDate, insulin,
  pictureBeforeBirth, pictureDate, pictureSide, pictureTwice, pictureMissing, lessonKey, filmOtherFoot,
  noFrame, noScale, noBearing, emptyFilm, scaleFootSize, scaleShortMarker, scaleBoneLength, scaleOtherFoot, scaleFromFile,
  landmarkFarOff, landmarkOrder, landmarkProportion, landmarkJoints, landmarkOblique, landmarkOffGround, landmarkRough, landmarkFollowed, shoeDisagrees, shoeNotWritten,
  unknownMeasure, measureUnit, notByHand, tapeDisagrees, tapeLimit, thinByUltrasound, loosenedLimit, limitAbsent,
  expectDiffers, expectAbsent,
  ...rangeRules.map((rule) => rule.code === lowInCapsule.code ? lowInCapsule : rule), veryLow, agreedRange, tooYoung, outsideOnly,
  sinking, sinkingUnseen, standingOtherwise, rotating, tipShorter, longInterval,
  trimScaleInDoubt, ...cutRules, heelPerVisit, filmTooOld, trimWithoutVet, trimByHand, trimWithoutFilm, trimNotPredicted, trimUnmeasured, heelSinceFilm, bothSides, sidesNotPredicted, trimOutcome,
];

const ofWriting = 'Mend the line: as it stands it means nothing, or something else than was meant.';

/** What the parser and the binder report. A code that is missing here does not compile. */
// prettier-ignore
const problemCodes: Readonly<Record<NotationCode | RecordCode, Omit<CodeRow, 'code' | 'never'>>> = {
  'notation/empty': { severity: 'error', title: 'Nothing is written', about: 'The file is empty: something went wrong with it, or it is about to be written. An editor tells it as a hint, as somebody who makes a file begins with nothing. A case begins with the line `hoof 1`.' },
  'notation/version-missing': { severity: 'error', title: 'No version line', about: 'A case file begins with `hoof 1`, so that a later version of the notation can still read it rightly.' },
  'notation/version-newer': { severity: 'error', title: 'Version not known', about: 'The file is written in a version of the notation that this build does not read. It is read as well as it can be, and may be misread.' },
  'notation/unknown-word': { severity: 'error', title: 'Unknown word', about: 'The line begins with a word that the notation does not have. The line is kept as it is and means nothing.' },
  'notation/misplaced-word': { severity: 'error', title: 'Word in the wrong block', about: 'The word belongs in another block than the one that is open here.' },
  'notation/unknown-landmark': { severity: 'error', title: 'Unknown landmark', about: 'The picture’s view has no landmark of this name. The point is not measured.' },
  'notation/unknown-choice': { severity: 'error', title: 'Not one of the known words', about: 'Here stands one of a few known words.' },
  'notation/missing-argument': { severity: 'error', title: 'Something is missing', about: 'The line stops before it is complete.' },
  'notation/unexpected': { severity: 'error', title: 'Something else was expected', about: 'The line holds something that does not belong there.' },
  'notation/decimal-comma': { severity: 'error', title: 'Decimal comma', about: 'Fractions are written with a decimal point; a comma parts x from y.' },
  'notation/missing-unit': { severity: 'error', title: 'No unit', about: 'Every quantity is written with its unit, so that nobody has to guess.' },
  'notation/wrong-unit': { severity: 'error', title: 'Wrong unit', about: 'The unit is not known or measures something else.' },
  'notation/open-text': { severity: 'error', title: 'Text without an end', about: 'A text stands between two quotes on one line.' },
  'notation/text-escape': { severity: 'error', title: 'Stray backslash', about: 'In a text a backslash stands only before a quote or another backslash. Paths are written with / on every system.' },
  'notation/date-form': { severity: 'error', title: 'Date in another form', about: 'Dates are written year-month-day, as in 2026-03-04.' },
  'notation/no-such-date': { severity: 'error', title: 'No such date', about: 'The calendar has no such day.' },
  'notation/number-range': { severity: 'error', title: 'Number out of its range', about: 'Every number goes from a lowest to a highest, as wide as what has been seen of foals, donkeys, miniatures and draught horses; scores and grades go in steps. A number out of its range is a slip of a unit, a digit or a sign, or was never finished. Its line counts for nothing: no limit, cut, scale or prediction rests on it. The page of words (docs/words.md) has the range of each.' },
  'notation/code-form': { severity: 'error', title: 'Number or code malformed', about: 'Chip numbers, life numbers and study codes are written in one piece, with a fixed length where there is one.' },
  'record/duplicate-landmark': { severity: 'error', title: 'Landmark placed twice', about: 'One reader places a landmark once in a picture. The first placing counts.' },
  'record/duplicate-word': { severity: 'warning', title: 'Said twice', about: 'A fact is said once in a block. The first counts.' },
  'record/duplicate-case': { severity: 'error', title: 'Second case', about: 'A file holds one case.' },
  'record/contradiction': { severity: 'warning', title: 'Two lines contradict each other', about: 'At one visit a foot has one pulse, one landing, one sole, one warmth, one grade, one answer to the testers at a place, and the animal one temperature. Of two lines that say different things nobody knows which is right: both stand until one is taken out, and where one is asked for it is the graver. What was taken again later that day goes into prose.' },
  'record/dates-backwards': { severity: 'error', title: 'Dates go backwards', about: 'Visits stand in the order of their dates, so that what follows what is never in doubt.' },
  'record/next-date': { severity: 'error', title: 'Next visit out of place', about: 'The day of the next visit lies a day to three years after the visit that it stands in, as does a time until then. Another day is most often a slip in the year or the month. The line counts for nothing.' },
  'record/microchip': { severity: 'warning', title: 'Impossible chip number', about: 'ISO 11784 gives the number after the first three digits 38 bits.' },
  'record/not-measured': { severity: 'warning', title: 'Line of measuring in a picture that is not measured', about: 'A venogram, a skyline and a heel view are shown and listed. Scale, ground, bearing plane and stated values mean nothing there.' },
  'record/scale': { severity: 'error', title: 'Scale or ground line of no length', about: 'A scale and a ground line need two different points, and a marker’s length over its pixels has to come to a size that a pixel can have. The line counts for nothing.' },
};

export const codes: readonly CodeRow[] = spokenRows(
  [
    ...Object.entries(fileCodes).map(([code, row]) => ({ code, ...row })),
    // What a chip says is a fact, however odd; every other problem is one of writing.
    ...Object.entries(problemCodes).map(([code, row]) =>
      code === 'record/microchip' ? { code, ...row } : { code, ...row, never: ofWriting },
    ),
    ...rules.map(({ code, severity, title, about, never }) => ({
      code,
      severity,
      title,
      about,
      ...(never !== undefined && { never }),
    })),
    ...acrossRules.map(({ code, severity, title, about, elsewhere }) => ({ code, severity, title, about, elsewhere })),
    ...acceptCodes,
  ],
  'title',
  'about',
  'never',
  'elsewhere',
);

const byCode = new Map(codes.map((row) => [row.code, row]));

export function findCode(code: string): CodeRow | undefined {
  return byCode.get(code);
}

/** File name of the page about a code, in the folder of such pages. */
export function pageOf(code: string): string {
  return `${code.replace(/[/.]/g, '-')}.md`;
}
