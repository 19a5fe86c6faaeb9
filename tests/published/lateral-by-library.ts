import Flatten, { type Line, type Point, type Vector } from '@flatten-js/core';
import { unit } from 'mathjs';
import type { Film, Scale } from '../property/oracle/lateral.ts';

/**
 * The lateral measures built again with the primitives of flatten-js: lines through two points and square to a line,
 * distances, projections, intersections and the angle between directions. The construction follows docs/model.md; every
 * number comes from the library.
 */
export function lateralByLibrary(film: Film): Map<string, number> {
  const { at, mm, height, along, back, angle } = standing(film);
  const line = (from: string, to: string): Line => new Flatten.Line(at(from), at(to));
  const distance = (from: Point, to: Point | Line): number => from.distanceTo(to)[0];
  const length = (from: string, to: string): number => mm * distance(at(from), at(to));
  const slope = (low: string, high: string): number => angle(back, new Flatten.Vector(at(low), at(high)));

  const face = line('p3.dorsal.lower', 'p3.dorsal.upper');
  const facePlaces = {
    upper: at('p3.dorsal.upper'),
    middle: new Flatten.Segment(at('p3.dorsal.upper'), at('p3.dorsal.lower')).middle(),
    lower: at('p3.dorsal.lower'),
  };
  const beside = (from: Point, outer: Line): number => {
    const square = new Flatten.Line(from, from.translate(face.norm));
    const [met] = square.intersect(outer);
    if (!met) throw new Error('the wall runs square to the bone');
    // The wall lies on the side of the bone's tip-to-toe, away from the wing.
    const outside = met.leftTo(face) !== at('p3.wing').leftTo(face);
    return (outside ? 1 : -1) * mm * distance(from, met);
  };
  const toWall = (inner: '' | 'inner.'): Record<'upper' | 'middle' | 'lower', number> => {
    const wall = line(`wall.${inner}upper`, `wall.${inner}lower`);
    return {
      upper: beside(facePlaces.upper, wall),
      middle: beside(facePlaces.middle, wall),
      lower: beside(facePlaces.lower, wall),
    };
  };
  const horn = toWall('');
  const zone = toWall('inner.');

  const hairline = line('coronet.heel', 'coronet.dorsal');
  // The foot is turned by the library until its hairline points 20 degrees upwards, to whichever side the toe is.
  const level = (high: string): number => {
    const falls = new Flatten.Vector(at('coronet.heel'), at('coronet.dorsal'));
    const wanted = back.x < 0 ? Math.PI / 9 : Math.PI - Math.PI / 9;
    return mm * new Flatten.Vector(at('p3.extensor'), at(high)).rotate(wanted - falls.slope).y;
  };
  const navicular = at('navicular.upper');
  const belowHairline = navicular.leftTo(hairline) === at('heel.ground').leftTo(hairline);

  const wall = slope('wall.lower', 'wall.upper');
  const bone = slope('p3.dorsal.lower', 'p3.dorsal.upper');
  const heel = slope('heel.ground', 'heel.upper');
  const middle = slope('coffin.centre', 'pastern.centre');
  const axis = slope('coffin.centre', 'fetlock.centre');
  const bearing = along('toe.ground') - along('heel.ground');
  const cortex = length('p3.tip', 'p3.navicular');
  const toe = length('coronet.dorsal', 'toe.ground');
  const grown = length('coronet.dorsal', 'wall.turn');

  return new Map([
    ['palmar-angle', slope('p3.tip', 'p3.wing')],
    ['wall-angle', wall],
    ['bone-angle', bone],
    ['heel-angle', heel],
    // Hairline from heel to toe against the way to the toe: it rises where the foot is sound.
    ['coronet-angle', -angle(back.invert(), new Flatten.Vector(at('coronet.heel'), at('coronet.dorsal')))],
    ['middle-angle', middle],
    ['axis-angle', axis],
    ['capsular-rotation', bone - wall],
    ['phalangeal-rotation', bone - middle],
    ['hoof-pastern-deviation', wall - axis],
    ['toe-heel-difference', wall - heel],
    ['founder-distance', height('wall.top') - height('p3.extensor')],
    ['coronet-extensor', height('coronet.dorsal') - height('p3.extensor')],
    ['founder-distance.level', level('wall.top')],
    ['coronet-extensor.level', level('coronet.dorsal')],
    ['p3-length', length('p3.tip', 'p3.wing')],
    ['p3-back', length('p3.extensor', 'p3.wing')],
    ['p2-length', length('coffin.centre', 'pastern.centre')],
    ['sole-depth.tip', height('p3.tip') - height('sole.tip')],
    ['sole-depth.wing', height('p3.wing') - height('sole.wing')],
    ['cup.tip', height('sole.tip')],
    ['heel-height', height('coronet.heel') - height('heel.ground')],
    ['heel-surplus', height('sole.heel') - height('heel.ground')],
    ['coronet-navicular', (belowHairline ? 1 : -1) * mm * distance(navicular, hairline)],
    ['horn-lamellar.upper', horn.upper],
    ['horn-lamellar.middle', horn.middle],
    ['horn-lamellar.lower', horn.lower],
    ['lamellar-zone.upper', zone.upper],
    ['lamellar-zone.middle', zone.middle],
    ['lamellar-zone.lower', zone.lower],
    ['cortex-length', cortex],
    ['toe-length', toe],
    ['bearing-length', bearing],
    ['breakover-reach', along('breakover') - along('p3.tip')],
    ['grown-out', grown],
    ['horn-lamellar-share', (100 * horn.middle) / cortex],
    ['lamellar-share', (100 * zone.middle) / cortex],
    ['toe-share', (100 * (along('toe.ground') - along('coffin.centre'))) / bearing],
    ['phalanx-ratio', length('pastern.centre', 'fetlock.centre') / length('coffin.centre', 'pastern.centre')],
    ['grown-out-share', (100 * grown) / toe],
  ]);
}

