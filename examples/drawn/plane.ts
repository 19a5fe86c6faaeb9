/** Small plane geometry for the drawn feet: points in millimetres, x to the toe, y up. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

export const at = (x: number, y: number): Point => ({ x, y });
export const plus = (a: Point, b: Point): Point => at(a.x + b.x, a.y + b.y);
export const minus = (a: Point, b: Point): Point => at(a.x - b.x, a.y - b.y);
export const times = (a: Point, k: number): Point => at(a.x * k, a.y * k);
export const middle = (a: Point, b: Point): Point => times(plus(a, b), 0.5);
export const gap = (a: Point, b: Point): number => Math.sqrt((a.x - b.x) ** 2 + (a.y - b.y) ** 2);
export const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** Unit vector of a line that leans back from toe to limb, as every slope of the foot is given. */
export const leaning = (degrees: number): Point => at(-Math.cos(radians(degrees)), Math.sin(radians(degrees)));

/** Unit vector square to `leaning(degrees)`, on the toe side. */
export const facing = (degrees: number): Point => at(Math.sin(radians(degrees)), Math.cos(radians(degrees)));

/** A point at an angle (counter-clockwise from the toe direction) and distance from a centre. */
export const polar = (centre: Point, distance: number, degrees: number): Point =>
  at(centre.x + distance * Math.cos(radians(degrees)), centre.y + distance * Math.sin(radians(degrees)));

/** Turns the palmar side up: positive degrees raise what lies behind the origin. */
export const raisedBehind = (p: Point, degrees: number): Point => {
  const c = Math.cos(radians(degrees));
  const s = Math.sin(radians(degrees));
  return at(p.x * c + p.y * s, p.y * c - p.x * s);
};

/** The point on the line through `on` with direction `along` that lies at height y. */
export const atHeight = (on: Point, along: Point, y: number): Point => at(on.x + (along.x * (y - on.y)) / along.y, y);

/** Where two lines, each a point and a direction, meet. */
export const meeting = (a: Point, u: Point, b: Point, v: Point): Point => {
  const cross = u.x * v.y - u.y * v.x;
  if (cross === 0) throw new Error('parallel lines do not meet');
  const k = ((b.x - a.x) * v.y - (b.y - a.y) * v.x) / cross;
  return plus(a, times(u, k));
};
