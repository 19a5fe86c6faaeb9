import type { UnmarkedTruth } from './truth.ts';

/** A person clicks a pixel or the edge between two. */
const clicked = ([x, y]: readonly [number, number]): string => `${Math.round(x * 2) / 2}, ${Math.round(y * 2) / 2}`;

/** A film's block in the notation, with every landmark where a careful hand would put it. */
export function filmBlock(t: UnmarkedTruth): string {
  const wide = Math.max(...Object.keys(t.landmarks).map((name) => name.length));
  return [
    `  film ${t.foot} lateral "${t.file}"`,
    `    taken   ${t.taken}`,
    ...(t.marker ? [`    scale   ${t.marker.mm} mm = ${clicked(t.marker.from)} .. ${clicked(t.marker.to)}`] : []),
    `    ground  ${clicked(t.ground.from)} .. ${clicked(t.ground.to)}`,
    ...(t.bearing ? [`    bearing ${clicked(t.bearing.from)} .. ${clicked(t.bearing.to)}`] : []),
    ...Object.entries(t.landmarks).map(([name, p]) => `    ${name.padEnd(wide)} @ ${clicked(p)}`),
    '',
  ].join('\n');
}
