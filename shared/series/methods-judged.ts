import { counted, t } from '../language/words.ts';
import type { Agreement, MeasureAgreement } from '../agreement/agreement.ts';
import { SURELY } from '../course/change.ts';
import { list, say, sayLimit } from '../findings/wording/wording.ts';
import { findMeasure } from '../measures/registry.ts';
import type { MeasureUnit } from '../measures/unit.ts';
import { fullHeightMm } from '../reference/bands.ts';
import { floorOf } from '../trim/change-settings.ts';
import type { Citing } from './citing.ts';
import type { LimitUse, MethodsFacts } from './methods.ts';

/** When a change counts, where something could have changed. */
export function* changeWords(facts: MethodsFacts, citing: Citing): Iterable<string> {
  const twice = facts.uses.filter(({ feetTwice }) => feetTwice > 0);
  if (twice.length === 0 || facts.source === 'hand') return;
  const floors = new Map<string, string>();
  for (const { measure } of twice) {
    const known = findMeasure(measure.name);
    if (!known) continue;
    const floor = floorOf(known, facts.change);
    const isQuoted = known.unit === 'deg' || (known.unit === 'mm' && floor !== facts.change.thickness);
    const ground = isQuoted ? citing.cite('collins', 'quoted') : t('a judgement');
    floors.set(
      known.unit === 'mm' && !isQuoted ? 'thickness' : known.unit,
      floorWords(known.unit, floor, isQuoted, ground),
    );
  }
  const most = Math.max(...twice.map(({ feetTwice }) => feetTwice));
  yield t(
    'Of {0} with values of two days or more a change between two days is called clear where it is more than {1} of its standard deviations and more than {2}.',
    counted(most, 'one foot', '{0} feet'),
    SURELY,
    list([...floors.values()]),
  );
}

function floorWords(unit: MeasureUnit, floor: number, isLength: boolean, ground: string): string {
  switch (unit) {
    case 'deg':
      return t('{0} of an angle ({1})', sayLimit(floor, unit), ground);
    case 'mm':
      return isLength
        ? t('{0} of a length ({1})', sayLimit(floor, unit), ground)
        : t('{0} of the thickness of sole, horn or lamellae ({1})', sayLimit(floor, unit), ground);
    default:
      return t('{0} of a share ({1})', say(floor, unit), ground);
  }
}

/** What values were held against, with who published it. */
export function* limitWords(facts: MethodsFacts, citing: Citing): Iterable<string> {
  const held = facts.uses.flatMap(({ measure }) => {
    const those = facts.limits.filter((limit) => limit.measure === measure.name);
    if (those.length === 0) return [];
    const lines = alike(those).map((limits) => lineWords(limits, measure.unit, citing));
    return [`${measure.words} ${list(lines)}`];
  });
  if (held.length > 0) yield t('Values are told where they lie beyond these lines: {0}.', held.join('; '));
  if (facts.ownLimits > 0)
    yield counted(
      facts.ownLimits,
      'In one case a limit of its own stands in their place.',
      'In {0} cases a limit of their own stands in their place.',
    );
}

/** What is one line for several kinds of feet stands together. */
function alike(limits: readonly LimitUse[]): (readonly [LimitUse, ...LimitUse[]])[] {
  const groups = new Map<string, [LimitUse, ...LimitUse[]]>();
  for (const limit of limits) {
    const { side, at, published, named } = limit;
    const key = JSON.stringify([side, at, published, named]);
    const known = groups.get(key);
    if (known) known.push(limit);
    else groups.set(key, [limit]);
  }
  return [...groups.values()];
}

function feetWords(limits: readonly LimitUse[]): string {
  const feet = new Set(limits.map((limit) => limit.feet));
  const words = feet.size > 1 ? t('fore and hind feet') : feet.has('hind') ? t('hind feet') : t('fore feet');
  return limits.every(({ animals }) => animals === 'donkeys') ? t('{0} of donkeys', words) : words;
}

