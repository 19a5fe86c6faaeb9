import Flatten, { type Point, type Vector } from '@flatten-js/core';
import type { Film } from '../property/oracle/lateral.ts';
import { mmPerPixel } from './lateral-by-library.ts';

/** The front and solar measures built again with the primitives of flatten-js, after docs/model.md, as the lateral ones are. */
interface Picture {
  readonly at: (name: string) => Point;
  readonly mm: number;
  readonly length: (from: string, to: string) => number;
}

const up = ({ x, y }: { x: number; y: number }): Point => new Flatten.Point(x, -y);

function pictured({ landmarks, scale, magnify = 1 }: Film): Picture {
  if (!scale) throw new Error('only pictures with a scale');
  const placed = new Map(landmarks.map((landmark) => [landmark.name, up(landmark)]));
  const at = (name: string): Point => {
    const point = placed.get(name);
    if (!point) throw new Error(`${name} is not placed`);
    return point;
  };
  const mm = mmPerPixel(scale) / magnify;
  return { at, mm, length: (from, to) => mm * at(from).distanceTo(at(to))[0] };
}

export function frontByLibrary(film: Film): Map<string, number> {
  const { at, mm } = pictured(film);
  const ends: [Point, Point] = film.ground
    ? [up(film.ground.a), up(film.ground.b)]
    : [at('wall.medial'), at('wall.lateral')];
  const ground = new Flatten.Line(...ends);
  const foot = (name: string): Point => at(name).projectionOn(ground);
  const outwards = new Flatten.Vector(foot('p3.medial'), foot('p3.lateral')).normalize();
  const middle = new Flatten.Segment(at('p3.medial'), at('p3.lateral')).middle();
  const upwards = new Flatten.Vector(middle.projectionOn(ground), middle);
  const side = outwards.cross(upwards) > 0 ? 1 : -1;
  /** From one direction to another over the foot, degrees in (-180, 180]. */
  const angle = (from: Vector, to: Vector): number => {
    const turn = (from.angleTo(to) * 180) / Math.PI;
    const near = side * (turn > 180 ? turn - 360 : turn);
    return near === -180 ? 180 : near;
  };
  const between = (from: string, to: string): Vector => new Flatten.Vector(at(from), at(to));
  const tilt = (part: string): number => angle(outwards, between(`${part}.medial`, `${part}.lateral`));
  const height = (name: string): number =>
    (at(name).leftTo(ground) === middle.leftTo(ground) ? 1 : -1) * mm * at(name).distanceTo(ground)[0];
  return new Map([
    ['p3-tilt', tilt('p3')],
    ['joint-tilt', tilt('joint')],
    ['coronet-tilt', tilt('coronet')],
    ['wall-angle.medial', angle(outwards, between('wall.medial', 'coronet.medial'))],
    ['wall-angle.lateral', -angle(outwards.invert(), between('wall.lateral', 'coronet.lateral'))],
    ['sole-depth.medial', height('p3.medial')],
    ['sole-depth.lateral', height('p3.lateral')],
    ['ground-width', mm * outwards.dot(new Flatten.Vector(foot('wall.medial'), foot('wall.lateral')))],
  ]);
}

export function solarByLibrary(film: Film): Map<string, number> {
  const { at, mm, length } = pictured(film);
  const heels = new Flatten.Segment(at('heel.medial'), at('heel.lateral')).middle();
  const axis = new Flatten.Line(heels, at('toe'));
  const toToe = Math.sign(axis.coord(at('toe')) - axis.coord(heels));
  const along = (point: Point): number => toToe * mm * (axis.coord(point) - axis.coord(heels));
  const sole = mm * heels.distanceTo(at('toe'))[0];
  const widest = new Flatten.Segment(at('wide.medial'), at('wide.lateral')).middle();
  return new Map([
    ['sole-length', sole],
    ['sole-width', length('wide.medial', 'wide.lateral')],
    ['heel-width', length('heel.medial', 'heel.lateral')],
    ['frog-width', length('frog.medial', 'frog.lateral')],
    ['frog-length', length('frog.apex', 'frog.base')],
    ['width-share', (100 * length('wide.medial', 'wide.lateral')) / sole],
    ['heel-frog-share', (100 * length('heel.medial', 'heel.lateral')) / length('frog.medial', 'frog.lateral')],
    ['toe-split', (100 * (sole - along(widest))) / sole],
    ['frog-place', (100 * along(at('frog.apex'))) / sole],
  ]);
}
