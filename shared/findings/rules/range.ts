import { t } from '../../language/words.ts';
import type { MeasureName } from '../../measures/names.ts';
import { changeOfValue } from '../../course/error-of-films.ts';
import { findMeasure } from '../../measures/registry.ts';
import { bands } from '../../reference/bands.ts';
import { matters } from '../../reference/matters.ts';
import { together, type Together } from '../../reference/told-together.ts';
import { valuesFor } from '../../reference/values.ts';
import type { StudiedFilm, Study } from '../../trim/study.ts';
import { acceptedAlone } from '../engine/placed-acceptances.ts';
import { isGraver, linesFor, sayAgainstShort, usualOf } from '../limits/limits.ts';
import type { CaseRemark, Rule } from '../rule.ts';
import { staysOn } from '../../record/wearing.ts';
import { footWords, list, say, sayLimit, sayPlusMinus, sentence, wordsFor } from '../wording/wording.ts';
import { beyond, type Beyond } from './beyond.ts';
import { picturesBackwards } from './pictures-backwards.ts';

/** Measures for which something is published. */
const banded: ReadonlySet<MeasureName> = new Set(bands.map((band) => band.measure));
const inMatter: ReadonlySet<MeasureName> = new Set(together.flatMap(({ measures }) => measures));

/** Values outside what is published as usual, or outside what the case itself allows: one finding for each matter in the foot. */
export const rangeRules: readonly Rule[] = [
  ...[...banded].filter((name) => !inMatter.has(name)).map(rangeRule),
  ...together.map(togetherRule),
];

function rangeRule(name: MeasureName): Rule {
  const measure = findMeasure(name);
  if (!measure) throw new Error(`a band for ${name}, which is no measure`);
  return {
    code: `range/${name}`,
    severity: 'warning',
    title: `${sentence(measure.words)} out of its range`,
    about: matters[name] ? `${measure.doc} ${matters[name]}` : measure.doc,
    onCase: (study) => onEachPicture(study, [name], alone),
  };
}

function togetherRule(together: Together): Rule {
  const { code, title, about, measures } = together;
  for (const name of measures) if (!findMeasure(name)) throw new Error(`${code} tells ${name}, which is no measure`);
  const tell = (all: readonly Beyond[], film: StudiedFilm, study: Study) => joined(together, all, film, study);
  return {
    code,
    severity: 'warning',
    title,
    about,
    *onCase(study) {
      const own = acceptedAlone(study.record, code);
      yield* onEachPicture(study, measures, (all, film, at) => {
        const named = own(film);
        const apart = all.filter(({ value }) => named.has(value.measure.name));
        const others = all.filter((one) => !apart.includes(one));
        return [...apart.map((one) => tell([one], film, at)), ...(others.length > 0 ? [tell(others, film, at)] : [])];
      });
    },
  };
}

/** The rule for limits of the case, and of sets of one's own, on measures for which nothing is published. */
export const agreedRange: Rule = {
  code: 'range/agreed',
  severity: 'warning',
  title: 'Value outside a limit of the case or of a set of one’s own',
  about:
    'The case, or a set of reference values of one’s own, has a limit for a measure for which no range is published, and the value lies outside it.',
  *onCase(study) {
    if (study.record.limits.length === 0 && study.reference.length === 0) return;
    const names = [
      ...study.record.limits.map(({ is }) => is.measure),
      ...study.reference.flatMap((set) => set.bands.map(({ measure }) => measure)),
    ].flatMap((name) => findMeasure(name)?.name ?? []);
    const unpublished = [...new Set(names)].filter((name) => !banded.has(name) && !inMatter.has(name));
    if (unpublished.length > 0) yield* onEachPicture(study, unpublished, alone);
  },
};

type Tell = (all: readonly Beyond[], film: StudiedFilm, study: Study) => Iterable<CaseRemark>;

/** The newest picture of a foot that has a measure speaks as it is; of an older one what it says is past. */
function* onEachPicture(study: Study, measures: readonly MeasureName[], tell: Tell): Iterable<CaseRemark> {
  for (const pictures of picturesBackwards(study)) {
    const seen = new Set<MeasureName>();
    for (const film of pictures) {
      const now: Beyond[] = [];
      const then: Beyond[] = [];
      const here: MeasureName[] = [];
      for (const name of measures) {
        const found = beyond(name, film, study);
        if (found === null) continue;
        here.push(name);
        if (found) (seen.has(name) ? then : now).push(found);
      }
      // A picture without a day is neither older nor newer than another.
      if (film.day !== null) for (const name of [...here, ...alsoTold(here, film)]) seen.add(name);
      if (now.length > 0) yield* tell(now, film, study);
      if (then.length > 0) for (const remark of tell(then, film, study)) yield { ...remark, past: true };
    }
  }
}

