import { sayChoice } from '../../language/choice-words.ts';
import { t } from '../../language/words.ts';
import { tapesOfVisit, type TapedValue } from '../../course/taped-series.ts';
import { SURELY } from '../../course/change.ts';
import type { MeasureName } from '../../measures/names.ts';
import type { Cut } from '../../record/schema.ts';
import { mostAtHeel, type HeelTaken } from '../../trim/heels.ts';
import { isBent, type CutSize } from '../../trim/stand.ts';
import { inOneVisitWith, sizeOf } from '../../trim/trim-series.ts';
import type { StudiedCut } from '../../trim/study.ts';
import { limitsByMeasure } from '../limits/limits-by-measure.ts';
import type { Remark, Rule, RuleContext } from '../rule.ts';
import { heelWords } from '../wording/say-cut.ts';
import { sayTrims } from '../wording/say-trims.ts';
import { footWords, say, sayLimit, sayPlusMinus, sentence } from '../wording/wording.ts';

/**
 * A cut on a foot without any film, held against what a hand took at the same visit. Told only where it is beyond the tape by
 * more than the tape's own error: what only a film could tell is not guessed.
 */
export const trimByHand: Rule = {
  code: 'trim/by-hand',
  severity: 'warning',
  title: 'Cut more than the tape allows',
  about:
    'Of a foot without a lateral film a plan or a trim is held against what a hand took at the same visit: the heel against its height and against how far it stands beyond the live sole plane, the turn of the foot against the bearing length, heel height and toe length against the limits of the case. What a trim of the same visit took since the tape counts with it. It is told where the cut is beyond by more than the tape’s own error (1.96 standard deviations). Where the cut leaves bone and sole only a film can tell.',
  *onCut(studied, study) {
    if (studied.film) return;
    const tape = tapeOf(studied);
    if (tape.size === 0) return;
    // One number is told once, by the gravest that there is to say of it.
    const told = new Set<number>();
    for (const remark of remarks(studied, tape, study)) {
      if (told.has(remark.at.start)) continue;
      told.add(remark.at.start);
      yield remark;
    }
  },
};

function* remarks(studied: StudiedCut, tape: TapedByName, context: RuleContext): Iterable<Remark> {
  yield* heelGone(studied, tape);
  yield* belowTheSole(studied, tape);
  yield* agreed(studied, tape, context);
  yield* turned(studied, tape, context);
}

interface Taped extends TapedValue {
  /** Of its tape's header, from the first line of the visit. */
  readonly line: number;
}

type TapedByName = ReadonlyMap<string, Taped>;

/** Of several tapes of the foot the first that has a measure. */
function tapeOf({ cut, visit }: StudiedCut): TapedByName {
  const values = new Map<string, Taped>();
  for (const tape of tapesOfVisit(visit))
    if (tape.foot === cut.foot)
      for (const value of tape.values)
        if (!values.has(value.measure.name)) values.set(value.measure.name, { ...value, line: tape.line });
  return values;
}

/** Trims of the same visit that the tape does not show yet: those that are not above it while this cut is below it. */
function sinceTape({ sameVisit, visit, cut }: StudiedCut, { line }: Taped): CutSize[] {
  return sameVisit
    .filter((one) => one.visit === visit && !(one.cut.line < line && line < cut.line))
    .map((one) => sizeOf(one.cut));
}

/** What came off since the tape, with this cut, as one. Nobody knows how the foot stood without a film. */
const takenSince = (studied: StudiedCut, tape: Taped): CutSize => {
  const all = [studied.size, ...sinceTape(studied, tape)];
  const sum = (part: 'heelDown' | 'toeDown' | HeelSidePart): number =>
    all.reduce((mm, one) => mm + (one[part] ?? 0), 0);
  return {
    heelDown: sum('heelDown'),
    toeDown: sum('toeDown'),
    toeBack: 0,
    insideDown: sum('insideDown'),
    outsideDown: sum('outsideDown'),
  };
};

