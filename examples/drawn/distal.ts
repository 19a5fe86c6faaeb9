import { joint } from './joints.ts';
import { at, facing, leaning, plus, polar, raisedBehind, times, type Point } from './plane.ts';
import type { FootParameters } from './parameters.ts';
import { closed, open } from './spline.ts';

/** P3 and the navicular bone, which goes with it, and the centre of the joint above them. */
export function distal(p: FootParameters) {
  const place = (local: Point): Point =>
    plus(at(0, p.cup + p.soleTip), raisedBehind(times(local, p.size), p.palmarAngle));
  const d = leaning(p.p3Angle);
  const n = facing(p.p3Angle);
  const face = (s: number, off: number): Point => plus(times(d, s), times(n, off));
  const long = p.p3Dorsal;
  const crest = face(long, 0.4);
  const centre = plus(crest, at(-20.2, -6.9));
  const arc = (radius: number, degrees: number): Point => polar(centre, radius, degrees);
  const socket = joint.coffinSocket;
  const nav = arc(socket, 246);
  const upper = face(long * 0.76, 0.8);
  const lower = face(long * 0.22, 0.8);
  const wing = at(-p.p3Solar, 0);

  const dorsal = [face(3.6, 0.5), lower, face(long * 0.4, 0.8), face(long * 0.58, 0.8), upper];
  const head = [face(long * 0.86, 0.5), face(long * 0.95, 1), crest, plus(crest, at(-2.5, -1.3))];
  const cup = [-10, -28, -48, -66, -84, -99].map((a) => arc(socket, a));
  const tip = at(0, 0);

  const body = closed([
    tip,
    ...dorsal,
    ...head,
    ...cup,
    nav,
    plus(nav, at(1.5, -3.4)),
    plus(times(nav, 0.72), at(-1, -1.8)),
    times(nav, 0.4),
    at(-7, 1.1),
    at(-2.2, -0.3),
  ]);
  const whole = closed([
    tip,
    ...dorsal,
    ...head,
    ...cup,
    nav,
    plus(nav, at(-2.2, -1.6)),
    plus(nav, at(-6.5, -1.9)),
    plus(wing, at(7, 11.6)),
    plus(wing, at(1, 10.4)),
    plus(wing, at(-2.6, 6.8)),
    plus(wing, at(-2.4, 2.2)),
    wing,
    plus(wing, at(5, -0.3)),
    at(-p.p3Solar * 0.72, 0.5),
    at(-p.p3Solar * 0.5, 0.9),
    at(-p.p3Solar * 0.28, 0.5),
    at(-8, -0.3),
    at(-2.4, -0.5),
  ]);

  const navUpper = arc(22.6, 208);
  const navLower = arc(24.2, 250);
  const navicular = closed([
    navUpper,
    arc(19.2, 214),
    arc(16.9, 218.5),
    arc(16.3, 225),
    arc(16.3, 232),
    arc(16.5, 239),
    arc(17.8, 245.6),
    arc(20.6, 249),
    navLower,
    arc(26.6, 247),
    arc(28.1, 241),
    arc(28.4, 232),
    arc(28.2, 223.5),
    arc(26.8, 215.5),
    arc(25, 210),
  ]);
  const canal = Array.from({ length: 14 }, (_, i) => {
    const a = (i * 360) / 14;
    const x = 4.6 * Math.cos((a * Math.PI) / 180);
    const y = 2 * Math.sin((a * Math.PI) / 180);
    return plus(plus(times(nav, 0.62), at(2, 3)), raisedBehind(at(x, y), 10));
  });
  return {
    centre: place(centre),
    landmarks: {
      'p3.tip': place(tip),
      'p3.wing': place(wing),
      'p3.extensor': place(crest),
      'p3.dorsal.upper': place(upper),
      'p3.dorsal.lower': place(lower),
      'p3.navicular': place(nav),
      'navicular.upper': place(navUpper),
      'navicular.lower': place(navLower),
    },
    p3: whole.map(place),
    p3Body: body.map(place),
    navicular: navicular.map(place),
    solarCanal: closed(canal).map(place),
    p3Joint: open([-16, -30, -48, -66, -84, -100, -111].map((a) => arc(socket + 0.7, a))).map(place),
    p3Sole: open([at(-4, 0.9), times(nav, 0.4), plus(times(nav, 0.72), at(-1, -1.6)), plus(nav, at(1, -3))]).map(place),
    p3Dorsal: open([face(6, -0.6), face(long * 0.4, -0.5), face(long * 0.76, -0.5)]).map(place),
    navicularFlexor: open([arc(26.6, 217), arc(27.2, 224), arc(27.4, 232), arc(27.1, 240), arc(25.6, 246)]).map(place),
  };
}