/** A bare foot stands on its bearing plane: its palmar angle is the one to that plane too. Told by the text: no film is laid out for it. */
function alsoTold(here: readonly MeasureName[], { film: { bearing }, worn }: StudiedFilm): MeasureName[] {
  const isBare = bearing === null && !(worn && staysOn(worn));
  return isBare && here.includes('palmar-angle') ? ['palmar-angle.bearing'] : [];
}

function* alone(all: readonly Beyond[], film: StudiedFilm, study: Study): Iterable<CaseRemark> {
  for (const one of all) yield remarkOf([one], onItsOwn(one, film, study), film);
}

/** All that one matter has to tell of a film, as one finding. */
function joined(matter: Together, all: readonly Beyond[], film: StudiedFilm, study: Study): CaseRemark {
  const gravestFirst = all.toSorted((a, b) =>
    isGraver(a.severity, b.severity) ? -1 : isGraver(b.severity, a.severity) ? 1 : 0,
  );
  const [gravest] = gravestFirst;
  if (!gravest || all.length === 1) return remarkOf(all, onItsOwn(all[0] as Beyond, film, study), film);
  const { foot } = film.film;
  const usual = ({ value: { measure }, line: { side, at } }: Beyond): number =>
    usualOf(linesFor(measure.name, foot, study, film.day))[side] ?? at;
  const parts = all.map((one, index) => partOf(matter, one, foot, { at: usual(one), first: index === 0 }));
  const message = [
    `${matter.words}, ${footWords[foot]}${readerOf(gravest, film)}: ${matter.state}. ${sentence(list(parts))}${wedge(all, gravest, study)}.`,
    ...(matter.tellsLine && gravest.line.says ? [gravest.line.says] : []),
    ...new Set(all.flatMap(({ also }) => also)),
    ...(all.some(({ others }) => others?.disagree) ? [t('The readers disagree.')] : []),
    ...(all.some(({ weak }) => weak) ? [repeatedBadly()] : []),
    ...scaledBy(all, study),
  ].join(' ');
  return {
    ...remarkOf(gravestFirst, message, film),
    source: [...new Set(all.map(({ line }) => line.source))].join('; '),
  };
}

/** `horn and lamellae 30.9 % of the bone’s length (usual to 28 %)`; what other readers found stands in it too. */
function partOf(
  { says }: Together,
  { value, line, clear, others }: Beyond,
  foot: StudiedFilm['film']['foot'],
  usual: { readonly at: number; readonly first: boolean },
): string {
  const { measure, unit } = value;
  const said = (says[measure.name] ?? `${wordsFor(measure, foot)} {}`).replace('{}', say(value.value, unit));
  const notes = [
    // A graver line is told beside the one where the usual ends.
    ...(usual.at === line.at ? [] : [past(line.side, sayLimit(line.at, unit), false)]),
    upTo(line.side, sayLimit(usual.at, unit), usual.first),
    ...(clear ? [] : [t('near the line')]),
    ...(others?.found.map(([reader, found]) => `${reader}: ${found}`) ?? []),
  ];
  return `${said} (${notes.join('; ')})`;
}

/** How much wider the layer before the bone is below than above, where it clearly is; else empty. */
function wedge(all: readonly Beyond[], { reading }: Beyond, study: Study): string {
  if (!all.some(({ value }) => value.measure.name.startsWith('horn-lamellar'))) return '';
  const above = reading.taking.values.get('horn-lamellar.upper');
  const below = reading.taking.values.get('horn-lamellar.lower');
  if (!above || !below) return '';
  const { difference, clear } = changeOfValue(above, below, study);
  return clear && difference > 0 ? t('; below {0} wider than above', say(difference, 'mm')) : '';
}

/** `just over 28 %`. */
function past(side: 'low' | 'high', limit: string, just: boolean): string {
  if (side === 'high') return just ? t('just over {0}', limit) : t('over {0}', limit);
  return just ? t('just under {0}', limit) : t('under {0}', limit);
}

/** `usual to 28 %`. */
function upTo(side: 'low' | 'high', limit: string, first: boolean): string {
  if (side === 'high') return first ? t('usual to {0}', limit) : t('to {0}', limit);
  return first ? t('usual from {0}', limit) : t('from {0}', limit);
}

const repeatedBadly = (): string => t('Two people place these points differently: do not go by this alone.');

