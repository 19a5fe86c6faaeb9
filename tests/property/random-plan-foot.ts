import { soundFoot } from '../unit/plain-foot.ts';
import { Dice, round } from './dice.ts';

/** A case with one lateral film of a foot that is to be planned for, and what it was made with. */
export interface PlanCase {
  readonly text: string;
  readonly foot: string;
}

type Millimetres = readonly [x: number, y: number];

const bone = ['p3.tip', 'p3.wing', 'p3.extensor', 'p3.dorsal.upper', 'p3.dorsal.lower', 'p3.navicular'];

/**
 * Feet of all kinds: thin soles, rotated bones, flat and upright ones, tall heels, small feet; films tilted, and looking either way;
 * ground contacts that are placed a little off the ground.
 */
export function randomPlanCase(seed: number, { trims = true }: { readonly trims?: boolean } = {}): PlanCase {
  const dice = new Dice(seed);
  const places = new Map<string, Millimetres>(Object.entries(soundFoot));
  const move = (name: string, to: (at: Millimetres) => Millimetres): void => {
    const at = places.get(name);
    if (at) places.set(name, to(at));
  };
  // The bone turns about its extensor process, then the whole foot about its toe: tall heels.
  const rotated = dice.chance(0.6) ? dice.between(-3, 14) : 0;
  for (const name of bone) move(name, turnedAbout(places.get('p3.extensor') ?? [0, 0], -rotated));
  const heels = dice.between(-2, 9);
  for (const name of places.keys()) if (!name.endsWith('ground')) move(name, turnedAbout([28, 0], -heels));
  const lower = dice.between(-3, 10);
  for (const name of places.keys()) if (!name.endsWith('ground')) move(name, ([x, y]) => [x, y + lower]);
  const cup = dice.between(-1, 9);
  const tip = places.get('p3.tip') ?? [0, 16];
  const depth = dice.chance(0.3) ? dice.between(3, 9) : dice.between(8, 22);
  places.set('sole.tip', [tip[0], dice.chance(0.5) ? cup : tip[1] - depth]);
  move('sole.wing', ([x]) => [x, dice.between(0, 20)]);
  places.set('sole.heel', [dice.between(-108, -98), dice.chance(0.1) ? dice.between(-2, 1) : dice.between(0.5, 24)]);
  move('heel.ground', ([x]) => [x + dice.between(-12, 12), dice.between(-0.6, 0.6)]);
  move('toe.ground', ([x]) => [x + dice.between(-6, 12), dice.between(-0.6, 0.6)]);
  for (const name of ['wall.inner.upper', 'wall.inner.lower', 'sole.wing', 'fetlock.centre'])
    if (dice.chance(0.1)) places.delete(name);

  const size = dice.chance(0.3) ? dice.between(0.55, 0.8) : dice.between(0.85, 1.25);
  const tilt = dice.chance(0.7) ? dice.between(-12, 12) : 0;
  const facing = dice.pick([1, -1]);
  const mmPerPx = round(dice.between(0.08, 0.25), 4);
  const onto = ([x, y]: Millimetres): string => {
    const [across, up] = turnedAbout([0, 0], tilt)([x * size, y * size]);
    return `${round(1500 + (facing * across) / mmPerPx, 1)}, ${round(1200 - up / mmPerPx, 1)}`;
  };
  const foot = dice.pick(['LF', 'RF', 'LH', 'RH']);
  const landmarks = [...places].map(([name, at]) => {
    const spread = dice.chance(0.1) ? ` +- ${round(dice.between(0.5, 8), 1)}` : '';
    return `    ${name} @ ${onto(at)}${spread}`;
  });
  const scale = dice.chance(0.5)
    ? `scale ${mmPerPx} mm/px`
    : `scale 100 mm = ${onto([-130 / size, 60 / size])} .. ${onto([-130 / size, 160 / size])}`;
  const limits = dice.chance(0.2)
    ? `\nlimits\n  palmar-angle >= ${round(dice.between(2.5, 6), 1)} deg\n`
    : dice.chance(0.1)
      ? '\nlimits\n  sole-depth.wing >= 16 mm\n'
      : '';
  const between =
    trims && dice.chance(0.4)
      ? `\nvisit 2026-03-10\n  trim ${foot}\n    heel down ${round(dice.between(0.5, 3), 1)} mm\n${dice.chance(0.3) ? `\n  trim ${foot}\n    toe back ${round(dice.between(0.5, 2), 1)} mm\n` : ''}`
      : '';
  const text = `hoof 1

case "Random ${seed}"
  animal ${dice.pick(['horse', 'horse', 'pony', 'mule'])}
  height ${Math.round(150 * size)} cm
${limits}
visit 2026-03-04
  film ${foot} lateral "x.png"
    ${scale}
    ground ${onto([-140, 0])} .. ${onto([70, 0])}
${landmarks.join('\n')}
${between}`;
  return { text, foot };
}

function turnedAbout([cx, cy]: Millimetres, degrees: number): (at: Millimetres) => Millimetres {
  const angle = (degrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return ([x, y]) => [cx + (x - cx) * cos - (y - cy) * sin, cy + (x - cx) * sin + (y - cy) * cos];
}
