import { plus, type XY } from '../geometry/vector.ts';
import { t } from '../language/words.ts';
import type { LateralLandmark } from '../notation/landmarks.ts';
import { findLine } from '../picture/seek/profile-line.ts';
import { byGround, type FilmPair } from './film-pair.ts';
import { proposal, type PedalBone } from './pedal-bone.ts';
import { mapped } from './point-map.ts';
import type { Proposal } from './proposal.ts';

/** What a line has to be before it is called distinct (from the bench). */
const SHARE = 0.7;
const ALIKE = 0.9;
/** One standard deviation of an end across, mm. The inner edge of the horn is faint: where it was told worse it was another edge. */
const WORST = { 'pedal bone': 0.4, capsule: 0.12 } as const;
/** What is added at the least, mm: no film is read more finely. */
const FLOOR = 0.1;

export function lines(
  pair: FilmPair,
  bone: PedalBone,
  shift: XY,
  rows: readonly LateralLandmark[],
): readonly Proposal[] {
  const { before, now, mirrored } = pair;
  const size = before.mmPerPx / now.mmPerPx;
  return rows.flatMap(({ word, proposed }) => {
    // Of a pair the upper one leads, so that each line is looked for once.
    if (proposed.by !== 'line' || !word.endsWith('.upper')) return [];
    const partner = proposed.partner;
    const [upper, lower] = [before.at(word), before.at(partner)];
    if (!upper || !lower) return [];
    const onBone = proposed.on === 'pedal bone';
    const expected = (place: XY): XY => (onBone ? mapped(bone.map, place) : plus(byGround(pair, place), shift));
    const ends = [expected(upper), expected(lower)] as const;
    const found = findLine(before.picture, now.picture, {
      before: [upper, lower],
      expected: ends,
      side: 2.5 / before.mmPerPx,
      reach: (onBone ? 2 : 4) / before.mmPerPx,
      size,
      mirrored,
      places: 40,
    });
    const worst = found ? Math.max(...found.sds) * now.mmPerPx : Infinity;
    const isTold = found !== null && found.share >= SHARE && found.correlation >= ALIKE && worst <= WORST[proposed.on];
    if (!isTold && !onBone) return [];
    const distinct = isTold && !proposed.doubtful;
    const why = !isTold
      ? t('The edge that it lies on was not found.')
      : proposed.doubtful
        ? t('An edge was found, and it may be another one beside it.')
        : t('The edge that it lies on was found again.');
    // What greys go across is averaged along the whole old line, so that a hand's errors at its two ends are too; which way the
    // line runs the new film says anew.
    const [one, other] = [before.spreadOf(word), before.spreadOf(partner)];
    // Ends that were followed err alike already: their mean errs no less than each.
    const isAlike = before.isFollowed(word) && before.isFollowed(partner);
    const shared = (isAlike ? (one + other) / 2 : Math.hypot(one, other) / 2) * size;
    const told = (name: LateralLandmark['word'], i: 0 | 1): Proposal => {
      if (!found || !isTold)
        return proposal(name, ends[i], bone.carried, before.spreadOf(name) * size, false, 'carried', why);
      return proposal(
        name,
        found.ends[i],
        Math.hypot(found.sds[i], FLOOR / now.mmPerPx),
        shared,
        distinct,
        'line',
        why,
      );
    };
    return [told(word, 0), told(partner, 1)];
  });
}