interface Standing {
  readonly at: (name: string) => Point;
  /** Millimetres a pixel. */
  readonly mm: number;
  readonly height: (name: string) => number;
  readonly along: (name: string) => number;
  /** Along the ground to the heel. */
  readonly back: Vector;
  /** From one direction to another, over the foot, degrees in (-180, 180]. */
  readonly angle: (from: Vector, to: Vector) => number;
}

const up = ({ x, y }: { x: number; y: number }): Point => new Flatten.Point(x, -y);

export function mmPerPixel(scale: Scale): number {
  if (scale.form === 'stated') return scale.mmPerPx;
  return unit(scale.length, scale.unit).toNumber('mm') / new Flatten.Segment(up(scale.ends.a), up(scale.ends.b)).length;
}

/** A film stood on its ground, y upwards. */
function standing({ landmarks, ground: drawn, scale, magnify = 1 }: Film): Standing {
  if (!drawn || !scale) throw new Error('only films with a ground line and a scale');
  const placed = new Map(landmarks.map((landmark) => [landmark.name, up(landmark)]));
  const [wing, other] = [placed.get('p3.wing'), placed.get('p3.wing.other')];
  if (wing && other) placed.set('p3.wing', new Flatten.Segment(wing, other).middle());
  const at = (name: string): Point => {
    const point = placed.get(name);
    if (!point) throw new Error(`${name} is not placed`);
    return point;
  };

  const mm = mmPerPixel(scale) / magnify;
  const ground = new Flatten.Line(up(drawn.a), up(drawn.b));
  const above = at('p3.tip').leftTo(ground);
  const toToe = Math.sign(ground.coord(at('p3.tip')) - ground.coord(at('p3.wing')));
  const feet = (name: string): Point => at(name).projectionOn(ground);
  const back = new Flatten.Vector(feet('p3.tip'), feet('p3.wing'));
  const upwards = new Flatten.Vector(feet('p3.tip'), at('p3.tip'));
  const turnsLeft = back.cross(upwards) > 0;
  return {
    at,
    mm,
    back,
    height: (name) => (at(name).leftTo(ground) === above ? 1 : -1) * mm * at(name).distanceTo(ground)[0],
    along: (name) => toToe * mm * ground.coord(at(name)),
    angle: (from, to) => {
      const turn = ((turnsLeft ? from.angleTo(to) : to.angleTo(from)) * 180) / Math.PI;
      return turn > 180 ? turn - 360 : turn;
    },
  };
}
