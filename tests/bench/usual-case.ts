import { readFileSync } from 'node:fs';
import { randomFrom } from '../property/random-edits.ts';

/**
 * A case of `visits` visits as most are: weight and pulse, one film with scale, ground and 20 landmarks, a tape, a trim, the
 * next visit; about 1.1 KB each. The films are those of the sound foot among the examples, each turned, moved, made larger or
 * smaller and placed anew with a little scatter, so that no two are alike. Fore feet by turns; a week apart from 1980 on.
 */
export function usualCase(visits: number): string {
  const random = randomFrom(4711);
  const between = (low: number, high: number): number => low + ((high - low) * random(1_000_000)) / 1_000_000;
  const parts = [head];
  for (let i = 0; i < visits; i++) parts.push(visit(i, between, random));
  return parts.join('\n');
}

const head = `hoof 1

case "Juniper"
  animal    horse gelding
  breed     "cob"
  foaled    1978-05
  height    148 cm
`;

const walks = ['Walks out well.', 'Short on the turn.', 'Sound on the hard.', 'Stiff at first, then free.'];

interface Film {
  readonly foot: string;
  readonly marker: readonly Place[];
  readonly ground: readonly Place[];
  readonly landmarks: readonly (readonly [name: string, place: Place])[];
}
type Place = readonly [x: number, y: number];

/** Seldom placed, and left out so that a visit comes to the length that most have. */
const seldom = new Set([
  'p3.navicular',
  'navicular.upper',
  'navicular.lower',
  'fetlock.centre',
  'wall.turn',
  'p3.wing.other',
]);

const films = filmsOf('bramble');

function filmsOf(example: string): Film[] {
  const text = readFileSync(new URL(`../../examples/${example}.hoof`, import.meta.url), 'utf8');
  return text
    .split(/^ {2}film /m)
    .slice(1)
    .map((film) => ({
      foot: film.slice(0, 2),
      marker: segmentIn(film, /scale .*= (.*)/),
      ground: segmentIn(film, /ground +(.*)/),
      landmarks: [...film.matchAll(/^ +(\S+) +@ +([\d.]+), +([\d.]+)/gm)].flatMap(([, name = '', x, y]) =>
        seldom.has(name) ? [] : [[name, [Number(x), Number(y)]] as const],
      ),
    }));
}

function segmentIn(film: string, where: RegExp): Place[] {
  const [, points = ''] = where.exec(film) ?? [];
  return points.split('..').map((point) => {
    const [x = NaN, y = NaN] = point.split(',').map(Number);
    return [x, y] as const;
  });
}

function visit(i: number, between: (low: number, high: number) => number, random: (below: number) => number): string {
  const film = films[i % films.length] as Film;
  const size = between(0.85, 1.15);
  const turn = between(-0.06, 0.06);
  const [right, down] = [between(-60, 120), between(-40, 80)];
  const anew = ([x, y]: Place, scatter: number): string => {
    const place = [
      size * (x * Math.cos(turn) - y * Math.sin(turn)) + right + between(-scatter, scatter),
      size * (x * Math.sin(turn) + y * Math.cos(turn)) + down + between(-scatter, scatter),
    ];
    return place.map((one) => (Math.round(one * 2) / 2 + 100).toString()).join(', ');
  };
  const segment = (points: readonly Place[]): string => points.map((point) => anew(point, 0.5)).join(' .. ');
  const date = new Date(Date.UTC(1980, 0, 1 + 7 * i)).toISOString().slice(0, 10);
  const landmarks = film.landmarks.map(([name, place]) => `    ${name.padEnd(17)} @ ${anew(place, 1.5)}`);
  return `visit ${date} "visit ${i + 1}"
  weight     ${495 + random(30)} kg
  obel       ${random(2)}
  pulse      LF RF ${random(4) === 0 ? 'raised' : 'normal'}
  | ${walks[random(walks.length)]}

  film ${film.foot} lateral "films/${date}-${film.foot.toLowerCase()}.png"
    scale   100 mm = ${segment(film.marker)}
    ground  ${segment(film.ground)}
${landmarks.join('\n')}

  tape ${film.foot}
    toe-length          ${82 + random(8)} mm

  trim ${film.foot}
    heel  down ${random(10) === 0 ? 2 : 1} mm

  next       7 days
`;
}