type HeelSidePart = 'insideDown' | 'outsideDown';

/** Where the number stands that does it. */
const placeOf = (cut: Cut, { side, fromSide }: HeelTaken): Remark['at'] => {
  const own = side === 'inside' ? cut.insideDown : cut.outsideDown;
  return (fromSide > 0 ? (own ?? cut.heelDown) : (cut.heelDown ?? own))?.at ?? cut.head;
};

/** `, with the trim of 4 March 2026,`; empty where nothing came before. */
function withEarlier({ sameVisit }: StudiedCut, isMore: boolean): string {
  return isMore ? t(', with {0},', sayTrims(sameVisit)) : '';
}

const told = ({ value, sd }: TapedValue): string => sayPlusMinus({ value, sd, unit: 'mm' });

function* heelGone(studied: StudiedCut, tape: TapedByName): Iterable<Remark> {
  const { cut, size } = studied;
  const height = tape.get('heel-height');
  const most = height && mostAtHeel({ earlier: [] }, takenSince(studied, height));
  if (!height || !most) return;
  const { taken } = most;
  if (taken <= height.value + SURELY * height.sd) return;
  yield {
    at: placeOf(cut, most),
    message: t(
      '{0} of heel{3} are more than the heel of the {1} is high by hand: {2}. One of the numbers is wrong.',
      say(taken, 'mm'),
      footWords[cut.foot],
      told(height),
      withEarlier(studied, taken > size.heelDown && sinceTape(studied, height).length > 0),
    ),
    measure: 'heel-height',
    value: taken,
    limit: height.value,
  };
}

function* belowTheSole(studied: StudiedCut, tape: TapedByName): Iterable<Remark> {
  const { cut } = studied;
  const surplus = tape.get('heel-surplus');
  if (!surplus) return;
  const earlier = sinceTape(studied, surplus);
  const most = mostAtHeel({ earlier: [] }, takenSince(studied, surplus));
  if (!most || most.taken <= Math.max(0, surplus.value) + SURELY * surplus.sd) return;
  const over = say(most.taken - surplus.value, 'mm');
  if (most.fromSide > 0) {
    yield ofOneHeel(cut, most, surplus, over);
    return;
  }
  if (!cut.heelDown) return;
  yield {
    at: cut.heelDown.at,
    message:
      cut.kind === 'trim'
        ? t(
            '{0} of heel were taken{3} {1} more than stood beyond the live sole plane by hand: {2}. To stop at the live sole plane is common practice, without a source.',
            say(most.taken, 'mm'),
            over,
            told(surplus),
            withEarlier(studied, earlier.length > 0) || ',',
          )
        : t(
            'A heel cut of {0}{3} goes {1} below the live sole plane: by hand only {2} of heel stand beyond it. To stop there is common practice, without a source.',
            say(most.taken, 'mm'),
            over,
            told(surplus),
            withEarlier(studied, earlier.length > 0),
          ),
    measure: 'heel-surplus',
    value: most.taken,
    limit: surplus.value,
    source: t('common practice, no source'),
  };
}

function ofOneHeel(cut: Cut, { side, taken }: HeelTaken, surplus: TapedValue, over: string): Remark {
  const written = side === 'inside' ? cut.insideDown : cut.outsideDown;
  return {
    at: (written ?? cut.heelDown)?.at ?? cut.head,
    message: t(
      '{0} {1} {2} with its side, {3} more than stand beyond the live sole plane by hand: {4}. To stop there is common practice, without a source.',
      sentence(heelWords[side]),
      cut.kind === 'trim' ? t('lost') : t('would lose'),
      say(taken, 'mm'),
      over,
      told(surplus),
    ),
    measure: 'heel-surplus',
    value: taken,
    limit: surplus.value,
    source: t('common practice, no source'),
  };
}

