import type { XY } from '../geometry/vector.ts';
import { t } from '../language/words.ts';
import { lateralLandmark, landmarksOf, type LateralLandmark } from '../notation/landmarks.ts';
import type { EdgeLine } from '../picture/seek/edges.ts';
import { inFrame, notBegun, type FilmInFrame, type PicturedFoot } from './film-pair.ts';
import type { Proposed } from './from-film-before.ts';
import type { Proposal } from './proposal.ts';
import { dorsalFace, dorsalWall } from './typical-lines.ts';
import { typicalOnFilm, type TypicalOnFilm } from './typical-places.ts';
import { typicalSpread } from './typical-spreads.ts';

/** What is added to a line's own deviation, mm: its edge on the picture and what it is drawn by are not quite the same (from the bench). */
const ADDED = { face: 0.12, wall: 0.3 } as const;

const rows = landmarksOf('lateral').flatMap(({ word }) => lateralLandmark(word) ?? []);

/**
 * Where to look for the landmarks of a foot's first film, on which marker, ground, `p3.tip` and `p3.wing` are placed: where they lie on
 * a typical foot, laid over what is placed; the dorsal face of the bone and the dorsal wall then by the picture's edges. Nothing but
 * that face is ever distinct: no foot need be like the typical one. What only a person can tell, or is placed already, or would lie
 * beyond the picture, is not proposed. Pure, and the same each time; lateral.
 */
export function proposedTypical(now: PicturedFoot): Proposed {
  const film = inFrame(now);
  if (!film) return { says: notBegun() };
  const first = typicalOnFilm(film);
  if (!first) return { says: t('The tip and the wing of the pedal bone lie in one place.') };
  const lines = linesTold(film, first);
  // Where the wall lies says more of the rest of the capsule than the ground alone.
  const wall = [...lines.values()].filter(({ name }) => name === 'wall.upper' || name === 'wall.lower');
  const typical = typicalOnFilm(film, wall) ?? first;
  const placed = new Set(now.foot.landmarks.map(({ name }) => name));
  const proposals = rows.flatMap((row): Proposal[] => {
    if (row.proposed.by === 'none' || placed.has(row.word)) return [];
    const one = lines.get(row.word) ?? byTypical(film, typical, row);
    return isOnFilm(film, one.at) ? [one] : [];
  });
  return { proposals };
}

function byTypical({ mmPerPx }: FilmInFrame, typical: TypicalOnFilm, row: LateralLandmark): Proposal {
  const spread = (typicalSpread(row.word) * typical.size) / mmPerPx;
  const why =
    row.proposed.by === 'arc' || ('on' in row.proposed && row.proposed.on === 'pedal bone')
      ? t('Where it lies on a typical foot with a pedal bone like this: a place to look.')
      : t('Where it lies on a typical foot of this size: only a place to look, as every capsule is another.');
  return { name: row.word, at: typical.at(row), spread, added: spread, distinct: false, by: 'typical', why };
}

/** Both lines as far as the picture tells them. */
function linesTold(film: FilmInFrame, typical: TypicalOnFilm): ReadonlyMap<LateralLandmark['word'], Proposal> {
  const told = new Map<LateralLandmark['word'], Proposal>();
  const place = (name: LateralLandmark['word']): XY => {
    const row = lateralLandmark(name);
    return film.at(name) ?? (row ? typical.at(row) : film.axes.origin);
  };
  const tell = (
    line: EdgeLine | null,
    part: 'p3.dorsal' | 'wall',
    more: number,
    distinct: boolean,
    why: string,
  ): void => {
    for (const [i, end] of (['upper', 'lower'] as const).entries()) {
      const [at, sd] = [line?.ends[i], line?.sds[i]];
      if (!at || sd === undefined) continue;
      const spread = Math.hypot(sd, more / film.mmPerPx);
      const name = `${part}.${end}` as const;
      told.set(name, { name, at, spread, added: spread, distinct, by: 'line', why });
    }
  };
  const face = dorsalFace(film, [place('p3.dorsal.upper'), place('p3.dorsal.lower')]);
  const wall = dorsalWall(film, [place('wall.upper'), place('wall.lower')], face?.ends ?? null);
  tell(
    face,
    'p3.dorsal',
    ADDED.face,
    true,
    t('The edge of the bone was found beside where it lies on a typical foot.'),
  );
  tell(
    wall,
    'wall',
    ADDED.wall,
    false,
    t('An edge of the foot was found. See whether it is the wall and not what marks it.'),
  );
  return told;
}

function isOnFilm({ picture: [{ width, height }] }: FilmInFrame, { x, y }: XY): boolean {
  return x >= 0 && y >= 0 && x <= width - 1 && y <= height - 1;
}
