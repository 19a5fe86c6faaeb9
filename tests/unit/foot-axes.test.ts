import type { MeasureName } from '../../shared/measures/names.ts';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { footAxes, placedIn, type FootAxes } from '../../shared/geometry/foot-axes.ts';
import type { XY } from '../../shared/geometry/vector.ts';

type Given = Readonly<Record<string, readonly [number, number]>>;

const level: readonly [XY, XY] = [
  { x: 0, y: 900 },
  { x: 1000, y: 900 },
];

function axesOf(given: Given, ground: readonly [XY, XY] | null = level): FootAxes {
  const places = new Map(Object.entries(given).map(([name, [x, y]]) => [name, { x, y }]));
  return footAxes('lateral', placedIn(places), ground);
}
/** Which way the toe points on the picture, and the limb. */
const lies = ({ u, v }: FootAxes): string =>
  `${u.x > 0.5 ? 'right' : u.x < -0.5 ? 'left' : 'neither'}, ${v.y < -0.5 ? 'up' : v.y > 0.5 ? 'down' : 'neither'}`;

describe('how the frame of a foot lies on its picture', () => {
  it('rests on the middle between two wings, as the measures do', () => {
    const axes = axesOf({ 'p3.tip': [500, 800], 'p3.wing': [510, 790], 'p3.wing.other': [300, 790] });
    expect(lies(axes)).toBe('right, up');
    expect(axes.lack).toBeNull();
  });

  it('asks the contacts where the bone stands upright and does not tell the toe', () => {
    const bone: Given = { 'p3.tip': [500, 800], 'p3.wing': [500, 700] };
    expect(lies(axesOf({ ...bone, 'toe.ground': [600, 900], 'heel.ground': [300, 900] }))).toBe('right, up');
    expect(lies(axesOf({ ...bone, 'toe.ground': [200, 900], 'heel.ground': [500, 900] }))).toBe('left, up');
    // Whichever end of the ground was placed first.
    expect(lies(axesOf({ ...bone, 'toe.ground': [600, 900], 'heel.ground': [300, 900] }, [level[1], level[0]]))).toBe(
      'right, up',
    );
  });

  it('takes up for up where the bone lies on the ground line', () => {
    expect(lies(axesOf({ 'p3.tip': [300, 900], 'p3.wing': [700, 900] }))).toBe('left, up');
    expect(lies(axesOf({ 'p3.tip': [700, 900], 'p3.wing': [300, 900] }))).toBe('right, up');
  });

  it('has the foot above its ground on a film that hangs on its head', () => {
    expect(lies(axesOf({ 'p3.tip': [300, 980], 'p3.wing': [700, 990] }))).toBe('left, down');
  });

  it.each<[string, Given, readonly [XY, XY] | null, FootAxes['lack'], string]>([
    ['nothing at all', {}, null, 'ground', 'left, up'],
    ['one landmark', { 'coffin.centre': [40, 60] }, null, 'ground', 'left, up'],
    ['one landmark above a ground', { 'coffin.centre': [40, 60] }, level, 'direction', 'left, up'],
    [
      'a joint above another',
      { 'coffin.centre': [40, 60], 'fetlock.centre': [10, 9] },
      level,
      'direction',
      'right, up',
    ],
    ['bone without a ground', { 'p3.tip': [9, 9], 'p3.wing': [2, 8] }, null, 'ground', 'right, up'],
    [
      'a ground of one place',
      { 'p3.tip': [9, 9], 'p3.wing': [2, 8] },
      [level[0], level[0]],
      'flat-ground',
      'right, up',
    ],
    ['a hairline', { 'coronet.dorsal': [9, 9], 'coronet.heel': [80, 30] }, level, 'direction', 'left, up'],
  ])('is there to draw in for %s, and says what measures lack', (_what, given, ground, lack, way) => {
    const axes = axesOf(given, ground);
    expect(axes.lack).toBe(lack);
    expect(lies(axes)).toBe(way);
    expect(axes.grounded).toBe(lack === 'direction');
  });
});

describe('what is measured where a pair of places does not tell how the foot lies', () => {
  const value = (lines: readonly string[], measure: MeasureName): number | undefined => {
    const film = lines.map((line) => `    ${line}`).join('\n');
    const text = `hoof 1\n\nvisit 2026-03-04\n  film LF lateral "a.png"\n    scale 0.1 mm/px\n${film}\n`;
    return inspect(text).study.films[0]?.readings[0]?.taking.values.get(measure)?.value;
  };

  it.each(['0, 900 .. 1000, 900', '1000, 900 .. 0, 900'])('has the toe before the heel on the ground %s', (ground) => {
    const bone = ['p3.tip @ 500, 800', 'p3.wing @ 500, 300'];
    expect(
      value([`ground ${ground}`, ...bone, 'toe.ground @ 600, 900', 'heel.ground @ 300, 900'], 'bearing-length'),
    ).toBeCloseTo(30, 9);
  });

  it.each([
    ['left', 300, 700, 200],
    ['right', 700, 300, 800],
  ])('has the hairline above the ground that a bone lies on, toe to the %s', (_way, tip, wing, toe) => {
    const lines = [
      'ground 0, 900 .. 1000, 900',
      `p3.tip @ ${tip}, 900`,
      `p3.wing @ ${wing}, 900`,
      `coronet.dorsal @ ${tip}, 300`,
      `toe.ground @ ${toe}, 900`,
      `coronet.heel @ ${wing}, 600`,
    ];
    // 300 px lower over 400 px.
    expect(value(lines, 'coronet-angle')).toBeCloseTo((Math.atan2(3, 4) * 180) / Math.PI, 9);
  });
});
