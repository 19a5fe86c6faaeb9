import { matrix, multiply, type Matrix } from 'mathjs';
import type { Film, Point } from '../property/oracle/lateral.ts';

/** A film with every point of it put through a 2 by 2 matrix of mathjs, then moved. */
export function throughMatrix(film: Film, by: Matrix, shift: Point): Film {
  const put = <T extends Point>(point: T): T => {
    const moved = multiply(by, matrix([point.x, point.y]));
    return { ...point, x: moved.get([0]) + shift.x, y: moved.get([1]) + shift.y };
  };
  const segment = ({ a, b }: { a: Point; b: Point }) => ({ a: put(a), b: put(b) });
  return {
    ...film,
    landmarks: film.landmarks.map(put),
    ...(film.ground && { ground: segment(film.ground) }),
    ...(film.scale && {
      scale: film.scale.form === 'marker' ? { ...film.scale, ends: segment(film.scale.ends) } : film.scale,
    }),
  };
}
