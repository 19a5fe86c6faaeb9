import { spoken, spokenRows } from '../language/rows.ts';
import type { MeasureName } from '../measures/names.ts';
/** Measures that speak of one thing in the foot: they are told together, in one finding. */
export interface Together {
  readonly code: `range/${string}`;
  /** How the finding begins, and how it goes on after the foot. */
  readonly words: string;
  readonly state: string;
  /** How a measure is said among the others, `{}` for its value; its words before the value where nothing stands here. */
  readonly says: Readonly<Partial<Record<MeasureName, string>>>;
  /** Whether it tells what the line of the gravest means and what to do. */
  readonly tellsLine: boolean;
  readonly title: string;
  readonly about: string;
  /** In the order in which they are told. */
  readonly measures: readonly MeasureName[];
}

export const together: readonly Together[] = spokenRows(
  [
    {
      code: 'range/palmar-angle',
      words: 'Palmar angle',
      state: 'out of its usual range',
      says: spoken({ 'palmar-angle': 'to the ground {}', 'palmar-angle.bearing': 'to the bearing plane {}' }),
      tellsLine: true,
      title: 'Palmar angle out of its range',
      about:
        'Angle of the pedal bone’s solar margin to the ground: positive where the wing is higher than the tip. A low or negative angle loads the deep flexor tendon, the navicular bone and the heels; a high one stands the bone on its tip, over the solar corium and the arteries that run round its margin. Schools differ on which is worse in the acute phase. A wedge under the heel makes the angle to the ground larger and leaves the foot as it is: of a shod foot the angle to the bearing plane is held against the lowest as well.',
      measures: ['palmar-angle', 'palmar-angle.bearing'],
    },
    {
      code: 'range/wall-to-bone',
      words: 'Wall to bone',
      state: 'thick',
      says: spoken({
        'horn-lamellar-share': 'horn and lamellae {} of the bone’s length',
        'horn-lamellar.upper': 'above {}',
        'horn-lamellar.middle': 'halfway down {}',
        'horn-lamellar.lower': 'below {}',
        'lamellar-share': 'lamellae alone {}',
      }),
      tellsLine: false,
      title: 'Wall far from the bone',
      about:
        'The layer between the outer wall and the dorsal face of the bone, in millimetres and as a share of the bone’s own length, is thicker than usual: the horn is thick, or the lamellae swell or have been drawn out. Where it is wider below than above, bone and wall part downwards. All measures of that layer are told in one finding, at the gravest. To live with one of them only, name it: `accept range/wall-to-bone lamellar-share because "…"`.',
      measures: [
        'horn-lamellar-share',
        'horn-lamellar.upper',
        'horn-lamellar.middle',
        'horn-lamellar.lower',
        'lamellar-share',
      ],
    },
    {
      code: 'range/low-in-capsule',
      words: 'Bone in the capsule',
      state: 'low',
      says: {},
      tellsLine: true,
      title: 'Bone low in the capsule',
      about:
        'The bone lies lower in the capsule than usual, measured from the firm wall (founder distance), from the hairline, or both; the two are told in one finding, at the graver. Where the lamellae give way all round, the bone sinks and presses on the solar corium from above; this weighs more for the animal than rotation does. One film does not tell a bone that sinks from one that has always lain low: compare with the other feet and with earlier films. Donkeys have no limit: their bone lies lower, and nobody has told how low.',
      measures: ['founder-distance', 'coronet-extensor'],
    },
  ],
  'words',
  'state',
  'title',
  'about',
);
