import type { XY } from '../../geometry/vector.ts';
import type { GroupNode, PathSegment } from '../scene.ts';

/** A fine cross that leaves the place itself open, so that what lies under it can still be seen. */
export function landmarkMark(
  name: string,
  words: string,
  p: XY,
  unit: number,
  em: number,
  lit: boolean,
  named: boolean,
): GroupNode {
  const inner = 0.9 * unit;
  const outer = 2 * unit;
  const cross: PathSegment[] = [];
  for (const [x, y] of [
    [1, 0],
    [-1, 0],
    [0, 1],
    [0, -1],
  ] as const) {
    cross.push(['M', p.x + x * inner, p.y + y * inner], ['L', p.x + x * outer, p.y + y * outer]);
  }
  const classes = ['landmark'];
  if (lit) classes.push('is-lit');
  if (named) classes.push('is-named');
  return {
    kind: 'group',
    classes,
    data: { landmark: name },
    title: words,
    children: [
      { kind: 'circle', centre: p, radius: 3.6 * unit, classes: ['hit'] },
      { kind: 'path', segments: cross, weight: 0.26 * unit, classes: ['mark'], halo: 'always' },
      ...(lit
        ? [
            {
              kind: 'circle',
              centre: p,
              radius: 3.3 * unit,
              weight: 0.4 * unit,
              classes: ['ring'],
              halo: 'always',
            } as const,
          ]
        : []),
      {
        kind: 'text',
        at: { x: p.x + 3.4 * unit, y: p.y - 2.4 * unit },
        size: em * 0.86,
        anchor: 'start',
        runs: [{ text: words }],
        classes: ['landmark-name'],
      },
    ],
  };
}