/** The angle by which heel and toe, a bearing length apart, tilt the ground line. */
function* turned(studied: StudiedCut, tape: TapedByName, { trim }: RuleContext): Iterable<Remark> {
  const { cut, size } = studied;
  const others = inOneVisitWith(studied);
  if (isBent(size)) {
    yield* bent(cut, size, trim);
    return;
  }
  const length = tape.get('bearing-length');
  const place = cut.heelDown ?? cut.toeDown;
  if (!length || !place || length.value <= 0) return;
  const sizes = [size, ...others.map((one) => sizeOf(one.cut))];
  const by = (mm: number): number =>
    (180 / Math.PI) * Math.abs(sizes.reduce((sum, one) => sum + Math.atan((one.heelDown - one.toeDown) / mm), 0));
  // On the longest foot that the tape may mean.
  if (by(length.value + SURELY * length.sd) <= trim.turnPerVisit) return;
  yield {
    at: place.at,
    message: t(
      'On a bearing length of {0} by hand this {1}{5} {2} the foot by {3} in one visit, more than {4} (a judgement, no source).',
      told(length),
      sayChoice(cut.kind),
      cut.kind === 'trim' ? t('turned') : t('turns'),
      say(by(length.value), 'deg'),
      sayLimit(trim.turnPerVisit, 'deg'),
      withEarlier(studied, others.length > 0),
    ),
    measure: 'bearing-length',
    value: by(length.value),
    limit: trim.turnPerVisit,
    source: t('judgement, no source'),
  };
}

/** From the place that the heel is cut from the turn is known without any tape. */
function* bent({ kind, heelDown }: Cut, size: CutSize, { turnPerVisit }: RuleContext['trim']): Iterable<Remark> {
  const by = (180 / Math.PI) * Math.atan(size.heelDown / (size.heelFrom ?? Infinity));
  if (!heelDown || by <= turnPerVisit) return;
  yield {
    at: heelDown.at,
    message: t(
      'From {0} in front of the heel’s contact this {1} {2} the foot by {3} in one visit where it stands on its heels, more than {4} (a judgement, no source).',
      sayLimit(size.heelFrom ?? 0, 'mm'),
      sayChoice(kind),
      kind === 'trim' ? t('turned') : t('turns'),
      say(by, 'deg'),
      sayLimit(turnPerVisit, 'deg'),
    ),
    measure: 'palmar-angle',
    value: by,
    limit: turnPerVisit,
    source: t('judgement, no source'),
  };
}

/** What a cut leaves of a length at most: heel height less the heel cut, toe length less the toe cut. */
function* agreed(studied: StudiedCut, tape: TapedByName, { record }: RuleContext): Iterable<Remark> {
  const { cut, size } = studied;
  const lengths: readonly (readonly [MeasureName, 'heelDown' | 'toeDown', string])[] = [
    ['heel-height', 'heelDown', t('heel height')],
    ['toe-length', 'toeDown', t('toe length')],
  ];
  for (const [name, part, words] of lengths) {
    const at = cut[part]?.at;
    const value = tape.get(name);
    const limit = limitsByMeasure(record.limits).get(name)?.low;
    if (!value || !limit || !at || size[part] <= 0) continue;
    const taken = [size, ...sinceTape(studied, value)].reduce((sum, one) => sum + one[part], 0);
    const least = limit.is.quantity.base;
    if (value.value - taken + SURELY * value.sd >= least) continue;
    // What is taken beyond the whole of it by less than the tape's error leaves nothing, not less than that.
    const left = Math.max(0, value.value - taken);
    yield {
      at,
      message: t(
        'This {0} {1} at most {2} of {3}: by hand there were {4}. The limit of this case is {5}.',
        sayChoice(cut.kind),
        cut.kind === 'trim' ? t('has left') : t('leaves'),
        say(left, 'mm'),
        words,
        told(value),
        sayLimit(least, 'mm'),
      ),
      measure: name,
      value: left,
      limit: least,
      related: [
        {
          at: { start: limit.start + limit.is.at.start, end: limit.start + limit.is.at.end },
          message: t('The limit agreed for this case.'),
        },
      ],
    };
  }
}
