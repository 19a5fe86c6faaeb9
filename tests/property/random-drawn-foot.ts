import { foot } from '../../examples/drawn/foot.ts';
import { soundCob, type FootParameters } from '../../examples/drawn/parameters.ts';
import { Dice, round } from './dice.ts';
import type { Film, Landmark, Point } from './oracle/lateral.ts';
import { randomScale } from './random-scale.ts';
import type { Picture } from './random-views.ts';

/** From a small donkey's foot to a heavy horse's, sound, flat, clubbed, rotated and long in the toe. */
function randomParameters(dice: Dice): FootParameters {
  const size = dice.between(0.6, 1.35);
  const growing = dice.chance(0.4);
  const rotation = dice.between(-2, 22);
  const heelAngle = dice.between(28, 66);
  return {
    ...soundCob,
    size,
    p3Dorsal: dice.between(46, 54),
    p3Solar: dice.between(70, 84),
    p2Length: dice.between(40, 49),
    p1Length: dice.between(70, 82),
    p3Angle: dice.between(44, 57),
    palmarAngle: dice.between(-6, 26),
    rotation,
    ...(growing && { newRotation: rotation * dice.between(0, 0.6), grownOut: dice.between(3, 45) * size }),
    founderDistance: dice.between(-4, 22) * size,
    softCoronet: dice.between(7, 12),
    hornLamellar: dice.between(13, 26) * size,
    lamellarUpper: dice.between(4.5, 9) * size,
    lamellarLower: dice.between(4.5, 9) * size,
    soleTip: dice.between(4, 24) * size,
    soleWing: dice.between(8, 24) * size,
    cup: dice.between(0, 4),
    heelSurplus: dice.between(0, 20) * size,
    toeLength: dice.between(72, 118) * size,
    bearingLength: dice.between(100, 150) * size,
    breakoverBack: dice.between(0, 20),
    heelAngle,
    coronetAngle: dice.between(5, 30),
    middleAngle: dice.between(44, 72),
    proximalAngle: dice.between(42, 68),
    cannonAngle: dice.between(80, 92),
  };
}

type Places = Map<string, Point>;

/** The parameters vary one by one, so that now and then they make what no animal stands on. */
function plausible(parameters: FootParameters, places: Places): boolean {
  const { palmarAngle, p3Angle, rotation, size } = parameters;
  const wall = palmarAngle + p3Angle - rotation;
  const height = (name: string): number => places.get(name)?.y ?? 0;
  const heel = Math.hypot(
    (places.get('coronet.heel')?.x ?? 0) - (places.get('heel.ground')?.x ?? 0),
    height('coronet.heel'),
  );
  return (
    wall >= 33 &&
    wall <= 72 &&
    height('wall.upper') - height('wall.lower') >= 12 * size &&
    height('wall.lower') >= 0 &&
    height('sole.wing') >= 0 &&
    height('heel.upper') - height('sole.heel') >= 4 * size &&
    height('coronet.heel') >= 12 * size &&
    heel <= 85 * size
  );
}

function drawnPlaces(dice: Dice): Places {
  return new Map(foot(anyFoot(dice)).landmarks);
}

/** Of an animal that could stand on it. */
export function anyFoot(dice: Dice): FootParameters {
  for (;;) {
    const parameters = randomParameters(dice);
    try {
      const places: Places = new Map(foot(parameters).landmarks);
      if (plausible(parameters, places)) return parameters;
    } catch {
      // A toe that does not reach the ground, or reaches beyond its wall, cannot be drawn: the next one.
    }
  }
}

/** A lateral film of a parametric foot, every landmark placed to half a millimetre or so, turned and facing either way. */
export function randomDrawnFilm(seed: number, { withGround = true, withScale = true } = {}): Picture {
  const dice = new Dice(seed ^ 0xd3a2);
  const places = drawnPlaces(dice);
  const wing = places.get('p3.wing');
  if (wing && dice.chance(0.3))
    places.set('p3.wing.other', { x: wing.x + dice.between(-2, 2), y: wing.y + dice.between(-2, 2) });
  const facing = dice.pick([1, -1]);
  const tilt = (dice.between(-25, 25) * Math.PI) / 180;
  const mmPerPx = dice.between(0.08, 0.25);
  const jitter = (): number => dice.between(-0.6, 0.6);
  const onPicture = ({ x, y }: Point): Point => ({
    x: (facing * x * Math.cos(tilt) + y * Math.sin(tilt)) / mmPerPx,
    y: (facing * x * Math.sin(tilt) - y * Math.cos(tilt)) / mmPerPx,
  });
  const raw = [...places].map(([name, { x, y }]) => ({ name, ...onPicture({ x: x + jitter(), y: y + jitter() }) }));
  const shift = {
    x: dice.between(20, 500) - Math.min(...raw.map(({ x }) => x)),
    y: dice.between(20, 500) - Math.min(...raw.map(({ y }) => y)),
  };
  const placed = ({ x, y }: Point): Point => ({ x: round(x + shift.x, 1), y: round(y + shift.y, 1) });
  const landmarks: Landmark[] = raw.map(({ name, ...at }) => ({ name, ...placed(at) }));
  const film: Film = { landmarks };
  if (withGround)
    film.ground = {
      a: placed(onPicture({ x: dice.between(-140, -90), y: 0 })),
      b: placed(onPicture({ x: dice.between(30, 90), y: 0 })),
    };
  if (withScale) film.scale = randomScale(dice, 'stated', mmPerPx);
  return { seed, kind: 'film', foot: dice.pick(['LF', 'RF', 'LH', 'RH']), view: 'lateral', film };
}