function lineWords(limits: readonly [LimitUse, ...LimitUse[]], unit: MeasureUnit, citing: Citing): string {
  const [{ side, at, published, named }] = limits;
  const source = published ? citing.cite(published.source, published.strength) : (named ?? '');
  const where = feetWords(limits);
  if (at === null)
    return t(
      'a line that shrinks with the height at the withers below {0} cm ({1}; {2})',
      fullHeightMm / 10,
      where,
      source,
    );
  return side === 'low'
    ? t('under {0} ({1}; {2})', sayLimit(at, unit), where, source)
    : t('over {0} ({1}; {2})', sayLimit(at, unit), where, source);
}

/** How far readers agree, of the measures that are reported, where films were read twice or more. */
export function* agreementWords(facts: MethodsFacts, citing: Citing): Iterable<string> {
  if (facts.source === 'hand') return;
  const agreement = facts.agreement();
  const reported = new Set(facts.measures.map(({ name }) => name));
  const those = agreement.measures.filter(({ measure, kind }) => reported.has(measure) && kind === facts.source);
  if (those.length === 0) return;
  yield readTwice(agreement);
  const correlated = those.flatMap(correlationWords);
  if (correlated.length > 0)
    yield t(
      'Agreement between readers as ICC(2,1) ({0}; {1}): {2}.',
      citing.cite('shroutFleiss', 'memory'),
      citing.cite('mcgrawWong', 'memory'),
      correlated.join('; '),
    );
  const within = those.flatMap(withinWords);
  const own = those.flatMap(ownWords);
  if (within.length > 0)
    yield t(
      'Standard deviation of readings of one film by different people ({0}): {1}.',
      citing.cite('blandAltmanError', 'memory'),
      within.join('; '),
    );
  if (own.length > 0)
    yield t(
      'Standard deviation of readings of one film by the same person ({0}): {1}.',
      citing.cite('blandAltmanError', 'memory'),
      own.join('; '),
    );
}

function readTwice({ byTwo, repeated, copies, followed }: Agreement): string {
  const left = [
    copies > 0 && counted(copies, 'one copy of a reading', '{0} copies of readings'),
    followed > 0 &&
      counted(followed, 'one reading followed from the film before', '{0} readings followed from the film before'),
  ].filter((part) => typeof part === 'string');
  const out = left.length > 0 ? t(' ({0} left out of it)', list(left)) : '';
  return t(
    '{0} read by two people or more, {1} by one person more than once{2}.',
    counted(byTwo, 'One film was', '{0} films were'),
    filmsRead(repeated),
    out,
  );
}

function correlationWords({ words, unit, table }: MeasureAgreement): string[] {
  if ('lack' in table) return [];
  const { absolute, films, columns, spreads } = table;
  const interval = absolute.interval
    ? t(' (95 % interval {0} to {1})', say(absolute.interval.low, '1'), say(absolute.interval.high, '1'))
    : '';
  return [
    t(
      '{0} {1}{2}, standard error of one reading {3}, {4} by {5}',
      words,
      say(absolute.value, '1'),
      interval,
      say(spreads.sem, unit, 2),
      filmsRead(films),
      counted(columns, 'one reader', '{0} readers'),
    ),
  ];
}

/** Where there is no correlation this is what can be said. */
function withinWords({ words, unit, table, between }: MeasureAgreement): string[] {
  if (!between || !('lack' in table)) return [];
  return [t('{0} {1}, {2}', words, say(between.sd, unit, 2), filmsRead(between.films))];
}

/** Of several readers the least and the most, as a paragraph names nobody. */
function ownWords({ words, unit, own }: MeasureAgreement): string[] {
  const sds = own.map(({ spread }) => spread.sd).sort((a, b) => a - b);
  const [least] = sds;
  const most = sds.at(-1);
  if (least === undefined || most === undefined) return [];
  const said = own.length === 1 ? say(least, unit, 2) : t('{0} to {1}', say(least, unit, 2), say(most, unit, 2));
  return [t('{0} {1}, {2}', words, said, counted(own.length, 'one reader', '{0} readers'))];
}

const filmsRead = (films: number): string => counted(films, 'one film', '{0} films');
