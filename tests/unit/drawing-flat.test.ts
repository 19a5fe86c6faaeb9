import { describe, expect, it } from 'vitest';
import { drawPlate } from '../../shared/drawing/plate/plate.ts';
import type { GroupNode, LineNode, SceneNode } from '../../shared/drawing/scene.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { plateOf } from '../../shared/views/plate-of.ts';

/** A left fore as it stands on a picture, and the same mirrored and tilted: a right fore. 0.2 mm a pixel. */
const front = {
  'p3.medial': [720, 745],
  'p3.lateral': [280, 760],
  'joint.medial': [660, 615],
  'joint.lateral': [330, 620],
  'coronet.medial': [740, 550],
  'coronet.lateral': [260, 560],
  'wall.medial': [800, 903],
  'wall.lateral': [190, 900],
} as const;
const solar = {
  toe: [500, 120],
  'frog.apex': [500, 420],
  'frog.base': [500, 800],
  'frog.medial': [580, 740],
  'frog.lateral': [420, 740],
  'heel.medial': [670, 830],
  'heel.lateral': [330, 830],
  'wide.medial': [820, 500],
  'wide.lateral': [180, 500],
} as const;

type Places = Readonly<Record<string, readonly [number, number]>>;
const turned = ([x, y]: readonly [number, number]): readonly [number, number] => [
  1400 - x * Math.cos(0.1) + y * Math.sin(0.1),
  x * Math.sin(0.1) + y * Math.cos(0.1),
];
const otherWay = (places: Places): Places =>
  Object.fromEntries(Object.entries(places).map(([name, place]) => [name, turned(place)]));

function plateFor(
  view: 'front' | 'solar',
  foot: string,
  places: Places,
  ground: readonly (readonly [number, number])[],
) {
  const lines = Object.entries(places).map(([name, [x, y]]) => `    ${name} @ ${x.toFixed(2)}, ${y.toFixed(2)}`);
  const onGround =
    view === 'front' ? [`    ground ${ground.map(([x, y]) => `${x.toFixed(2)}, ${y.toFixed(2)}`).join(' .. ')}`] : [];
  const [sheet] = filmSheets(
    inspect(
      [
        'hoof 1',
        '',
        'visit 2026-03-04',
        `  film ${foot} ${view} "a.png"`,
        '    scale 0.2 mm/px',
        ...onGround,
        ...lines,
      ].join('\n'),
    ),
  );
  if (!sheet) throw new Error('no film');
  const drawn = sheet.rows.filter(({ unit }) => unit === 'mm' || unit === 'deg').map(({ measure }) => measure);
  return { sheet, drawn, scene: drawPlate(plateOf(sheet, null)) };
}

const groups = (nodes: readonly SceneNode[]): GroupNode[] =>
  nodes.flatMap((node) => (node.kind === 'group' ? [node, ...groups(node.children)] : []));

describe.each([
  ['front', front, 8],
  ['solar', solar, 5],
] as const)('a plate of the %s view', (view, places, count) => {
  const ground = [
    [100, 900],
    [900, 905],
  ] as const;
  const ways = [
    ['LF', places, ground],
    ['RF', otherWay(places), ground.map(turned)],
  ] as const;

  it.each(ways)('has each measure at its place, on a %s', (foot, those, line) => {
    const { scene, drawn } = plateFor(view, foot, those, line);
    expect(drawn).toHaveLength(count);
    const all = groups(scene.layers);
    for (const part of ['measure', 'label'])
      expect(
        all
          .filter(({ classes }) => classes?.includes(part))
          .map(({ data }) => data?.measure)
          .toSorted(),
      ).toEqual(drawn.toSorted());
    // The names of the landmarks are there under the pointer, and not over the numbers.
    expect(all.filter(({ classes }) => classes?.includes('is-named'))).toEqual([]);
  });

  it.each(ways)('draws a length as long as it is measured, on a %s', (foot, those, line) => {
    const { sheet, scene } = plateFor(view, foot, those, line);
    const lengths = sheet.rows.filter(({ unit }) => unit === 'mm');
    expect(lengths.length).toBeGreaterThan(2);
    for (const { measure, value } of lengths) {
      const group = groups(scene.layers).find(
        ({ classes, data }) => classes?.includes('measure') && data?.measure === measure,
      );
      const span = group?.children.find(
        (node): node is LineNode => node.kind === 'line' && node.classes?.includes('span') === true,
      );
      if (!span) throw new Error(`no line for ${measure}`);
      expect(Math.hypot(span.to.x - span.from.x, span.to.y - span.from.y) * 0.2).toBeCloseTo(value, 1);
    }
  });
});