function onItsOwn(one: Beyond, film: StudiedFilm, study: Study): string {
  const { value, line, clear, weak, also, others } = one;
  const { measure, unit } = value;
  // What rounds to the line itself would read as a slip.
  const just = say(value.value, unit) === say(line.at, unit);
  const beyondIt = past(line.side, sayLimit(line.at, unit), just);
  const source = line.named === '' ? '' : ` (${line.named})`;
  const { foot } = film.film;
  if (one.plain)
    return [
      `${sentence(wordsFor(measure, foot))}, ${footWords[foot]}${readerOf(one, film)}: ${sayPlusMinus(value)}.`,
      ...(line.says ? [line.says] : []),
      ...also,
      ...ofOtherAnimals(one, foot, study),
    ].join(' ');
  return [
    `${sentence(wordsFor(measure, foot))}, ${footWords[foot]}${readerOf(one, film)}: ${sayPlusMinus(value)}, ${beyondIt}${source}.`,
    ...(clear ? [] : [t('So near the line that the placing alone may be it.')]),
    ...[sayAgainstShort(line, unit)].filter((against) => against !== ''),
    ...also,
    ...(others
      ? [
          `${others.disagree ? t('The readers disagree') : t('The others read')}: ${others.found.map((one) => one.join(' ')).join(', ')}.`,
        ]
      : []),
    ...(line.says ? [line.says] : []),
    ...ofShoe(one),
    ...ofOtherAnimals(one, foot, study),
    ...(weak ? [repeatedBadly()] : []),
    ...scaledBy([one], study),
  ].join(' ');
}

/** An angle to the ground of a shod foot: how much of it the shoe makes. */
function ofShoe({ value, reading }: Beyond): string[] {
  const wedge = reading.taking.values.get('shoe-wedge');
  const toGround = reading.taking.values.get('palmar-angle');
  // What comes to 0.0° is no wedge, and not worth a sentence.
  if (!wedge || Math.abs(wedge.value) < 0.05) return [];
  if (toGround && value.measure.name === 'palmar-angle.bearing')
    return [
      t(
        'To the ground it is {0}, of which {1} are the wedge of what the foot wears.',
        say(toGround.value, 'deg'),
        say(wedge.value, 'deg'),
      ),
    ];
  if (value.measure.plane !== 'ground') return [];
  return [
    t(
      'Of it {0} are the wedge of what the foot wears: bare it would be {1}.',
      say(wedge.value, 'deg'),
      say(value.value - wedge.value, 'deg'),
    ),
  ];
}

const readerOf = ({ reading }: Beyond, { readings }: StudiedFilm): string =>
  reading.reading.reader === null || readings.length < 2 ? '' : t(' (reader {0})', reading.reading.reader);

/** A high limit of a length that was scaled says so. */
function scaledBy(all: readonly Beyond[], { animal }: Study): string[] {
  return all.some(({ line }) => line.scaled)
    ? [
        t(
          'The published limit is scaled by height, to {0} cm at the withers, and probably too strict: small feet are relatively larger (Thieme 2015).',
          Math.round((animal.heightMm ?? 0) / 10),
        ),
      ]
    : [];
}

/** A published line for a donkey of whose kind nothing was read says whose it is. */
function ofOtherAnimals({ value, line }: Beyond, foot: string, { animal }: Study): string[] {
  const isPublished = line.own === null && line.set === null;
  return isPublished && animal.kind === 'donkey' && valuesFor(value.measure.name, foot, animal).values.length === 0
    ? [t('No figures of donkeys could be read; these are horses’.')]
    : [];
}

/** `all`: the gravest first. */
function remarkOf(all: readonly Beyond[], message: string, film: StudiedFilm): CaseRemark {
  const [gravest] = all as [Beyond];
  const { value, line } = gravest;
  const agreed = all.flatMap((one) => one.line.own ?? []);
  return {
    start: film.visit.start,
    at: placeOf(film, gravest),
    severity: gravest.severity,
    message,
    measure: value.measure.name,
    value: value.value,
    limit: line.at,
    source: line.source,
    ...(agreed.length > 0 && {
      related: agreed.map(({ start, is: { at } }) => ({
        at: { start: start + at.start, end: start + at.end },
        message: t('The limit agreed for this case.'),
      })),
    }),
  };
}

/** Where the reader of the file would look: the first landmark that the measure needs, else the film's header. */
function placeOf({ film }: StudiedFilm, { reading: { reading }, value }: Beyond): { start: number; end: number } {
  const placing = value.measure.needs
    .map((name) => reading.placings.find((placing) => placing.name === name))
    .find((found) => found);
  return placing?.at ?? film.head;
}
